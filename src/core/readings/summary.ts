/** A sample in figures: middle, spread and the interval of its mean. */
import { meanInterval } from '../statistics/mean-interval.js';
import { quantile } from '../statistics/quantile.js';

/** Figures that need two readings are null where there is one. */
export interface Summary {
  readonly n: number;
  readonly mean: number;
  /** Sample standard deviation (n - 1). */
  readonly sd: number | null;
  /** Student's interval of the mean. */
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
  /** Standard deviation over mean, per cent; null too where the mean is 0. */
  readonly cvPct: number | null;
  readonly min: number;
  readonly median: number;
  readonly max: number;
}

/**
 * @param values one or more, in any order
 * @param confidence 0 < confidence < 1
 * @throws RangeError for no values, or values that are not finite
 */
export function summary(values: readonly number[], confidence: number): Summary {
  const { mean, sd, ciLow, ciHigh, n } = meanInterval(values, confidence);
  const sorted = Float64Array.from(values).sort();
  const middle = { min: sorted[0]!, median: quantile(sorted, 0.5), max: sorted[n - 1]! };
  if (n === 1) return { n, mean, sd: null, ciLow: null, ciHigh: null, cvPct: null, ...middle };
  return { n, mean, sd, ciLow, ciHigh, cvPct: mean > 0 ? (100 * sd) / mean : null, ...middle };
}
