/** An estimate held against a log, as plain data. */

import type { ScheduleFound } from '../../schedule/result.js';
import type { ShiftYield } from '../../shifts/shift-yield.js';

/** What the tables let expect. */
export interface Expected {
  readonly schedule: ScheduleFound;
  /** The week of the pattern that was worked; null without shifts. */
  readonly week: ShiftYield | null;
}

/** One input of the tables, as estimated and as measured. */
export interface ComparedElement {
  /** In words. @example 'cycle of cap at mill_1 or mill_2' */
  readonly element: string;
  /** The cell of the tables that it stands in. @example 'routes.cap.2.cycle_s' */
  readonly path: string;
  readonly unit: 's' | 'min' | 'h';
  /** null = the tables give none. */
  readonly estimate: number | null;
  readonly measured: number;
  readonly n: number;
  readonly sd: number | null;
  /** Interval of the measured mean, taken by itself; null = no limit on that side. */
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
  /** The measured one over the estimate; null without an estimate above 0. */
  readonly offPct: number | null;
  /** The estimate lies outside the interval that holds for all elements together. */
  readonly isOff: boolean;
}

/** A figure that follows from the inputs. */
export interface ComparedOutcome {
  readonly figure: string;
  readonly unit: string;
  readonly estimate: number;
  readonly measured: number;
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
  readonly offPct: number | null;
}

export interface VariationRow {
  readonly station: string;
  readonly element: string;
  readonly distribution: string;
  readonly a: string;
  readonly b: string;
  readonly c: string;
  /** Values that it rests on, and why this distribution. */
  readonly n: number;
  readonly reason: string;
}

export interface LogComparison {
  /** The largest effect first: off ones, by how far they are off. */
  readonly elements: readonly ComparedElement[];
  readonly outcomes: readonly ComparedOutcome[];
  /** Confidence of each interval, and of those by which an element is called off. */
  readonly confidencePct: number;
  readonly jointConfidencePct: number;
  /** Changes of the tables that take over what was off, as `--set` takes them. */
  readonly settings: readonly string[];
  readonly variation: readonly VariationRow[];
  /** What could not be compared, and why. */
  readonly notes: readonly string[];
}
