/** Means of independent values, and of differences of pairs, with Student's confidence intervals. */
import { mean as meanOf, sampleStandardDeviation } from 'simple-statistics';
import { studentQuantile } from './student-quantile.js';

export interface MeanInterval {
  readonly mean: number;
  readonly ciLow: number;
  readonly ciHigh: number;
  /** Sample standard deviation (n - 1). */
  readonly sd: number;
  readonly n: number;
}

/**
 * @example meanInterval([1.2, 1.5, 1.68, 1.89, 0.95, 1.49, 1.58, 1.55, 0.5, 1.09], 0.9) // 1.343 +/- 0.237
 * @param values one or more; with one value the interval is unbounded
 * @param confidence 0 < confidence < 1
 * @throws RangeError for no values, or values that are not finite
 */
export function meanInterval(values: readonly number[], confidence = 0.95): MeanInterval {
  const n = values.length;
  if (n === 0) throw new RangeError('a mean needs at least one value');
  if (!values.every(Number.isFinite)) throw new RangeError('a mean needs finite values');
  if (!(confidence > 0 && confidence < 1)) throw new RangeError('the confidence must lie between 0 and 1');
  const mean = meanOf([...values]);
  if (n === 1) return { mean, ciLow: -Infinity, ciHigh: Infinity, sd: Number.NaN, n };
  const sd = sampleStandardDeviation([...values]);
  const half = (studentQuantile((1 + confidence) / 2, n - 1) * sd) / Math.sqrt(n);
  return { mean, ciLow: mean - half, ciHigh: mean + half, sd, n };
}

/**
 * Mean difference a - b of pairs that met the same luck, with its interval; an interval that covers 0 shows no
 * difference.
 *
 * @throws RangeError where the lists differ in length
 */
export function pairedDifference(
  a: readonly number[],
  b: readonly number[],
  confidence = 0.95,
): MeanInterval {
  if (a.length !== b.length) throw new RangeError('pairs need lists of the same length');
  return meanInterval(
    a.map((v, i) => v - b[i]!),
    confidence,
  );
}
