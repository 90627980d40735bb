/**
 * Weibull distribution by maximum likelihood: the shape k solves sum x^k ln x / sum x^k - 1/k = mean of ln x, the scale
 * follows (A. C. Cohen, Technometrics 7, 1965). Readings are taken relative to the largest, so that no power overflows.
 */

import { mean as meanOf } from 'simple-statistics';
import { exp, expm1, log, power } from '../../numbers/functions.js';
import { invertDistribution } from '../../statistics/invert-distribution.js';
import { logGamma } from '../../statistics/log-gamma.js';
import type { Fitter } from './fitted.js';

/** The shapes that variation.csv takes. */
const SMALLEST = 0.1;
const LARGEST = 100;

export const fitWeibull: Fitter = (sorted) => {
  const n = sorted.length;
  const largest = sorted[n - 1]!;
  const logs = Float64Array.from(sorted, (x) => log(x / largest));
  const logMean = meanOf([...logs]);
  const sums = (k: number) => powerSums(logs, k);
  const excess = (k: number): number => {
    const { one, log } = sums(k);
    return log / one - 1 / k - logMean;
  };
  if (excess(SMALLEST) > 0 || excess(LARGEST) < 0) return null;
  const slope = (k: number): number => {
    const { one, log, square } = sums(k);
    return (square * one - log * log) / (one * one) + 1 / (k * k);
  };
  const k = invertDistribution(0, excess, slope, 2, SMALLEST, LARGEST);
  const scale = largest * power(sums(k).one / n, 1 / k);
  return {
    distribution: 'weibull',
    parameters: [scale * exp(logGamma(1 + 1 / k)), k],
    freeParameters: 2,
    logLikelihood: n * (log(k / scale) + (k - 1) * (logMean + log(largest / scale)) - 1),
    share: (x) => (x <= 0 ? 0 : -expm1(-power(x / scale, k))),
  };
};

/** Sums of y^k, y^k ln y and y^k (ln y)^2 over the logarithms of y. */
function powerSums(logs: Float64Array, k: number): { one: number; log: number; square: number } {
  let [one, log, square] = [0, 0, 0];
  for (const l of logs) {
    const power = exp(k * l);
    one += power;
    log += power * l;
    square += power * l * l;
  }
  return { one, log, square };
}
