/**
 * The hours in which the cell is open, as the floor sees them: the open spans of a week that repeats, with who is there.
 * Times are seconds from the start of the first week; a shut cell stands, but machine cycles that are running go on.
 */
import { WEEK_S } from '../calendar/week-calendar.js';
import { type Handover, handovers } from './unattended-hours.js';
import { WorkClock } from './work-clock.js';

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
  /** Its name in shifts.csv, the same on every day. */
  readonly shiftName?: string;
  /** Length of the week; default seven days. */
  readonly weekS?: number;
}

export interface OpenSegment {
  readonly startS: number;
  readonly endS: number;
  readonly open: boolean;
  readonly attended: boolean;
  readonly operator: boolean;
}

/** The spans and the gaps between them as segments of a week, with what holds in each. */
export interface OpenWeek {
  readonly clock: WorkClock;
  readonly weekS: number;
  /** Open seconds of a week. */
  readonly openS: number;
  readonly segments: readonly OpenSegment[];
  /** By segment: its end in the week, and operators there. */
  readonly endsS: Float64Array;
  readonly operators: Int32Array;
  /** By segment: when people leave, and how long the cell then runs alone. */
  readonly handovers: readonly Handover[];
  /** Ends of shifts in open seconds of the week, and their labels and names; empty for spans without one. */
  readonly shiftEndsS: Float64Array;
  readonly shiftLabels: readonly string[];
  readonly shiftNames: readonly string[];
}

/** Operators in a span. */
export function operatorsIn(span: OpenSpan): number {
  return span.operators ?? (span.attended ? 1 : 0);
}

/**
 * @param spans open spans of a week, rising, not overlapping
 * @param attendedSpeedPct robot speed in attended spans as a share of full speed
 * @throws RangeError where spans overlap, are empty or out of order
 */
export function openCalendar(spans: readonly OpenSpan[], attendedSpeedPct = 100): OpenWeek {
  if (spans.length === 0) throw new RangeError('a calendar needs at least one open span');
  const weekS = Math.max(spans[0]!.weekS ?? WEEK_S, spans.at(-1)!.endS);
  const segments: (OpenSpan & { readonly open: boolean })[] = [];
  const shiftEnds: number[] = [];
  const shiftLabels: string[] = [];
  const shiftNames: string[] = [];
  let openS = 0;
  let last = 0;
  const shut = (startS: number, endS: number): void => {
    if (endS > startS) segments.push({ startS, endS, attended: false, operators: 0, open: false });
  };
  for (const [i, span] of spans.entries()) {
    if (!(span.startS >= last) || !(span.endS > span.startS) || !Number.isFinite(span.endS))
      throw new RangeError(`open span ${i + 1} must start after the one before and end after its start`);
    shut(last, span.startS);
    segments.push({ ...span, open: true });
    last = span.endS;
    openS += span.endS - span.startS;
    const next = spans[i + 1];
    if (next !== undefined && span.shift !== undefined && next.shift === span.shift) continue;
    shiftEnds.push(openS);
    shiftLabels.push(span.shift ?? '');
    shiftNames.push(span.shiftName ?? '');
  }
  shut(last, weekS);
  const operators = segments.map(operatorsIn);
  const laidOut = segments.map((s, i) => ({ ...s, operator: operators[i]! > 0, shift: i }));
  const clock = new WorkClock({ segments: laidOut, weekS }, { attendedSpeedPct, operator: 'attended' });
  return {
    clock,
    segments: laidOut,
    weekS,
    openS,
    endsS: Float64Array.from(segments, (s) => s.endS),
    operators: Int32Array.from(operators),
    handovers: handovers(laidOut, weekS),
    shiftEndsS: Float64Array.from(shiftEnds),
    shiftLabels,
    shiftNames,
  };
}
