/** How many values fall where, in even steps of which one edge lies at 0. */
import { decadeOf } from '../../numbers/functions.js';

export interface Histogram {
  /** Lower edge of the first step. */
  readonly from: number;
  /** Width of a step, above 0: 1, 2 or 5 times a power of ten. */
  readonly step: number;
  /** Values in each step, its upper edge included: those above 0 are exactly those in steps above 0. */
  readonly counts: readonly number[];
}

const STEPS_WANTED = 28;
/** Values closer together than this share of their size, or this in all, count as alike. */
const LEAST_SPREAD = 1e-9;

/**
 * @param sorted one or more finite values, ascending
 * @returns counts that add up to the number of values; some 15 to 45 steps, one or two where all values are alike
 * @throws RangeError where there is no value
 * @example histogram([-0.5, 0, 2]) // { from: -0.6, step: 0.1, counts: [1, 0, 0, 0, 0, 1, ...] }, up to rounding
 */
export function histogram(sorted: ArrayLike<number>): Histogram {
  const [least, most] = [sorted[0], sorted[sorted.length - 1]];
  if (least === undefined || most === undefined) throw new RangeError('a histogram needs at least one value');
  const size = Math.max(Math.abs(least), Math.abs(most));
  const step = roundStep(
    most - least > LEAST_SPREAD * Math.max(1, size) ? (most - least) / STEPS_WANTED : Math.max(1, size),
  );
  // Above 0 stays above 0, however little.
  const index = (value: number) =>
    Math.max(Math.ceil(value / step) - 1, value > 0 ? 0 : Number.NEGATIVE_INFINITY);
  const first = index(least);
  const counts = new Array<number>(index(most) - first + 1).fill(0);
  for (let k = 0; k < sorted.length; k++) counts[index(sorted[k]!) - first]!++;
  return { from: first * step, step, counts };
}

/** The nearest of 1, 2, 5, 10 times a power of ten, by ratio. */
function roundStep(wanted: number): number {
  const decade = Number(`1e${decadeOf(wanted)}`);
  const share = wanted / decade;
  const of = share < Math.SQRT2 ? 1 : share < Math.sqrt(10) ? 2 : share < Math.sqrt(50) ? 5 : 10;
  return of * decade;
}
