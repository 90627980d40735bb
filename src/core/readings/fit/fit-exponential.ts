/** Exponential distribution by maximum likelihood: the mean of the readings. */

import { mean as meanOf } from 'simple-statistics';
import { expm1, log } from '../../numbers/functions.js';
import type { Fitter } from './fitted.js';

export const fitExponential: Fitter = (sorted) => {
  const mean = meanOf([...sorted]);
  return {
    distribution: 'exponential',
    parameters: [mean],
    freeParameters: 1,
    logLikelihood: -sorted.length * (log(mean) + 1),
    share: (x) => (x <= 0 ? 0 : -expm1(-x / mean)),
  };
};
