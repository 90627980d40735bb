/** The answers, question by question, as the report draws them; a question is worked out when its section is opened. */
import { useEffect, useRef } from 'preact/hooks';
import type { AnswerSaid, Question } from '../engine/messages.js';
import { hasSolver } from '../shell/carried.js';
import { fileName, saveFile } from '../shell/save-file.js';
import { answerTo, opened, QUESTIONS } from '../state/answers.js';
import { desk, errors, inspection } from '../state/store.js';
import { resultFile } from './result-file.js';
import { SweepControls } from './sweep-controls.js';
import { VariantList } from './variant-list.js';
import { WorkNote } from './work-note.js';

const TITLES: Readonly<Record<Question, string>> = {
  schedule: 'Robot sequence',
  size: 'How many machines?',
  shifts: 'Output per week',
  simulate: 'Output with downtime and variation',
  mix: 'What to make?',
  jobs: 'Jobs in time?',
  costcase: 'Boxes or one harness?',
  io: 'I/O points and boxes',
  compare: 'Before and after',
  sweep: 'A figure against one number',
};

/** Asked of the page alone; every other result is also what the command line prints for the cell. */
const OF_PAGE: ReadonlySet<Question> = new Set(['compare', 'sweep']);

/** Answered only where the page carries the solver. */
const NEEDS_SOLVER: ReadonlySet<Question> = new Set(['mix', 'jobs']);

export function AnswersPanel() {
  return (
    <section class="answers" aria-labelledby="answers-title">
      <h2 id="answers-title">Answers</h2>
      {QUESTIONS.filter((question) => hasSolver() || !NEEDS_SOLVER.has(question)).map((question) => (
        <AnswerSection key={question} question={question} />
      ))}
    </section>
  );
}

function AnswerSection({ question }: { readonly question: Question }) {
  const { said, isWorking, isStale, progress, failed } = answerTo(question);
  return (
    <details
      class="answer"
      id={`answer-${question}`}
      open={opened.value.has(question)}
      onToggle={(event) => toggle(question, event.currentTarget.open)}
    >
      <summary>{TITLES[question]}</summary>
      <div aria-busy={isWorking} class={isStale ? 'working' : ''}>
        {question === 'compare' && <VariantList />}
        {question === 'sweep' && <SweepControls />}
        {errors.value.length > 0 && <p>Fix the errors in the tables first.</p>}
        {failed !== null && <p>The program failed: {failed}</p>}
        {isWorking && <WorkNote progress={progress} said={isStale ? null : said} />}
        {said !== null && <Piece html={said.html} />}
        {said?.stage === 'whole' && !OF_PAGE.has(question) && (
          <button type="button" class="plain" onClick={() => saveResult(said)}>
            Save this result as JSON
          </button>
        )}
      </div>
    </details>
  );
}

function saveResult(said: AnswerSaid): void {
  const { name, tables } = desk.value;
  const text = resultFile(said, tables, inspection.value.complaints);
  saveFile(`${fileName(name)}-${said.question}.json`, text, 'application/json');
}

function toggle(question: Question, isOpen: boolean): void {
  if (opened.value.has(question) === isOpen) return;
  const next = new Set(opened.value);
  if (isOpen) next.add(question);
  else next.delete(question);
  opened.value = next;
}

/** A piece of a page from the renderers, which make every text of the tables safe. */
function Piece({ html }: { readonly html: string }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (place.current !== null) place.current.innerHTML = html;
  }, [html]);
  return <div ref={place} class="piece" />;
}
