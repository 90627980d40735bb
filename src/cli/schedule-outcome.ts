/** From an outcome of the search to the end of a command: found, infeasible, or stopped by a limit. */
import type { ScheduleFound, ScheduleOutcome } from '../core/schedule/result.js';
import { renderNoSchedule } from '../render/no-schedule.js';
import type { Answer } from './answer.js';
import { complaintLines, type OpenCell } from './cell-answer.js';
import { EXIT } from './exit-codes.js';

/** Goes on with a schedule that was found; otherwise ends with the reason. */
export function withSchedule(
  outcome: ScheduleOutcome,
  open: OpenCell,
  work: (schedule: ScheduleFound) => Answer | Promise<Answer>,
): Answer | Promise<Answer> {
  if ('order' in outcome) return work(outcome);
  return {
    exit: outcome.status === 'infeasible' ? EXIT.infeasible : EXIT.limitReached,
    fields: { ...outcome },
    text: (style) => renderNoSchedule(outcome, style),
    inputs: open.inputs,
    warnings: complaintLines(open.complaints),
    complaints: open.complaints,
  };
}
