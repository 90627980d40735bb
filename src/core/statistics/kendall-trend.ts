/**
 * Whether a series rises or falls: the rank correlation of the values with their order (H. B. Mann, "Nonparametric tests
 * against trend", Econometrica 13, 1945; M. G. Kendall, *Rank Correlation Methods*, with ties). Single wild values hardly
 * move it.
 */
import { normalShare } from './normal-share.js';

export interface KendallTrend {
  /** Rank correlation with the order, -1 (always falling) to 1 (always rising); ties count half (tau-b). */
  readonly tau: number;
  /** Chance of a tau at least this far from 0 where there is no trend (normal approximation, two-sided). */
  readonly pValue: number;
}

/**
 * @param values in order, three or more
 * @returns null where all values are the same
 * @throws RangeError for fewer than three values
 * @example kendallTrend([1, 2, 3, 4]).tau // 1
 */
export function kendallTrend(values: readonly number[]): KendallTrend | null {
  const n = values.length;
  if (n < 3) throw new RangeError('a trend needs at least three values');
  const ties = tieSizes(values);
  const pairs = (n * (n - 1)) / 2;
  const untied = pairs - sumOf(ties, (t) => (t * (t - 1)) / 2);
  if (untied === 0) return null;
  const score = untied - 2 * countFalls(values);
  const variance = (n * (n - 1) * (2 * n + 5) - sumOf(ties, (t) => t * (t - 1) * (2 * t + 5))) / 18;
  const z = Math.max(0, Math.abs(score) - 1) / Math.sqrt(variance);
  return { tau: score / Math.sqrt(pairs * untied), pValue: Math.min(1, 2 * (1 - normalShare(z))) };
}

function tieSizes(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()];
}

function sumOf(sizes: readonly number[], term: (t: number) => number): number {
  return sizes.reduce((sum, t) => sum + term(t), 0);
}

/** Pairs of which the later value is the smaller one, counted while sorting by merging. */
function countFalls(values: readonly number[]): number {
  let from = Float64Array.from(values);
  let to = new Float64Array(values.length);
  let falls = 0;
  for (let width = 1; width < values.length; width *= 2) {
    for (let start = 0; start < values.length; start += 2 * width) falls += merge(from, to, start, width);
    [from, to] = [to, from];
  }
  return falls;
}

function merge(from: Float64Array, to: Float64Array, start: number, width: number): number {
  const middle = Math.min(start + width, from.length);
  const end = Math.min(start + 2 * width, from.length);
  let falls = 0;
  let [left, right] = [start, middle];
  for (let at = start; at < end; at++) {
    if (left < middle && (right >= end || from[left]! <= from[right]!)) to[at] = from[left++]!;
    else {
      falls += middle - left;
      to[at] = from[right++]!;
    }
  }
  return falls;
}
