/** The result of a comparison as plain data. */

import type { Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleOutcome } from '../schedule/result.js';
import type { ShiftPatterns } from '../shifts/shift-patterns.js';
import type { Estimate, SimulationResult } from '../simulate/simulation-result.js';

export interface ComparedCell {
  readonly name: string;
  readonly stations: Cell['stations'];
  /** What the robot is programmed to do in the simulation. */
  readonly dispatch: Program;
  /** Without the cell's other figures where it has no schedule: the reason is in it. */
  readonly schedule: ScheduleOutcome;
  readonly shifts: ShiftPatterns | null;
  readonly simulated: SimulationResult | null;
}

export interface ComparedPair {
  readonly a: string;
  readonly b: string;
  /** Simulated good parts per shift, a less b, under the same luck. */
  readonly partsPerShift: Estimate;
  /**
   * Neither chance nor what the search left open can turn it: the interval leaves out 0 (with several pairs it is drawn
   * wider for this, Bonferroni), and all of it is more than the cell that makes less could gain by a better sequence.
   */
  readonly clear: boolean;
  /** Good parts a shift that the search left open for the cell that makes less; null where no bound is known. */
  readonly openPerShift: number | null;
}

export interface CellComparison {
  readonly cells: readonly ComparedCell[];
  /** Of every pair; empty where counts of parts cannot be compared. */
  readonly differences: readonly ComparedPair[];
  /** Why counts of parts cannot be compared, in sentences; empty where they can. */
  readonly incomparable: readonly string[];
  /**
   * First by simulated good parts per shift, and by the deterministic measures; null where there is none, and for counts
   * of parts that cannot be compared.
   */
  readonly best: {
    readonly bySimulatedParts: string | null;
    readonly byPartsPerH: string | null;
    readonly byContribution: string | null;
  };
  /** False where the first two cannot be told apart. */
  readonly clear: boolean;
  readonly recommendation: string;
  /** Pattern that was simulated; null = day and night. */
  readonly pattern: string | null;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}
