/** The rate, how sure it is and what sets the pace: always in sight. */
import type { ScheduleFound } from '../../core/schedule/result.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { numberText, secondsText } from '../../render/numbers.js';
import { showTable } from '../grid/cell-panel.js';
import { answerTo } from '../state/answers.js';
import { errors } from '../state/store.js';

export function RateLine() {
  return (
    <section class="rate" aria-label="Output of the cell">
      {errors.value.length > 0 ? <Fix /> : <Rate />}
    </section>
  );
}

function Fix() {
  const [first] = errors.value;
  const count = errors.value.length;
  const files = [...new Set(errors.value.map(({ file }) => file))];
  return (
    <>
      <p>
        <strong>{count === 1 ? '1 error' : `${count} errors`} in the tables: no results.</strong>{' '}
        {files.map((file) => (
          <button key={file} type="button" class="plain" onClick={() => showTable(file)}>
            Show {file}
          </button>
        ))}
      </p>
      <p>
        {complaintLines([first!])} {first!.help}
      </p>
    </>
  );
}

function Rate() {
  const { said, isWorking, failed } = answerTo('schedule');
  if (failed !== null) return <p>The program failed: {failed}</p>;
  if (said === null) return <p>Searching for the best sequence …</p>;
  if (said.schedule === null) return <p>No sequence can be repeated; the reason is below.</p>;
  const { schedule, stage } = said;
  return (
    <>
      <p class="figure">
        <strong>{numberText(schedule.partsPerH.total!, 1)}</strong> parts/h
      </p>
      <p class="sure">
        {stage === 'first' ? searchingWords(schedule) : sureWords(schedule)}
        {isWorking ? ' …' : ''}
      </p>
      <p>
        Robot cycle {secondsText(schedule.periodS)}. {stage === 'first' ? '' : schedule.bottleneck.text}
      </p>
    </>
  );
}

function searchingWords({ gapPct }: ScheduleFound): string {
  return gapPct === null
    ? 'First answer, still searching'
    : `Best so far, at most ${numberText(gapPct, 1)}% more; still searching`;
}

function sureWords({ proven, gapPct }: ScheduleFound): string {
  if (proven) return 'Proven optimal';
  return gapPct === null ? 'Best found' : `Best found, at most ${numberText(gapPct, 1)}% more is possible`;
}
