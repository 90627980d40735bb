/**
 * The worker of the robot's sequence alone: small, so that it starts at once. The page ends it when the cell has changed
 * and it is still busy.
 */
import { bestSchedule, scheduleAgain, scheduleByRule } from '../../core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { Asked, Said } from './messages.js';
import { noAnswer, rateOf, workedSchedule } from './schedule-answer.js';
import { saidOf, sayAll } from './worked.js';

/** Nodes of a search that is over at once. */
const FIRST_NODES = 500;

const say = (said: Said): void => postMessage(said);

self.addEventListener('message', ({ data: asked }: MessageEvent<Asked>) => {
  void sayAll(asked, say, () => answer(asked));
});

/** A first answer by rule at once, how much more there can be, the best sequence, then what a second or a change is worth. */
function answer(asked: Asked): void {
  const { cell, known, rateOnly } = asked;
  const again = known === null ? null : scheduleAgain(cell, known);
  const first = again ?? scheduleByRule(cell);
  if (first !== null) sayRate(asked, first);
  if (first !== null && rateOnly) return;
  const start = first === null ? {} : { known: [first] };
  const quick = bestSchedule(cell, { improvements: false, nodeLimit: FIRST_NODES, ...start });
  if ('order' in quick) sayRate(asked, quick);
  if (rateOnly) return;
  const found = bestSchedule(cell, { whatIf: true }, (best) => sayWhole(asked, 'found', best));
  if ('order' in found) sayWhole(asked, 'whole', found);
  else say(saidOf(asked, 'whole', noAnswer(found)));
}

function sayRate(asked: Asked, schedule: ScheduleFound): void {
  say(saidOf(asked, 'first', rateOf(schedule), schedule));
}

function sayWhole(asked: Asked, stage: 'found' | 'whole', schedule: ScheduleFound): void {
  say(saidOf(asked, stage, workedSchedule(asked.cell, schedule), schedule));
}
