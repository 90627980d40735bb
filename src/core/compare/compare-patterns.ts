/** The shift patterns of a cell simulated under the same luck, with the difference of every pair in parts a week. */

import { patternNames, weekCalendar } from '../calendar/week-calendar.js';
import type { Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import type { PatternFloorOptions } from '../shifts/pattern-floor.js';
import { compareSimulations } from '../simulate/compare-simulations.js';
import { simulatedFloor } from '../simulate/simulated-floor.js';
import type { SimulateContext } from '../simulate/simulation-options.js';
import type { Estimate, ShiftParts, SimulationResult } from '../simulate/simulation-result.js';
import { pairedDifference } from '../statistics/mean-interval.js';

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
  const weeks = patternNames(cell.shifts).map((name) => weekCalendar(cell.shifts, name));
  const floors = weeks.map(({ pattern }) => simulatedFloor(cell, schedule, pattern, floor));
  const { variants } = await compareSimulations(
    weeks.map((week, i) => ({
      name: week.pattern,
      cell,
      options: { replications, seed, ...floors[i]!, losses: false },
    })),
    context,
  );
  const known = variants.map(({ name, result }, i) => {
    const shifts = weeks[i]!.shifts.length;
    const { mean, ciLow, ciHigh } = result.partsPerShift.total!;
    const scaled = { mean: mean * shifts, ciLow: times(ciLow, shifts), ciHigh: times(ciHigh, shifts) };
    return {
      pattern: {
        pattern: name,
        program: floors[i]!.program,
        partsPerWeek: scaled,
        partsPerShift: result.partsPerShift.total!,
        byShift: result.byShift,
      },
      weekly: result.meanByReplication.map((m) => m * shifts),
    };
  });
  const pairs = (known.length * (known.length - 1)) / 2;
  return {
    replications,
    seed,
    patterns: known.map((k) => k.pattern),
    differences: known.flatMap((a, i) =>
      known.slice(i + 1).map((b) => ({
        a: a.pattern.pattern,
        b: b.pattern.pattern,
        ...difference(a.weekly, b.weekly, pairs),
      })),
    ),
  };
}

function times(value: number | null, by: number): number | null {
  return value === null ? null : value * by;
}

function difference(
  a: readonly number[],
  b: readonly number[],
  pairs: number,
): Pick<PatternDifference, 'partsPerWeek' | 'clear'> {
  const { mean, ciLow, ciHigh, n } = pairedDifference(a, b, CONFIDENCE);
  if (n === 1) return { partsPerWeek: { mean, ciLow: null, ciHigh: null }, clear: false };
  const wide = pairedDifference(a, b, 1 - (1 - CONFIDENCE) / pairs);
  return { partsPerWeek: { mean, ciLow, ciHigh }, clear: wide.ciLow > 1e-9 || wide.ciHigh < -1e-9 };
}
