/**
 * Regularized lower incomplete gamma function P(a, x): the share of a gamma distribution of shape a and scale 1 that
 * lies below x. Series for x < a + 1 (Abramowitz and Stegun 6.5.29), else the continued fraction of 6.5.31 by Lentz's
 * method.
 */
import { exp, log } from '../numbers/functions.js';
import { logGamma } from './log-gamma.js';

const SMALL = 1e-300;

/** @param a shape above 0 @param x 0 or more @returns 0 to 1 */
export function incompleteGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  const front = exp(a * log(x) - x - logGamma(a));
  return x < a + 1 ? front * series(a, x) : 1 - front * fraction(a, x);
}

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 10_000 && term > sum * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / SMALL;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < 10_000; i++) {
    const an = -i * (i - a);
    b += 2;
    d = an * d + b;
    if (Math.abs(d) < SMALL) d = SMALL;
    c = b + an / c;
    if (Math.abs(c) < SMALL) c = SMALL;
    d = 1 / d;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return h;
}
