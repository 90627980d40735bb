/**
 * Quantile of Student's t distribution, by inverting the incomplete beta function; the sums behind it are good to about
 * 1e-13.
 */
import { exp, log, log1p } from '../numbers/functions.js';
import { incompleteBeta } from './incomplete-beta.js';
import { invertDistribution } from './invert-distribution.js';
import { logGamma } from './log-gamma.js';
import { normalQuantile } from './normal-quantile.js';

/**
 * @param p probability, 0 < p < 1
 * @param freedom degrees of freedom, above 0
 * @returns t with P(T <= t) = p
 * @throws RangeError where an argument is outside its range
 * @example studentQuantile(0.975, 9) // 2.2621571628...
 */
export function studentQuantile(p: number, freedom: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError('a probability must lie between 0 and 1');
  if (!(freedom > 0)) throw new RangeError('degrees of freedom must be above 0');
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, freedom);
  const share = (t: number): number =>
    1 - 0.5 * incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5);
  let high = 2 * Math.max(1, normalQuantile(p));
  while (share(high) < p) high *= 2;
  return invertDistribution(p, share, (t) => density(t, freedom), high / 2, 0, high);
}

function density(t: number, v: number): number {
  const front = logGamma((v + 1) / 2) - logGamma(v / 2) - 0.5 * log(v * Math.PI);
  return exp(front - ((v + 1) / 2) * log1p((t * t) / v));
}
