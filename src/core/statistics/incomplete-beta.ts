/**
 * Regularized incomplete beta function I_x(a, b): the share of a beta distribution that lies below x. Continued
 * fraction of Abramowitz and Stegun 26.5.8 by Lentz's method, with I_x(a, b) = 1 - I_(1-x)(b, a) beyond the mean.
 */
import { exp, log, log1p } from '../numbers/functions.js';
import { logBeta } from './log-beta.js';

const SMALL = 1e-300;

/** @param x 0 to 1 @param a shape above 0 @param b shape above 0 @returns 0 to 1 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = exp(a * log(x) + b * log1p(-x) - logBeta(a, b));
  return x < (a + 1) / (a + b + 2)
    ? (front * fraction(x, a, b)) / a
    : 1 - (front * fraction(1 - x, b, a)) / b;
}

function fraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / notZero(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / notZero(1 + even * d);
    c = notZero(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / notZero(1 + odd * d);
    c = notZero(1 + odd / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return h;
}

function notZero(v: number): number {
  return Math.abs(v) < SMALL ? SMALL : v;
}
