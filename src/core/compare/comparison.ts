/** The result of a comparison as plain data. */

import type { Program } from '../floor/robot.js';
import type { ScheduleOutcome } from '../schedule/result.js';
import type { ShiftPatterns } from '../shifts/shift-patterns.js';
import type { Estimate, SimulationResult } from '../simulate/simulation-result.js';

export interface ComparedCell {
  readonly name: string;
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
  /** The interval leaves out 0. With several pairs it is drawn wider for this (Bonferroni). */
  readonly clear: boolean;
}

export interface CellComparison {
  readonly cells: readonly ComparedCell[];
  readonly differences: readonly ComparedPair[];
  /** First by simulated good parts per shift, and by the deterministic measures; null where there is none. */
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
