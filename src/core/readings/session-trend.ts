/** Whether an element's time changed while it was being watched, and whether its readings hang together. */

import { log, power } from '../numbers/functions.js';
import { lag1Autocorrelation } from '../statistics/autocorrelation.js';
import { kendallTrend } from '../statistics/kendall-trend.js';
import { type SlopeInterval, slopeInterval } from '../statistics/slope-interval.js';

export interface SessionTrend {
  /** Rank correlation with the order of the readings, and the chance of one so far from 0 without a trend. */
  readonly tau: number;
  readonly pValue: number;
  /** Change in seconds from reading to reading by the straight line, with its interval. */
  readonly slopeSPerReading: SlopeInterval;
  /** The line's change from the first reading to the last. */
  readonly changeS: number;
  /** `none` where the rank correlation does not differ clearly from 0. */
  readonly direction: 'falls' | 'rises' | 'none';
  /**
   * Where times fall: what a doubling of the count leaves of the time, per cent, by the line through the logarithms (the
   * learning curve; T. P. Wright, Journal of the Aeronautical Sciences 3, 1936). Else null.
   */
  readonly learningRatePct: number | null;
  /** Correlation of each reading with the one before; null where all are equal. */
  readonly autocorrelation: number | null;
  /** True where it lies beyond 2 / sqrt(n): the readings do not vary freely, and the interval of the mean is too narrow. */
  readonly hangsTogether: boolean;
}

/** Fewer readings show no trend. */
const FEWEST = 6;
const CLEAR = 0.05;

/**
 * @param values in the order in which they were read
 * @returns null for fewer than six readings, or where all are equal
 */
export function sessionTrend(values: readonly number[], confidence: number): SessionTrend | null {
  if (values.length < FEWEST) return null;
  const rank = kendallTrend(values);
  if (rank === null) return null;
  const slope = slopeInterval(values, confidence);
  const isClear = rank.pValue < CLEAR && Math.sign(rank.tau) === Math.sign(slope.slope);
  const direction = !isClear ? 'none' : rank.tau < 0 ? 'falls' : 'rises';
  const autocorrelation = lag1Autocorrelation(values);
  return {
    ...rank,
    slopeSPerReading: slope,
    changeS: slope.slope * (values.length - 1),
    direction,
    learningRatePct: direction === 'falls' ? learningRatePct(values) : null,
    autocorrelation,
    hangsTogether: Math.abs(autocorrelation ?? 0) > 2 / Math.sqrt(values.length),
  };
}

/** Slope of log time over log count, as what one doubling leaves. */
function learningRatePct(values: readonly number[]): number {
  const points = values.map((v, i) => [log(i + 1), log(v)] as const);
  const [x, y] = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k]!, 0) / points.length) as [
    number,
    number,
  ];
  const across = points.reduce((sum, p) => sum + (p[0] - x) * (p[1] - y), 0);
  const own = points.reduce((sum, p) => sum + (p[0] - x) ** 2, 0);
  return 100 * power(2, across / own);
}
