/** The answers as they come in, and the workers that find them. */
import { computed, effect, signal, untracked } from '@preact/signals';
import type { Cell } from '../../core/model/cell.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { type Asker, asker, type Hired } from '../engine/asker.js';
import type { AnswerSaid, Asked, Question, Said } from '../engine/messages.js';
import { sweepWanted } from './slide.js';
import { inspection, isDragging, tables, variantCells } from './store.js';

/** What is known of one question. */
export interface ShownAnswer {
  /** The last answer; null before the first, and where the tables have errors. */
  readonly said: AnswerSaid | null;
  /** It is of the tables before the last change, or not the last word on these. */
  readonly isWorking: boolean;
  /** It is of the tables before the last change. */
  readonly isStale: boolean;
  readonly progress: { readonly done: number; readonly of: number } | null;
  /** A fault of the program. */
  readonly failed: string | null;
}

const NOTHING: ShownAnswer = { said: null, isWorking: false, isStale: false, progress: null, failed: null };

export const QUESTIONS: readonly Question[] = [
  'schedule',
  'size',
  'shifts',
  'simulate',
  'mix',
  'jobs',
  'costcase',
  'io',
  'compare',
  'sweep',
];

const answers = new Map(QUESTIONS.map((question) => [question, signal<ShownAnswer>(NOTHING)]));

export function answerTo(question: Question): ShownAnswer {
  return answers.get(question)!.value;
}

/** Questions whose section is open; the schedule is always asked for, so it is there at once. */
export const opened = signal<ReadonlySet<Question>>(new Set(['schedule']));

/** The schedule that is shown, if any. */
export function shownSchedule(): ScheduleFound | null {
  return answerTo('schedule').said?.schedule ?? null;
}

/** What the last search for the best sequence gave, and the cell that it is of. */
export const searched = signal<{ readonly cell: Cell | null; readonly found: ScheduleFound | null } | null>(
  null,
);

function hear(said: Said): void {
  const answer = answers.get(said.question)!;
  const { value } = answer;
  switch (said.kind) {
    case 'answer':
      if (said.question === 'schedule' && said.stage !== 'first') searchEnded(said.schedule);
      answer.value = {
        said,
        isWorking: said.stage !== 'whole',
        isStale: false,
        progress: null,
        failed: null,
      };
      return;
    case 'progress':
      answer.value = { ...value, progress: { done: said.done, of: said.of } };
      return;
    case 'done':
      answer.value = { ...value, isWorking: isDragging.value, progress: null };
      return;
    case 'failed':
      answer.value = { ...NOTHING, failed: said.reason };
      if (said.question === 'schedule') searchEnded(null);
  }
}

/** Those who go on from the best sequence may begin; the first word on it counts, which says no more than they need. */
function searchEnded(found: ScheduleFound | null): void {
  // An answer to an older cell is not heard.
  const cell = inspection.peek().cell;
  if (searched.peek()?.cell !== cell) searched.value = { cell, found };
}

/** Questions that go on from the best sequence, so that it is searched for once. */
const ON_SEQUENCE: ReadonlySet<Question> = new Set(['shifts', 'simulate', 'jobs', 'costcase']);

/** What a question needs beside the cell; null while there is nothing to ask. */
type More = Pick<Asked, 'others' | 'swept'>;

function moreFor(question: Question): More | null {
  if (question === 'compare') return variantCells.value.length === 0 ? null : others.value;
  if (question === 'sweep') return swept.value;
  return NO_MORE;
}

const NO_MORE: More = {};
const others = computed(() => ({ others: variantCells.value }));
const swept = computed(() => (sweepWanted.value === null ? null : { swept: sweepWanted.value }));

/** Asks anew whenever the cell or the open sections change. @param hire starts a worker of a question */
export function keepAnswering(hire: (question: Question) => Hired): void {
  const askers = new Map<Question, Asker>(
    QUESTIONS.map((question) => [question, asker(() => hire(question), hear)]),
  );
  const answered = new Map<Question, { readonly cell: Cell; readonly more: More }>();
  effect(() => {
    const { cell } = inspection.value;
    const mores = new Map(QUESTIONS.map((question) => [question, moreFor(question)]));
    const wanted = new Set<Question>(['schedule', ...opened.value]);
    const rateOnly = isDragging.value;
    const isSearched = searched.value?.cell === cell;
    untracked(() => {
      for (const question of QUESTIONS) {
        const more = mores.get(question)!;
        const before = answered.get(question);
        const isNew = before?.cell !== cell || before?.more !== more;
        const isAsked = wanted.has(question) && more !== null;
        if (cell === null || (isNew && !isAsked)) forget(question);
        else if (!isAsked) continue;
        else if (question !== 'schedule' && (rateOnly || (ON_SEQUENCE.has(question) && !isSearched)))
          wait(question);
        else if (rateOnly || isNew) ask(question, cell, rateOnly, more);
      }
    });
  });

  function ask(question: Question, cell: Cell, rateOnly: boolean, more: More): void {
    if (!rateOnly) answered.set(question, { cell, more });
    else answered.delete(question);
    const known = question === 'schedule' ? shownSchedule() : null;
    const answer = answers.get(question)!;
    answer.value = { ...answer.value, isWorking: true, isStale: true, progress: null, failed: null };
    const { found = null } = searched.value?.cell === cell ? searched.value : {};
    askers
      .get(question)!
      .ask({ question, cell, files: Object.keys(tables.peek()), rateOnly, known, found, ...more });
  }

  function wait(question: Question): void {
    askers.get(question)!.stop();
    answered.delete(question);
    const answer = answers.get(question)!;
    answer.value = { ...answer.value, isWorking: true, isStale: true, progress: null };
  }

  function forget(question: Question): void {
    askers.get(question)!.stop();
    answered.delete(question);
    answers.get(question)!.value = NOTHING;
  }
}
