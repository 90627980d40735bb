/**
 * Quantiles of any number of values in fixed memory: values are counted in buckets whose bounds grow by a fixed ratio,
 * so that each quantile is met within a known share of itself. C. Masson, J. E. Rim, H. K. Lee, *DDSketch*, PVLDB 12
 * (2019), section 2.
 */

import { log, power } from '../numbers/functions.js';

/** Share by which a quantile may be off. */
export const BUCKET_ERROR = 0.005;
/** Values below this, in seconds, count as 0. */
const LEAST = 1e-6;

const RATIO = (1 + BUCKET_ERROR) / (1 - BUCKET_ERROR);
const PER_LOG = 1 / log(RATIO);

export class LogBuckets {
  private readonly counts = new Map<number, number>();
  private zeros = 0;
  private n = 0;

  /** @param value 0 or more */
  add(value: number): void {
    this.n++;
    if (value < LEAST) this.zeros++;
    else {
      const bucket = Math.ceil(log(value) * PER_LOG);
      this.counts.set(bucket, (this.counts.get(bucket) ?? 0) + 1);
    }
  }

  /**
   * Value at position (n - 1) p of the sorted values, within 0.5% of itself.
   *
   * @param p 0 to 1
   * @throws RangeError where there is no value
   */
  quantile(p: number): number {
    if (this.n === 0) throw new RangeError('a quantile needs at least one value');
    let left = Math.floor((this.n - 1) * p) - this.zeros;
    if (left < 0) return 0;
    const buckets = [...this.counts].sort((a, b) => a[0] - b[0]);
    for (const [bucket, count] of buckets) {
      if (left < count) return (2 * power(RATIO, bucket)) / (RATIO + 1);
      left -= count;
    }
    throw new RangeError('the share must be from 0 to 1');
  }
}
