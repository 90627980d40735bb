/** How many values fall where, in even steps of which one edge lies at 0. */

export interface Histogram {
  /** Lower edge of the first step. */
  readonly from: number;
  /** Width of a step, above 0: 1, 2 or 5 times a power of ten. */
  readonly step: number;
  /** Values in each step, its upper edge included: those above 0 are exactly those in steps above 0. */
  readonly counts: readonly number[];
}

const STEPS_WANTED = 28;

/**
 * @param sorted one or more finite values, ascending
 * @returns counts that add up to the number of values; about 15 to 40 steps, one where all values are alike
 * @throws RangeError where there is no value
 * @example histogram([-1, 0, 1, 3]) // steps of 0.2: 0 counts in the step that ends at 0
 */
export function histogram(sorted: ArrayLike<number>): Histogram {
  const [least, most] = [sorted[0], sorted[sorted.length - 1]];
  if (least === undefined || most === undefined) throw new RangeError('a histogram needs at least one value');
  const step = roundStep((most - least) / STEPS_WANTED || Math.max(1, Math.abs(most)));
  const index = (value: number) => Math.ceil(value / step) - 1;
  const first = index(least);
  const counts = new Array<number>(index(most) - first + 1).fill(0);
  for (let k = 0; k < sorted.length; k++) counts[index(sorted[k]!) - first]!++;
  return { from: first * step, step, counts };
}

/** The nearest of 1, 2, 5, 10 times a power of ten, by ratio. */
function roundStep(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted));
  const share = wanted / power;
  const of = share < Math.SQRT2 ? 1 : share < Math.sqrt(10) ? 2 : share < Math.sqrt(50) ? 5 : 10;
  return of * power;
}
