/** One time measured at several places, put together by the number of values. */
import { halfWidth, type MeasureSummary } from '../measure.js';

export interface PooledTime {
  readonly n: number;
  readonly mean: number;
  readonly sd: number | null;
  /** Interval of the mean at a confidence from 0 to 1; null with too few values. */
  readonly interval: (confidence: number) => Interval | null;
}

export interface Interval {
  readonly low: number;
  /** Infinity = no limit. */
  readonly high: number;
}

/** @returns null where nothing was measured */
export function pooledTime(times: readonly (MeasureSummary | null)[]): PooledTime | null {
  const known = times.filter((t) => t !== null);
  const n = known.reduce((sum, t) => sum + t.n, 0);
  if (n === 0) return null;
  const mean = known.reduce((sum, t) => sum + t.n * t.mean, 0) / n;
  const squares = known.reduce(
    (sum, t) => sum + (t.n - 1) * (t.sd ?? 0) ** 2 + t.n * (t.mean - mean) ** 2,
    0,
  );
  return {
    n,
    mean,
    sd: n < 2 ? null : Math.sqrt(squares / (n - 1)),
    interval: (confidence) => {
      const half = pooledHalf(known, n, confidence);
      return half === null ? null : { low: mean - half, high: mean + half };
    },
  };
}

/** The halves add as squares, weighted like the means. */
function pooledHalf(known: readonly MeasureSummary[], n: number, confidence: number): number | null {
  let sum = 0;
  for (const { n: own, se, freedom } of known) {
    if (se === null || freedom === null) {
      if (known.length === 1) return null;
      continue;
    }
    sum += ((own / n) * halfWidth(se, freedom, confidence)) ** 2;
  }
  return Math.sqrt(sum);
}
