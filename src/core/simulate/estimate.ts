/** Estimates over replications, with bounds only where there are two replications or more. */
import { meanInterval, pairedDifference } from '../statistics/mean-interval.js';
import { quantileInterval } from '../statistics/quantile-interval.js';
import type { Estimate, ShiftParts } from './simulation-result.js';

/** @param values one per replication */
export function estimate(values: readonly number[], confidence: number): Estimate {
  const { mean, ciLow, ciHigh, n } = meanInterval(values, confidence);
  return n === 1 ? { mean, ciLow: null, ciHigh: null } : { mean, ciLow, ciHigh };
}

export interface PairedEstimate {
  readonly difference: Estimate;
  /** What the two differ by at least, by an interval so wide that all pairs hold together; below 0 where it covers 0. */
  readonly leastApart: number;
}

/**
 * Difference a - b of runs that met the same luck, run by run.
 *
 * @param pairs that are to hold together (Bonferroni)
 */
export function pairedEstimate(
  a: readonly number[],
  b: readonly number[],
  confidence: number,
  pairs: number,
): PairedEstimate {
  const { mean, ciLow, ciHigh, n } = pairedDifference(a, b, confidence);
  if (n === 1) return { difference: { mean, ciLow: null, ciHigh: null }, leastApart: -Infinity };
  const wide = pairedDifference(a, b, 1 - (1 - confidence) / pairs);
  return { difference: { mean, ciLow, ciHigh }, leastApart: Math.max(wide.ciLow, -wide.ciHigh) };
}

/** @param groups good parts of each shift, by replication */
export function shiftParts(groups: readonly (readonly number[])[], confidence: number): ShiftParts {
  const means = groups.map((g) => g.reduce((sum, v) => sum + v, 0) / g.length);
  const [p10, p50, p90] = [0.1, 0.5, 0.9].map((p) => quantileInterval(groups, p, confidence)) as [Q, Q, Q];
  const bounds = (q: Q): readonly [number, number] | null =>
    groups.length === 1 ? null : [q.ciLow, q.ciHigh];
  return {
    ...estimate(means, confidence),
    p10: p10.value,
    p50: p50.value,
    p90: p90.value,
    p10Ci: bounds(p10),
    p50Ci: bounds(p50),
    p90Ci: bounds(p90),
  };
}

type Q = ReturnType<typeof quantileInterval>;

/** Half of the interval over the mean, per cent; null where there is no interval or no mean. */
export function halfWidthPct(e: Estimate): number | null {
  if (e.ciHigh === null || e.ciLow === null || !(e.mean > 0)) return null;
  return ((e.ciHigh - e.ciLow) / 2 / e.mean) * 100;
}
