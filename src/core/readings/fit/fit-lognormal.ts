/** Lognormal distribution by maximum likelihood: mean and variance (over n) of the logarithms, told as those of the time. */

import { mean as meanOf } from 'simple-statistics';
import { exp, expm1, log } from '../../numbers/functions.js';
import { normalShare } from '../../statistics/normal-share.js';
import type { Fitter } from './fitted.js';

export const fitLognormal: Fitter = (sorted) => {
  const n = sorted.length;
  const logs = Array.from(sorted, log);
  const mu = meanOf(logs);
  const variance = logs.reduce((sum, v) => sum + (v - mu) ** 2, 0) / n;
  if (!(variance > 0)) return null;
  const s = Math.sqrt(variance);
  const mean = exp(mu + variance / 2);
  return {
    distribution: 'lognormal',
    parameters: [mean, mean * Math.sqrt(expm1(variance))],
    freeParameters: 2,
    logLikelihood: -n * (mu + 0.5 * log(2 * Math.PI * variance) + 0.5),
    share: (x) => (x <= 0 ? 0 : normalShare((log(x) - mu) / s)),
  };
};
