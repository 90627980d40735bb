/** One reading of a stopwatch, as the file of readings gives it. */
import type { Place } from '../model/place.js';

export interface StopwatchReading {
  /** What was timed, such as `mill_1 cycle`. */
  readonly element: string;
  readonly seconds: number;
  /** Which cell, and who held the watch; empty where it was not written down. */
  readonly cell: string;
  readonly observer: string;
  readonly note: string;
  /** Pace of the work against the normal one; 100 for robots and machines. */
  readonly ratingPct: number;
  /** Something that does not belong to the element's work, such as a dropped part; kept apart. */
  readonly foreign: boolean;
  readonly at?: Place;
}
