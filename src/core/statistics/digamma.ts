/**
 * Derivatives of the logarithm of the gamma function for x > 0: the asymptotic series of Abramowitz and Stegun 6.3.18
 * and 6.4.11 after shifting x to 12 or more by 6.3.5 and 6.4.6; about 14 digits.
 */
import { log } from '../numbers/functions.js';

/** @throws RangeError unless x > 0 @example digamma(1) // -0.5772156649015329 (minus Euler's constant) */
export function digamma(x: number): number {
  const { y, shift } = shifted(x, (v) => -1 / v);
  const r = 1 / (y * y);
  const series = r * (1 / 12 - r * (1 / 120 - r * (1 / 252 - r * (1 / 240 - r * (1 / 132)))));
  return shift + log(y) - 0.5 / y - series;
}

/** First derivative of `digamma`. @throws RangeError unless x > 0 @example trigamma(1) // Math.PI ** 2 / 6 */
export function trigamma(x: number): number {
  const { y, shift } = shifted(x, (v) => 1 / (v * v));
  const r = 1 / (y * y);
  const series = r * (1 / 6 - r * (1 / 30 - r * (1 / 42 - r * (1 / 30 - r * (5 / 66)))));
  return shift + (1 + 0.5 / y + series) / y;
}

function shifted(x: number, term: (v: number) => number): { y: number; shift: number } {
  if (!(x > 0)) throw new RangeError('the gamma function is used for values above 0 only');
  let y = x;
  let shift = 0;
  for (; y < 12; y += 1) shift += term(y);
  return { y, shift };
}
