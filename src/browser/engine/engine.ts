/** The worker of the page: takes a question, says what it has as it comes. The page ends it when the cell has changed. */
import { bestSchedule, scheduleAgain } from '../../core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { blocksHtml } from '../../render/document/document-html.js';
import { answers, compareAnswer, noAnswer, simulateAnswer, type Worked, workedSchedule } from './answers.js';
import { takeSolver } from './carried-solver.js';
import { doDeed } from './deeds.js';
import type { AnswerStage, Asked, Deed, Doing, Said, SolverSaid } from './messages.js';
import { sweepAnswer } from './sweep-answer.js';

/** Nodes of a search that is over at once. */
const FIRST_NODES = 500;
/** Runs of the first answer of a simulation, whose wider interval is shown while the others run. */
const FIRST_RUNS = 4;

const say = (said: Said): void => postMessage(said);

self.addEventListener('message', async ({ data }: MessageEvent<Asked | Deed | SolverSaid>) => {
  if ('solver' in data) {
    takeSolver(data.solver);
    return;
  }
  if ('deed' in data) {
    const tell = (done: number, of: number): void => postMessage({ doing: [done, of] } satisfies Doing);
    postMessage(await doDeed(data, tell));
    return;
  }
  const asked = data;
  const { id, question } = asked;
  try {
    if (question === 'schedule') answerSchedule(asked);
    else await answerOther(asked);
    say({ id, kind: 'done', question });
  } catch (error) {
    say({ id, kind: 'failed', question, reason: error instanceof Error ? error.message : String(error) });
  }
});

/** A first answer at once, how much more there can be, the best sequence, then what a second or a change is worth. */
function answerSchedule(asked: Asked): void {
  const { cell, known, rateOnly } = asked;
  const again = known === null ? null : scheduleAgain(cell, known);
  if (again !== null) sayFirst(asked, again);
  if (again !== null && rateOnly) return;
  const start = again === null ? {} : { known: [again] };
  const quick = bestSchedule(cell, { improvements: false, nodeLimit: FIRST_NODES, ...start });
  if ('order' in quick) sayFirst(asked, quick);
  if (rateOnly) return;
  const found = bestSchedule(cell, { improvements: false });
  if (!('order' in found)) {
    sayWorked(asked, 'whole', noAnswer(found), null);
    return;
  }
  sayWorked(asked, 'found', workedSchedule(cell, found), found);
  const whole = bestSchedule(cell, { whatIf: true });
  if ('order' in whole) sayWorked(asked, 'whole', workedSchedule(cell, whole), whole);
}

function sayFirst(asked: Asked, schedule: ScheduleFound): void {
  sayWorked(asked, 'first', { ...workedSchedule(asked.cell, schedule), blocks: [] }, schedule);
}

async function answerOther(asked: Asked): Promise<void> {
  const { id, question, cell } = asked;
  if (question === 'schedule') return;
  if (question === 'sweep') {
    await answerSweep(asked);
    return;
  }
  const progress = (done: number, of: number): void => say({ id, kind: 'progress', question, done, of });
  const outcome = () => bestSchedule(cell, { improvements: false });
  if (question === 'compare') {
    const named = [...(asked.others ?? []), { name: 'now', cell }];
    sayWorked(asked, 'whole', await compareAnswer(named, progress), null);
    return;
  }
  if (question === 'simulate')
    sayWorked(asked, 'first', await simulateAnswer(cell, outcome(), () => undefined, FIRST_RUNS), null);
  sayWorked(asked, 'whole', await answers[question](cell, outcome, progress), null);
}

/** The line by short searches first, then by those that the command `sweep` makes. */
async function answerSweep(asked: Asked): Promise<void> {
  const { id, question, swept } = asked;
  if (swept === undefined) return;
  const quick = await sweepAnswer(swept, FIRST_NODES, () => undefined);
  sayWorked(asked, 'first', quick, null);
  const progress = (done: number, of: number): void => say({ id, kind: 'progress', question, done, of });
  sayWorked(asked, 'whole', await sweepAnswer(swept, null, progress), null);
}

function sayWorked(
  { id, question }: Asked,
  stage: AnswerStage,
  { result, blocks, isNone = false }: Worked,
  schedule: ScheduleFound | null,
): void {
  const within = blocks.filter((block) => block.kind !== 'section');
  const html = blocksHtml(within, question);
  say({ id, kind: 'answer', question, stage, result, html, schedule, isNone });
}
