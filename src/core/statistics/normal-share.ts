/** The standard normal distribution: the share of outcomes below a value. Its inverse is `normalQuantile`. */
import { exp } from '../numbers/functions.js';

/** Beyond this the distribution is 0 or 1 to double precision. */
const FAR = 8;

/**
 * Series of G. Marsaglia, *Evaluating the Normal Distribution*, Journal of Statistical Software 11(4), 2004; absolute
 * error about 1e-15.
 *
 * @param x any finite number
 * @returns the share of outcomes below x, 0 to 1
 * @example normalShare(0) // 0.5
 */
export function normalShare(x: number): number {
  if (x <= -FAR) return 0;
  if (x >= FAR) return 1;
  let [sum, before, term] = [x, 0, x];
  for (let k = 3; sum !== before; k += 2) {
    before = sum;
    term *= (x * x) / k;
    sum += term;
  }
  return 0.5 + (sum * exp(-0.5 * x * x)) / Math.sqrt(2 * Math.PI);
}
