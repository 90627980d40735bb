/**
 * The hours in which the cell is open, as the simulation sees them: the open spans of a week laid end to end on one
 * clock that stands still while the cell is shut, and starts again from the first span when the week is over.
 */

/** A span of the week in which the cell may run; seconds from the start of the week. */
export interface OpenSpan {
  readonly startS: number;
  readonly endS: number;
  /** An attended shift, its breaks included: the robot keeps to its attended speed. */
  readonly attended: boolean;
  /** Operators who are there, none in a break; default 1 in attended spans, else 0. */
  readonly operators?: number;
  /** Spans in a row with the same shift name count as one shift; default: every span is a shift of its own. */
  readonly shift?: string;
}

/** Spans on the open clock. */
export interface OpenCalendar {
  /** End of each span on the open clock, seconds; the last one is the length of the open week. */
  readonly endsS: Float64Array;
  readonly attended: Uint8Array;
  readonly operators: Int32Array;
  /** Ends of shifts on the open clock. */
  readonly shiftEndsS: Float64Array;
  readonly weekS: number;
}

/**
 * @param spans open spans of a week, rising, not overlapping
 * @throws RangeError where spans overlap, are empty or out of order
 */
export function openCalendar(spans: readonly OpenSpan[]): OpenCalendar {
  if (spans.length === 0) throw new RangeError('a calendar needs at least one open span');
  const ends: number[] = [];
  const shiftEnds: number[] = [];
  let clock = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (const [i, span] of spans.entries()) {
    if (!(span.startS >= last) || !(span.endS > span.startS) || !Number.isFinite(span.endS))
      throw new RangeError(`open span ${i + 1} must start after the one before and end after its start`);
    last = span.endS;
    clock += span.endS - span.startS;
    ends.push(clock);
    const next = spans[i + 1];
    if (next === undefined || span.shift === undefined || next.shift !== span.shift) shiftEnds.push(clock);
  }
  return {
    endsS: Float64Array.from(ends),
    attended: Uint8Array.from(spans, (s) => (s.attended ? 1 : 0)),
    operators: Int32Array.from(spans, (s) => s.operators ?? (s.attended ? 1 : 0)),
    shiftEndsS: Float64Array.from(shiftEnds),
    weekS: clock,
  };
}
