/** How many readings a mean needs to be known as well as is asked. */
import { normalQuantile } from '../statistics/normal-quantile.js';
import { studentQuantile } from '../statistics/student-quantile.js';

export interface Precision {
  /** How near the mean is to be known, to either side, per cent of the mean; above 0. */
  readonly accuracyPct: number;
  /** Chance with which it is; above 0 and below 100. */
  readonly confidencePct: number;
}

/** More than this nobody takes; a wish that asks for more is told as such. */
const MOST = 1e9;

/**
 * (z s / (k m))^2, not rounded: the number of readings by the normal distribution (International Labour Office,
 * *Introduction to Work Study*; A. Freivalds, B. Niebel, *Methods, Standards and Work Design*). With z = 2, k = 0.05 and
 * the deviation over n instead of n - 1 it is the form (40 sqrt(n Sum x^2 - (Sum x)^2) / Sum x)^2 of the former.
 *
 * @param mean above 0
 * @param sd standard deviation, 0 or more, in the unit of the mean
 * @param z quantile that stands for the confidence, such as 1.96 for 95 per cent, or 2 in many textbooks
 * @param accuracyPct above 0
 * @throws RangeError where an argument is outside its range
 * @example readingsByNormal(3, 1, 1.96, 5) // 170.74
 */
export function readingsByNormal(mean: number, sd: number, z: number, accuracyPct: number): number {
  if (!(mean > 0) || !(sd >= 0) || !(z > 0) || !(accuracyPct > 0))
    throw new RangeError('mean, z and accuracy must be above 0 and the deviation 0 or more');
  return ((z * sd * 100) / (accuracyPct * mean)) ** 2;
}

/** z for a confidence to both sides. @example twoSidedZ(95) // 1.9599639845400538 */
export function twoSidedZ(confidencePct: number): number {
  return normalQuantile((1 + confidencePct / 100) / 2);
}

/**
 * The least n, 2 or more, with t(n - 1) s / sqrt(n) <= k m, t Student's quantile: the deviation is itself an estimate,
 * which matters below some thirty readings. Found by halving, since the left side falls with n.
 *
 * @throws RangeError where an argument is outside its range
 */
export function readingsByStudent(mean: number, sd: number, precision: Precision): number {
  const { accuracyPct, confidencePct } = precision;
  const fromNormal = readingsByNormal(mean, sd, twoSidedZ(confidencePct), accuracyPct);
  const p = (1 + confidencePct / 100) / 2;
  const isEnough = (n: number): boolean =>
    studentQuantile(p, n - 1) * sd * 100 <= accuracyPct * mean * Math.sqrt(n);
  let low = Math.max(2, Math.ceil(fromNormal));
  if (low >= MOST) return low;
  if (isEnough(low)) return low;
  let high = low * 2;
  while (!isEnough(high)) high *= 2;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
