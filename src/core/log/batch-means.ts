/**
 * Interval of the mean of values that may hang together in time (waits, intervals between parts): the values are put
 * into 32 to 63 batches of equal length, and the interval comes from the spread of the batches' means by Student's t.
 * Batches grow with the number of values, so the memory is fixed. Up to 63 values every value is a batch of its own,
 * which is the plain interval. A. M. Law, *Simulation Modeling and Analysis*, method of batch means.
 */
import { meanInterval } from '../statistics/mean-interval.js';

const MOST = 64;

export class BatchMeans {
  private readonly sums = new Float64Array(MOST);
  private full = 0;
  private size = 1;
  private sum = 0;
  private inBatch = 0;

  add(value: number): void {
    this.sum += value;
    if (++this.inBatch < this.size) return;
    this.sums[this.full++] = this.sum;
    this.sum = 0;
    this.inBatch = 0;
    if (this.full === MOST) this.join();
  }

  private join(): void {
    for (let i = 0; i < MOST / 2; i++) this.sums[i] = this.sums[2 * i]! + this.sums[2 * i + 1]!;
    this.full = MOST / 2;
    this.size *= 2;
  }

  /** Standard error of the mean, and its degrees of freedom; null with fewer than two batches. */
  error(): { readonly se: number; readonly freedom: number } | null {
    const means = Array.from(this.sums.subarray(0, this.full), (sum) => sum / this.size);
    if (means.length < 2) return null;
    return { se: meanInterval(means).sd / Math.sqrt(means.length), freedom: means.length - 1 };
  }
}
