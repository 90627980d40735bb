/** Standard errors of quantiles and shares found by trials. */

/**
 * Standard error of a sample quantile: sqrt(p (1 - p) / n) / f, f = density of the distribution there (large samples;
 * for example Mosteller 1946).
 *
 * @param p above 0 and below 1
 * @param n readings, 1 or more
 * @param density above 0
 */
export function quantileStandardError(p: number, n: number, density: number): number {
  if (!(p > 0 && p < 1) || !(n >= 1) || !(density > 0))
    throw new RangeError('p must lie between 0 and 1, n be 1 or more, the density above 0');
  return Math.sqrt((p * (1 - p)) / n) / density;
}

/**
 * Standard error of a share seen in n independent trials: sqrt(p (1 - p) / n).
 *
 * @example shareStandardError(0.9, 3600) // 0.005
 */
export function shareStandardError(p: number, n: number): number {
  if (!(p >= 0 && p <= 1) || !(n >= 1)) throw new RangeError('p must be from 0 to 1 and n be 1 or more');
  return Math.sqrt((p * (1 - p)) / n);
}
