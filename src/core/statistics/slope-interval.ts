/** The straight line through values by their order: least squares, with Student's interval of its slope. */
import { mean as meanOf } from 'simple-statistics';
import { studentQuantile } from './student-quantile.js';

export interface SlopeInterval {
  /** Change from one value to the next. */
  readonly slope: number;
  readonly ciLow: number;
  readonly ciHigh: number;
}

/**
 * @param values in order, three or more
 * @param confidence 0 < confidence < 1
 * @throws RangeError for fewer than three values
 * @example slopeInterval([1, 2, 3]).slope // 1
 */
export function slopeInterval(values: readonly number[], confidence = 0.95): SlopeInterval {
  const n = values.length;
  if (n < 3) throw new RangeError('a slope with its interval needs at least three values');
  const mean = meanOf([...values]);
  const middle = (n - 1) / 2;
  const spread = (n * (n * n - 1)) / 12;
  const slope = values.reduce((sum, v, i) => sum + (i - middle) * (v - mean), 0) / spread;
  const left = values.reduce((sum, v, i) => sum + (v - mean - slope * (i - middle)) ** 2, 0);
  const half = studentQuantile((1 + confidence) / 2, n - 2) * Math.sqrt(left / (n - 2) / spread);
  return { slope, ciLow: slope - half, ciHigh: slope + half };
}
