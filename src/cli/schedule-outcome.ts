/** From an outcome of the search to the end of a command: found, infeasible, or stopped by a limit. */
import type { Cell } from '../core/model/cell.js';
import { bestSchedule } from '../core/schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../core/schedule/result.js';
import { complaintLines } from '../render/complaint-lines.js';
import { type NoSchedule, renderNoSchedule } from '../render/no-schedule.js';
import type { Answer } from './answer.js';
import type { OpenCell } from './cell-answer.js';
import { EXIT } from './exit-codes.js';
import type { Io } from './io.js';
import { withProgress } from './progress.js';

/** The search of every command that goes on with a schedule. */
export function searched(cell: Cell, io: Io): ScheduleOutcome {
  return withProgress(io, 'Searching for the best sequence', () =>
    bestSchedule(cell, { improvements: false }),
  );
}

/** Goes on with a schedule that was found; otherwise ends with the reason. */
export function withSchedule<T>(
  outcome: ScheduleOutcome,
  open: OpenCell,
  work: (schedule: ScheduleFound) => T | Promise<T>,
): Answer | T | Promise<T> {
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
