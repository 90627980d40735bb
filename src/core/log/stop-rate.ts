/**
 * Processing time between random stops, with its interval: for stops that come at random, twice the time over the mean
 * is distributed as chi-square, with 2 n + 2 degrees of freedom below and 2 n above, as the watch ends at a time and not
 * at a stop. W. Q. Meeker, L. A. Escobar, *Statistical Methods for Reliability Data*, exponential times, cut at a time.
 */
import { timeDistribution } from '../distributions/distribution.js';
import type { StopRate } from './log-result.js';

/** @param processingS time watched, above 0 @param confidence 0 to 1 */
export function stopRate(stops: number, processingS: number, confidence: number): StopRate {
  const processingH = processingS / 3600;
  const tail = (1 - confidence) / 2;
  return {
    stops,
    processingH,
    mtbfH: stops === 0 ? null : processingH / stops,
    ciLow: processingH / halfChiSquare(1 - tail, stops + 1),
    ciHigh: stops === 0 ? null : processingH / halfChiSquare(tail, stops),
  };
}

/** Half a quantile of the chi-square distribution with 2 n degrees of freedom. */
function halfChiSquare(share: number, n: number): number {
  return timeDistribution('gamma', [n, n]).quantile(share);
}
