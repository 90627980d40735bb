/**
 * Quantile of clustered values with its interval. The values of one replication (its shifts) hang together, so the
 * interval comes from the spread of the replications' own quantiles (Student's t), about the quantile of all values.
 * Quantiles are type 7 of Hyndman and Fan (The American Statistician 50, 1996), the default of R and of spreadsheets.
 */

import { meanInterval } from './mean-interval.js';
import { quantile } from './quantile.js';

export interface QuantileInterval {
  readonly value: number;
  readonly ciLow: number;
  readonly ciHigh: number;
}

/**
 * @param groups values by replication, each with one value or more
 * @param p 0 to 1
 */
export function quantileInterval(
  groups: readonly (readonly number[])[],
  p: number,
  confidence = 0.95,
): QuantileInterval {
  const value = quantile7(groups.flat(), p);
  const own = meanInterval(
    groups.map((g) => quantile7(g, p)),
    confidence,
  );
  const half = (own.ciHigh - own.ciLow) / 2;
  return { value, ciLow: value - half, ciHigh: value + half };
}

/**
 * @param values one or more, in any order
 * @param p 0 to 1
 * @example quantile7([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantile7(values: readonly number[], p: number): number {
  if (values.length === 0) throw new RangeError('a quantile needs at least one value');
  return quantile(Float64Array.from(values).sort(), p);
}
