/** What a study starts from, and how it is run. */
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import type { SimulateContext } from '../simulate/simulation-options.js';

export interface StudyInputs {
  readonly cell: Cell;
  /** The best sequence, searched once for all studies; null where none was found or none is needed. */
  readonly schedule: ScheduleFound | null;
}

export interface StudyContext extends SimulateContext {
  /** Loads a solver of mixed programs; called only by the studies that need one. */
  readonly mixedSolver: () => Promise<MixedSolver>;
}

/** @throws RangeError where there is no sequence */
export function sequenceOf({ schedule }: StudyInputs): ScheduleFound {
  if (schedule === null) throw new RangeError('this study needs a sequence of the robot');
  return schedule;
}
