/** From an outcome of the search to the end of a command: found, infeasible, or stopped by a limit. */
import type { ScheduleFound, ScheduleOutcome } from '../core/schedule/result.js';
import { type NoSchedule, renderNoSchedule } from '../render/no-schedule.js';
import type { Answer } from './answer.js';
import { complaintLines, type OpenCell } from './cell-answer.js';
import { EXIT } from './exit-codes.js';

/** Goes on with a schedule that was found; otherwise ends with the reason. */
export function withSchedule(
  outcome: ScheduleOutcome,
  open: OpenCell,
  work: (schedule: ScheduleFound) => Answer | Promise<Answer>,
): Answer | Promise<Answer> {
  return 'order' in outcome ? work(outcome) : noSchedule(outcome, open);
}

/** The end of a command where there is no sequence. */
export function noSchedule(outcome: NoSchedule, open: OpenCell): Answer {
  return {
    exit: outcome.status === 'infeasible' ? EXIT.infeasible : EXIT.limitReached,
    fields: { ...outcome },
    text: (style) => renderNoSchedule(outcome, style),
    inputs: open.inputs,
    warnings: complaintLines(open.complaints),
    complaints: open.complaints,
  };
}
