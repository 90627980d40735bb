/** What is kept of one measured time, in fixed memory whatever the number of values. */

import { quantile } from '../statistics/quantile.js';
import { nextUniform, seedStream } from '../statistics/random-streams.js';
import { studentQuantile } from '../statistics/student-quantile.js';
import { BatchMeans } from './batch-means.js';
import { LogBuckets } from './log-buckets.js';

/** Values kept as they are: all up to this number, then a fair draw of as many. */
export const SAMPLE = 1000;

export interface MeasureSummary {
  readonly n: number;
  readonly mean: number;
  /** Sample standard deviation (n - 1); null with one value. */
  readonly sd: number | null;
  /** Standard error of the mean, and its degrees of freedom; null with one value. */
  readonly se: number | null;
  readonly freedom: number | null;
  /** Interval of the mean, not below 0; null with one value. */
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
  readonly min: number;
  readonly max: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly total: number;
}

export class Measure {
  n = 0;
  total = 0;
  private mean = 0;
  private squares = 0;
  private min = Number.POSITIVE_INFINITY;
  private max = Number.NEGATIVE_INFINITY;
  private readonly batches = new BatchMeans();
  private readonly buckets = new LogBuckets();
  private readonly drawn: number[] = [];
  private readonly stream = new Int32Array(4);

  constructor() {
    seedStream(this.stream, 0, 1, 'sample of a log', 0);
  }

  /** @param value seconds, 0 or more, finite */
  add(value: number): void {
    this.n++;
    this.total += value;
    const off = value - this.mean;
    this.mean += off / this.n;
    this.squares += off * (value - this.mean);
    if (value < this.min) this.min = value;
    if (value > this.max) this.max = value;
    this.batches.add(value);
    this.buckets.add(value);
    this.keep(value);
  }

  /** Reservoir of Vitter's Algorithm R (ACM Transactions on Mathematical Software 11, 1985), from a fixed seed. */
  private keep(value: number): void {
    if (this.drawn.length < SAMPLE) {
      this.drawn.push(value);
      return;
    }
    const at = Math.floor(nextUniform(this.stream, 0) * this.n);
    if (at < SAMPLE) this.drawn[at] = value;
  }

  /** All values up to 1,000, then 1,000 of them drawn fairly. */
  sample(): readonly number[] {
    return this.drawn;
  }

  /** Exact up to 1,000 values, then within 0.5% of itself. */
  quantile(p: number): number {
    if (this.n <= SAMPLE) return quantile(Float64Array.from(this.drawn).sort(), p);
    return Math.min(this.max, Math.max(this.min, this.buckets.quantile(p)));
  }

  /** null where nothing was measured. */
  summary(confidence: number): MeasureSummary | null {
    const { n, mean, total, min, max } = this;
    if (n === 0) return null;
    const error = this.batches.error();
    const half = error === null ? null : halfWidth(error.se, error.freedom, confidence);
    return {
      n,
      mean,
      sd: n < 2 ? null : Math.sqrt(this.squares / (n - 1)),
      se: error?.se ?? null,
      freedom: error?.freedom ?? null,
      ciLow: half === null ? null : Math.max(0, mean - half),
      ciHigh: half === null ? null : mean + half,
      min,
      max,
      p10: this.quantile(0.1),
      p50: this.quantile(0.5),
      p90: this.quantile(0.9),
      total,
    };
  }
}

/** Half the width of Student's interval of a mean. @param confidence 0 to 1 */
export function halfWidth(se: number, freedom: number, confidence: number): number {
  return studentQuantile((1 + confidence) / 2, freedom) * se;
}
