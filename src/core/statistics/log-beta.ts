/** Natural logarithm of the beta function. */
import { logGamma } from './log-gamma.js';

/**
 * ln B(a, b) = ln G(a) + ln G(b) - ln G(a + b), G the gamma function.
 *
 * @param a above 0
 * @param b above 0
 * @throws RangeError where a or b is not above 0
 * @example logBeta(2, 3) // ln(1 / 12)
 */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}
