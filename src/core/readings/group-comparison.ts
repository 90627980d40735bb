/** Readings of one element by several observers or in several cells, each held against all the others. */
import { meanInterval } from '../statistics/mean-interval.js';
import { welchDifference } from '../statistics/welch-difference.js';
import type { StopwatchReading } from './reading.js';
import { type Summary, summary } from './summary.js';

export interface GroupFigures extends Summary {
  readonly by: 'observer' | 'cell';
  readonly name: string;
  /** Mean of this group less that of all other readings; null where either has fewer than two. */
  readonly againstOthers: { readonly mean: number; readonly ciLow: number; readonly ciHigh: number } | null;
}

/**
 * @param readings of one element
 * @param timeOf what is compared, in seconds
 * @param confidence of all differences together: each is held to more, by the number of groups (Bonferroni)
 * @returns empty where all readings are of one observer (or one cell)
 */
export function groupComparison(
  readings: readonly StopwatchReading[],
  by: 'observer' | 'cell',
  timeOf: (reading: StopwatchReading) => number,
  confidence: number,
): GroupFigures[] {
  const names = [...new Set(readings.map((r) => r[by]))].sort();
  if (names.length < 2) return [];
  const each = 1 - (1 - confidence) / (names.length === 2 ? 1 : names.length);
  return names.map((name) => {
    const own = readings.filter((r) => r[by] === name).map(timeOf);
    const others = readings.filter((r) => r[by] !== name).map(timeOf);
    const againstOthers = welchDifference(meanInterval(own), meanInterval(others), each);
    return { by, name, ...summary(own, confidence), againstOthers };
  });
}
