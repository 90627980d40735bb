/**
 * Gamma distribution by maximum likelihood: the mean is that of the readings, the shape k solves ln k - digamma(k) = ln of
 * the mean less the mean of the logarithms (S. C. Choi, R. Wette, Technometrics 11, 1969).
 */

import { mean as meanOf } from 'simple-statistics';
import { log, log1p, power } from '../../numbers/functions.js';
import { digamma, trigamma } from '../../statistics/digamma.js';
import { incompleteGamma } from '../../statistics/incomplete-gamma.js';
import { invertDistribution } from '../../statistics/invert-distribution.js';
import { logGamma } from '../../statistics/log-gamma.js';
import { normalShare } from '../../statistics/normal-share.js';
import type { Fitter } from './fitted.js';

/** Narrower gammas are normal to many digits, as lognormals are, and their series become long. */
const LARGEST_SHAPE = 1e6;
/** From here on the cube root is normal to six digits (E. B. Wilson, M. M. Hilferty, 1931). */
const LARGE_SHAPE = 5000;

export const fitGamma: Fitter = (sorted) => {
  const n = sorted.length;
  const mean = meanOf([...sorted]);
  const logGap = -meanOf(Array.from(sorted, (x) => log1p((x - mean) / mean)));
  if (!(logGap > 1 / (2 * LARGEST_SHAPE))) return null;
  const shape = shapeOf(logGap);
  const scale = mean / shape;
  const logs = log(mean) - logGap;
  const logLikelihood = n * ((shape - 1) * logs - shape - shape * log(scale) - logGamma(shape));
  return {
    distribution: 'gamma',
    parameters: [mean, shape],
    freeParameters: 2,
    logLikelihood,
    share: (x) => (x <= 0 ? 0 : gammaShare(shape, x / scale)),
  };
};

/** ln k - digamma(k) lies between 1 / (2k) and 1 / k. */
function shapeOf(logGap: number): number {
  const f = (k: number): number => digamma(k) - log(k);
  const [low, high] = [1 / (2 * logGap), 1 / logGap];
  return invertDistribution(-logGap, f, (k) => trigamma(k) - 1 / k, low * 1.1, low, high);
}

function gammaShare(shape: number, x: number): number {
  if (shape < LARGE_SHAPE) return incompleteGamma(shape, x);
  const r = 1 / (9 * shape);
  return normalShare((power(x / shape, 1 / 3) - 1 + r) / Math.sqrt(r));
}
