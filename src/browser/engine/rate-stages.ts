/** The robot's sequence as it becomes known: by rule at once, the best so far, the best, and what a change would give. */
import { bestSchedule, scheduleAgain, scheduleByRule } from '../../core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { Asked, Said } from './messages.js';
import { noAnswer, rateOf, workedSchedule } from './schedule-answer.js';
import { saidOf } from './worked.js';

/** Nodes of a search that is over at once. */
const FIRST_NODES = 500;

/** While something is dragged only the first answer is wanted. */
export function sayRates(asked: Asked, say: (said: Said) => void): void {
  const { cell, known, rateOnly } = asked;
  const sayRate = (schedule: ScheduleFound): void => say(saidOf(asked, 'first', rateOf(schedule), schedule));
  const sayWhole = (stage: 'found' | 'whole', schedule: ScheduleFound): void =>
    say(saidOf(asked, stage, workedSchedule(cell, schedule), schedule));
  const again = known === null ? null : scheduleAgain(cell, known);
  const first = again ?? scheduleByRule(cell);
  if (first !== null) sayRate(first);
  if (first !== null && rateOnly) return;
  const start = first === null ? {} : { known: [first] };
  const quick = bestSchedule(cell, { improvements: false, nodeLimit: FIRST_NODES, ...start });
  if ('order' in quick) sayRate(quick);
  if (rateOnly) return;
  const found = bestSchedule(cell, { whatIf: true }, (best) => sayWhole('found', best));
  if ('order' in found) sayWhole('whole', found);
  else say(saidOf(asked, 'whole', noAnswer(found)));
}
