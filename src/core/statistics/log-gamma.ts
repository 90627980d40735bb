/**
 * Natural logarithm of the gamma function for x > 0: Stirling's series with Bernoulli terms after shifting x to 12 or
 * more (Abramowitz and Stegun 6.1.41 and 6.1.15); error below 1e-14 relative to max(1, value).
 *
 * @example logGamma(5) // log(24)
 */
import { log } from '../numbers/functions.js';

export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError('the gamma function is used for values above 0 only');
  let shift = 1;
  let y = x;
  while (y < 12) {
    shift *= y;
    y += 1;
  }
  const r = 1 / (y * y);
  const series =
    (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r * (1 / 1188 - r * (691 / 360360)))))) / y;
  return (y - 0.5) * log(y) - y + 0.9189385332046728 + series - log(shift);
}
