/**
 * For distributions with ends: the ends as two free numbers, and a thinner sample to look for them with.
 *
 * An end is kept clear of the readings, by half a step of the watch and half a mean gap between readings: at a reading
 * itself the likelihood has a false peak, and a reading that was rounded may have been that much farther out.
 */
import { exp, log } from '../../numbers/functions.js';
import { resolution } from './resolution.js';

export interface Ends {
  readonly low: number;
  readonly high: number;
}

export interface EndSearch {
  /** The ends at two free numbers: each lies beyond the clear space by e to its number. */
  readonly endsAt: (below: number, above: number) => Ends;
  /** A start: about half the range beyond either end, or as much as keeps the lowest above 0. */
  readonly start: readonly [below: number, above: number];
}

/** @param sorted readings ascending, all above 0, not all equal */
export function endSearch(sorted: Float64Array): EndSearch {
  const [least, most] = [sorted[0]!, sorted.at(-1)!];
  const range = most - least;
  const clear = Math.max(resolution(sorted) / 2, range / (2 * sorted.length));
  const [low, high] = [least - Math.min(clear, least / 2), most + clear];
  return {
    endsAt: (below, above) => ({ low: low - exp(below), high: high + exp(above) }),
    start: [log(Math.min(range / 2, low / 2)), log(range / 2)],
  };
}

const MOST_SEARCHED = 4000;

/** Evenly spread readings, so that a search over very many of them stays short; all, where there are few. */
export function thinned(sorted: Float64Array): Float64Array {
  const n = sorted.length;
  if (n <= MOST_SEARCHED) return sorted;
  const last = MOST_SEARCHED - 1;
  return Float64Array.from({ length: MOST_SEARCHED }, (_, i) => sorted[Math.round((i * (n - 1)) / last)]!);
}
