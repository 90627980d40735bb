/**
 * Distributions of times: each knows its mean, its variance and its quantile function. A time is drawn as the quantile
 * of one uniform number, so that streams stay in step between compared cells whatever the distribution.
 *
 * Parameters, in the unit of the element, as the tables list them: constant value; exponential mean; gamma mean, shape;
 * erlang mean, stages; lognormal mean, standard deviation; weibull mean, shape; triangular and pert low, likely,
 * high; readings all readings, each as likely.
 */

import type { Distribution as DistributionName } from '../model/cell.js';
import { exp, log, log1p } from '../numbers/functions.js';
import { incompleteGamma } from '../statistics/incomplete-gamma.js';
import { invertDistribution } from '../statistics/invert-distribution.js';
import { logGamma } from '../statistics/log-gamma.js';
import { normalQuantile } from '../statistics/normal-quantile.js';
import { tabulateFamily } from '../statistics/tabulate-quantile.js';
import { pert, type ThreePoint, triangular } from '../statistics/three-point.js';

const gammaTables = tabulateFamily((shape) => (u) => gammaQuantile(u, shape!));

/** A distribution of a time that is never below 0. */
export interface TimeDistribution {
  readonly name: DistributionName;
  readonly mean: number;
  readonly variance: number;
  /** Value below which the share u of all draws lies; 0 < u < 1. */
  readonly quantile: (u: number) => number;
}

/**
 * @param name one of the names of variation.csv
 * @param parameters as listed above
 * @throws RangeError with a sentence on what is allowed
 */
export function timeDistribution(name: DistributionName, parameters: readonly number[]): TimeDistribution {
  for (const value of parameters)
    if (!Number.isFinite(value) || value < 0)
      throw new RangeError(`${article(name)} distribution takes numbers of 0 or more, found ${value}`);
  const [a, b, c] = parameters;
  switch (name) {
    case 'constant':
      return constant(needed(name, 'the mean', a));
    case 'exponential':
      return exponential(positive(name, 'the mean', a));
    case 'gamma':
      return gamma('gamma', positive(name, 'the mean', a), positive(name, 'the shape', b));
    case 'erlang':
      return gamma('erlang', positive(name, 'the mean', a), stages(b));
    case 'lognormal':
      return lognormal(positive(name, 'the mean', a), needed(name, 'the standard deviation', b));
    case 'weibull':
      return weibull(positive(name, 'the mean', a), positive(name, 'the shape', b));
    case 'triangular':
      return { name, ...triangular(threePoint(name, a, b, c)) };
    case 'pert':
      return { name, ...pert(threePoint(name, a, b, c)) };
    case 'readings':
      return readings(parameters);
  }
}

function article(name: string): string {
  return /^[aeiou]/.test(name) ? `an ${name}` : `a ${name}`;
}

function needed(name: string, what: string, value: number | undefined): number {
  if (value === undefined) throw new RangeError(`${article(name)} distribution needs ${what}`);
  return value;
}

function positive(name: string, what: string, value: number | undefined): number {
  const given = needed(name, what, value);
  if (given === 0) throw new RangeError(`${article(name)} distribution needs ${what} above 0, found 0`);
  return given;
}

function stages(value: number | undefined): number {
  const k = positive('erlang', 'the number of stages', value);
  if (!Number.isInteger(k))
    throw new RangeError(`an erlang distribution has a whole number of stages, found ${k}`);
  return k;
}

function threePoint(
  name: 'triangular' | 'pert',
  least: number | undefined,
  middle: number | undefined,
  most: number | undefined,
): ThreePoint {
  const low = needed(name, 'the lowest value', least);
  const mode = needed(name, 'the most likely value', middle);
  const high = needed(name, 'the highest value', most);
  if (low <= mode && mode <= high) return { low, mode, high };
  throw new RangeError(
    `a ${name} distribution has its most likely value between the lowest and the highest; found ${low}, ${mode}, ${high}`,
  );
}

function constant(mean: number): TimeDistribution {
  return { name: 'constant', mean, variance: 0, quantile: () => mean };
}

function exponential(mean: number): TimeDistribution {
  return { name: 'exponential', mean, variance: mean * mean, quantile: (u) => -mean * log(1 - u) };
}

function gamma(name: 'gamma' | 'erlang', mean: number, shape: number): TimeDistribution {
  const scale = mean / shape;
  const standard = gammaTables(shape);
  return { name, mean, variance: (mean * mean) / shape, quantile: (u) => scale * standard(u) };
}

/** Quantile of the gamma distribution of scale 1; the start is Wilson and Hilferty's cube (1931). */
function gammaQuantile(u: number, shape: number): number {
  const front = logGamma(shape);
  const r = 1 / (9 * shape);
  const cube = 1 - r + normalQuantile(u) * Math.sqrt(r);
  const small = exp((log(u) + front + log(shape)) / shape);
  let high = Math.max(1, shape) * 2;
  while (incompleteGamma(shape, high) < u) high *= 2;
  const start = cube > 0.3 ? shape * cube * cube * cube : small;
  return invertDistribution(
    u,
    (x) => incompleteGamma(shape, x),
    (x) => exp((shape - 1) * log(x) - x - front),
    Math.min(start, high / 2),
    0,
    high,
  );
}

function lognormal(mean: number, sd: number): TimeDistribution {
  const s2 = log1p((sd / mean) ** 2);
  const mu = log(mean) - s2 / 2;
  const s = Math.sqrt(s2);
  return {
    name: 'lognormal',
    mean,
    variance: sd * sd,
    quantile: (u) => exp(mu + s * normalQuantile(u)),
  };
}

function weibull(mean: number, shape: number): TimeDistribution {
  const g1 = exp(logGamma(1 + 1 / shape));
  const g2 = exp(logGamma(1 + 2 / shape));
  const scale = mean / g1;
  return {
    name: 'weibull',
    mean,
    variance: scale * scale * (g2 - g1 * g1),
    quantile: (u) => scale * exp(log(-log(1 - u)) / shape),
  };
}

function readings(values: readonly number[]): TimeDistribution {
  if (values.length === 0) throw new RangeError('readings need at least one value');
  const sorted = Float64Array.from(values).sort();
  const mean = sorted.reduce((sum, v) => sum + v, 0) / sorted.length;
  const variance = sorted.reduce((sum, v) => sum + (v - mean) ** 2, 0) / sorted.length;
  return { name: 'readings', mean, variance, quantile: (u) => sorted[Math.floor(u * sorted.length)]! };
}
