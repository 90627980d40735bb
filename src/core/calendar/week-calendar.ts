/**
 * A pattern's week as segments of a clock that starts on Monday at 00:00: where the cell is open, whether somebody
 * attends, and whether the operator is there or in a break.
 *
 * A shift may cross midnight and the end of the week. Shifts that overlap are laid over each other: the cell is open
 * where any of them is, attended where any attended one is, and an operator is there unless all who attend are in a
 * break. Between shifts the cell is stopped, and in the breaks of shifts that say so.
 */
import { DAYS, type Day, type Shift } from '../model/cell.js';

/** Seconds of a week. */
export const WEEK_S = 7 * 24 * 3600;

/** One stretch of the week in which nothing changes; the segments of a week cover it without gaps. */
export interface WeekSegment {
  /** Seconds after Monday 00:00; endS > startS, at most those of the week. */
  readonly startS: number;
  readonly endS: number;
  /** The cell works. */
  readonly open: boolean;
  /** Open, and an attended shift (its breaks included). */
  readonly attended: boolean;
  /** Attended, and not in a break. */
  readonly operator: boolean;
  /** Index into `shifts` of the shift that counts here (the one that started first); -1 when closed. */
  readonly shift: number;
}

/** One shift on one day. */
export interface ShiftOccurrence {
  readonly shift: string;
  readonly day: Day;
  /** Index of the row in the pattern. */
  readonly row: number;
}

export interface WeekCalendar {
  readonly pattern: string;
  readonly segments: readonly WeekSegment[];
  readonly shifts: readonly ShiftOccurrence[];
  readonly hoursPerWeek: number;
  readonly attendedH: number;
  readonly unattendedH: number;
  /** Seconds after which it repeats: those of a week, but where the clocks change in a pattern without a pause. */
  readonly weekS: number;
  /** In such a week, from when on the clock shows so many seconds less than have passed; below 0 = more. */
  readonly clockChange: { readonly atS: number; readonly byS: number } | null;
}

interface Span {
  readonly startS: number;
  readonly endS: number;
  readonly occurrence: number;
  readonly attended: boolean;
  readonly breaks: readonly { readonly startS: number; readonly endS: number }[];
  readonly breaksStop: boolean;
}

/**
 * @param shifts the rows of shifts.csv, of any pattern
 * @param pattern name of the pattern to lay out
 * @returns the week; with no shift of that name all of it is closed
 */
export function weekCalendar(shifts: readonly Shift[], pattern: string): WeekCalendar {
  const rows = shifts.filter((s) => s.pattern === pattern);
  const occurrences: ShiftOccurrence[] = [];
  const spans: Span[] = [];
  for (const [row, shift] of rows.entries())
    for (const day of shift.days) {
      spans.push(spanOf(shift, day, occurrences.length));
      occurrences.push({ shift: shift.shift, day, row });
    }
  const clockChange = rows[0]?.clockChange;
  const weekS = clockChange === undefined ? WEEK_S : clockChange.weekMin * 60;
  const segments = mergeAlike(cutWeek(spans, weekS));
  const hours = (of: (s: WeekSegment) => boolean): number =>
    segments.reduce((sum, s) => sum + (of(s) ? s.endS - s.startS : 0), 0) / 3600;
  return {
    pattern,
    segments,
    shifts: occurrences,
    hoursPerWeek: hours((s) => s.open),
    attendedH: hours((s) => s.attended),
    unattendedH: hours((s) => s.open && !s.attended),
    weekS,
    clockChange:
      clockChange === undefined ? null : { atS: clockChange.atMin * 60, byS: clockChange.byMin * 60 },
  };
}

/** A week that is open, attended and without breaks all the time. */
export function alwaysOpenWeek(): WeekCalendar {
  const segment = { startS: 0, endS: WEEK_S, open: true, attended: true, operator: true, shift: -1 };
  const hours = WEEK_S / 3600;
  return {
    pattern: 'always open',
    segments: [segment],
    shifts: [],
    hoursPerWeek: hours,
    attendedH: hours,
    unattendedH: 0,
    weekS: WEEK_S,
    clockChange: null,
  };
}

/** The pattern names in the order of the table. */
export function patternNames(shifts: readonly Shift[]): string[] {
  return [...new Set(shifts.map((s) => s.pattern))];
}

function spanOf(shift: Shift, day: Day, occurrence: number): Span {
  const dayS = DAYS.indexOf(day) * 86_400;
  const at = (minutes: number): number => dayS + minutes * 60;
  return {
    startS: at(shift.startMin),
    endS: at(shift.endMin),
    occurrence,
    attended: shift.attended,
    breaks: shift.breaks.map((b) => ({ startS: at(b.startMin), endS: at(b.endMin) })),
    breaksStop: shift.breaksStop ?? false,
  };
}

/** Cuts the week at every start and end; spans past the week's end go on at its beginning. */
function cutWeek(spans: readonly Span[], weekS: number): WeekSegment[] {
  const cuts = new Set([0, weekS]);
  for (const span of spans)
    for (const t of [span.startS, span.endS, ...span.breaks.flatMap((b) => [b.startS, b.endS])])
      if (t % weekS !== 0) cuts.add(t % weekS);
  const times = [...cuts].sort((a, b) => a - b);
  return times.slice(0, -1).map((startS, i) => segmentAt(spans, weekS, startS, times[i + 1] ?? weekS));
}

function segmentAt(spans: readonly Span[], weekS: number, startS: number, endS: number): WeekSegment {
  const covers = (s: { startS: number; endS: number }): boolean =>
    [startS, startS + weekS].some((t) => s.startS <= t && t < s.endS);
  const inBreak = (s: Span): boolean => s.breaks.some(covers);
  const here = spans.filter((s) => covers(s) && !(s.breaksStop && inBreak(s)));
  const attending = here.filter((s) => s.attended);
  return {
    startS,
    endS,
    open: here.length > 0,
    attended: attending.length > 0,
    operator: attending.some((s) => !inBreak(s)),
    shift: here[0]?.occurrence ?? -1,
  };
}

function mergeAlike(segments: readonly WeekSegment[]): WeekSegment[] {
  const merged: WeekSegment[] = [];
  for (const s of segments) {
    const last = merged.at(-1);
    const alike =
      last &&
      last.open === s.open &&
      last.attended === s.attended &&
      last.operator === s.operator &&
      last.shift === s.shift;
    if (alike) merged[merged.length - 1] = { ...last, endS: s.endS };
    else merged.push(s);
  }
  return merged;
}
