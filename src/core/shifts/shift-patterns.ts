/** All patterns of a cell side by side, and the best by each measure. */

import { patternNames } from '../calendar/week-calendar.js';
import { emptyStartWarnings } from '../floor/empty-start.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { type ShiftYield, type ShiftYieldOptions, shiftYield } from './shift-yield.js';

/** Names of the best patterns; null where the measure cannot be had for any. Ties go to the first in the table. */
export interface BestPattern {
  readonly byParts: string | null;
  readonly byLabourCostPerPart: string | null;
  readonly byContribution: string | null;
  /** Meets most of the demand per shift of every part; of those that meet all of it, least labour cost a part. */
  readonly byDemand: string | null;
}

export interface ShiftPatternOptions extends ShiftYieldOptions {
  /** The only pattern to run; default all of shifts.csv. */
  readonly pattern?: string;
}

export interface ShiftPatterns {
  readonly patterns: readonly ShiftYield[];
  readonly best: BestPattern;
  /** The steady rate, by part and total: all there is to say where no shifts are given. */
  readonly partsPerH: Readonly<Record<string, number>>;
  readonly warnings: readonly string[];
}

/**
 * @param cell the cell
 * @param schedule its best order
 * @param onProgress called after each pattern
 * @returns one yield a pattern; with no shifts an empty list and a warning
 */
export function shiftPatterns(
  cell: Cell,
  schedule: ScheduleFound,
  { pattern: only, ...options }: ShiftPatternOptions,
  onProgress: (done: number, planned: number) => void = () => undefined,
): ShiftPatterns {
  const names = patternNames(cell.shifts).filter((name) => name === (only ?? name));
  const patterns = names.map((pattern, k) => {
    const found = shiftYield(cell, schedule, pattern, options);
    onProgress(k + 1, names.length);
    return found;
  });
  const warnings =
    patterns.length > 0
      ? []
      : [
          'No shifts are given, so there are figures per hour only. Fill in shifts.csv for parts per shift.',
          ...emptyStartWarnings(cell, schedule),
        ];
  return { patterns, best: bestPattern(patterns), partsPerH: schedule.partsPerH, warnings };
}

/** The best of the given patterns by good parts a week, labour cost per part, margin a week, and demand. */
export function bestPattern(patterns: readonly ShiftYield[]): BestPattern {
  return {
    byParts: bestBy(patterns, (p) => p.partsPerWeek.total ?? null),
    byLabourCostPerPart: bestBy(patterns, (p) =>
      p.labourCostPerPart === null ? null : -p.labourCostPerPart,
    ),
    byContribution: bestBy(patterns, (p) => p.contributionPerWeek),
    byDemand: bestByDemand(patterns),
  };
}

function bestByDemand(patterns: readonly ShiftYield[]): string | null {
  const meeting = patterns.filter((p) => (p.demandMetPct ?? 0) >= 100);
  // By the week: the parts of a further shift beyond the demand make the labour of each part cheaper, not the week's.
  const least = bestBy(meeting, (p) => -p.labourCostPerWeek);
  return least ?? bestBy(patterns, (p) => p.demandMetPct);
}

function bestBy(patterns: readonly ShiftYield[], measure: (p: ShiftYield) => number | null): string | null {
  let best: { readonly pattern: string; readonly value: number } | null = null;
  for (const p of patterns) {
    const value = measure(p);
    if (value !== null && (best === null || value > best.value)) best = { pattern: p.pattern, value };
  }
  return best?.pattern ?? null;
}
