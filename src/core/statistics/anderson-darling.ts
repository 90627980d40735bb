/** How far a sample lies from a distribution, the tails counted fully. */
import { log, log1p } from '../numbers/functions.js';

/** Shares are kept this far from 0 and 1, so that a value beyond the distribution's end gives a large distance, not none. */
const LEAST = 1e-300;
const NEXT_TO_ONE = 1 - 2 ** -53;

/**
 * The statistic A^2 of T. W. Anderson and D. A. Darling, Annals of Mathematical Statistics 23, 1952.
 *
 * @param sorted values ascending, one or more
 * @param share the distribution: share of outcomes below x
 * @returns 0 or more; the larger, the worse the fit
 */
export function andersonDarling(sorted: ArrayLike<number>, share: (x: number) => number): number {
  const n = sorted.length;
  const below = Float64Array.from(sorted, (x) => Math.min(NEXT_TO_ONE, Math.max(LEAST, share(x))));
  let sum = 0;
  for (let i = 0; i < n; i++) sum += (2 * i + 1) * (log(below[i]!) + log1p(-below[n - 1 - i]!));
  return -n - sum / n;
}
