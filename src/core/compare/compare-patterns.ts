/** The shift patterns of a cell simulated under the same luck, with the difference of every pair in parts a week. */

import { patternNames, weekCalendar } from '../calendar/week-calendar.js';
import type { Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import type { PatternFloorOptions } from '../shifts/pattern-floor.js';
import { pairedEstimate } from '../simulate/estimate.js';
import { simulateCell } from '../simulate/simulate-cell.js';
import { simulatedFloor } from '../simulate/simulated-floor.js';
import type { SimulateContext } from '../simulate/simulation-options.js';
import type { Estimate, ShiftParts, SimulationResult } from '../simulate/simulation-result.js';

export interface SimulatedPattern {
  readonly pattern: string;
  /** What the robot is programmed to do in it. */
  readonly program: Program;
  readonly partsPerWeek: Estimate;
  readonly partsPerShift: ShiftParts;
  /** The same of the shifts of each name. */
  readonly byShift: SimulationResult['byShift'];
}

export interface PatternDifference {
  readonly a: string;
  readonly b: string;
  /** Good parts a week, a less b. */
  readonly partsPerWeek: Estimate;
  /** The interval leaves out 0; drawn wider for this where there are several pairs (Bonferroni). */
  readonly clear: boolean;
}

export interface PatternComparison {
  readonly replications: number;
  readonly seed: number;
  readonly patterns: readonly SimulatedPattern[];
  readonly differences: readonly PatternDifference[];
}

export interface PatternComparisonOptions extends PatternFloorOptions {
  readonly replications?: number;
  readonly seed?: number;
}

const CONFIDENCE = 0.95;

/** @param cell a cell with at least one shift; the runs are those that `simulate` makes of each pattern */
export async function comparePatterns(
  cell: Cell,
  schedule: ScheduleFound,
  options: PatternComparisonOptions,
  context: SimulateContext = {},
): Promise<PatternComparison> {
  const { replications = 20, seed = 1, ...floor } = options;
  const known: { readonly pattern: SimulatedPattern; readonly weekly: readonly number[] }[] = [];
  for (const pattern of patternNames(cell.shifts)) {
    const shifts = weekCalendar(cell.shifts, pattern).shifts.length;
    const run = simulatedFloor(cell, schedule, pattern, floor);
    const result = await simulateCell(cell, { replications, seed, ...run, losses: false }, context);
    const { mean, ciLow, ciHigh } = result.partsPerShift.total!;
    known.push({
      pattern: {
        pattern,
        program: run.program,
        partsPerWeek: { mean: mean * shifts, ciLow: times(ciLow, shifts), ciHigh: times(ciHigh, shifts) },
        partsPerShift: result.partsPerShift.total!,
        byShift: result.byShift,
      },
      weekly: result.meanByReplication.map((m) => m * shifts),
    });
  }
  const pairs = (known.length * (known.length - 1)) / 2;
  return {
    replications,
    seed,
    patterns: known.map((k) => k.pattern),
    differences: known.flatMap((a, i) =>
      known.slice(i + 1).map((b): PatternDifference => {
        const { difference, leastApart } = pairedEstimate(a.weekly, b.weekly, CONFIDENCE, pairs);
        return {
          a: a.pattern.pattern,
          b: b.pattern.pattern,
          partsPerWeek: difference,
          clear: leastApart > 1e-9,
        };
      }),
    ),
  };
}

function times(value: number | null, by: number): number | null {
  return value === null ? null : value * by;
}
