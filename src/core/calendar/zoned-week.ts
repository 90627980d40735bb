/**
 * The shifts of a real week in a named time zone. Clock times of shifts.csv become hours that really pass: where the
 * clocks change, the shift that the change falls into is shorter or longer, and shifts that follow it without a gap move
 * with it. The result is shifts again, so that everything that takes shifts takes these as well. Time in which the cell
 * is closed counts nowhere, so it gives way; where a pattern has no pause that could, its week is longer or shorter.
 *
 * A clock time that the change leaves out is taken as the same time after the change; one that comes twice as the first.
 */
import { Temporal } from 'temporal-polyfill';
import { type ClockChange, type ClockSpan, DAYS, type Day, type Shift } from '../model/cell.js';
import { WEEK_MIN } from '../model/week-minutes.js';
import { zonedMomentMs } from './zoned-moment.js';

export interface ZonedWeek {
  /** Monday of the week, such as `2026-10-19`. */
  readonly monday: string;
  readonly zone: string;
  /** Hours that pass from Monday 00:00 to the next Monday 00:00. */
  readonly hours: number;
  readonly shifts: readonly Shift[];
  /** Shifts that the change of the clocks makes shorter or longer. */
  readonly changes: readonly ShiftChange[];
}

export interface ShiftChange {
  readonly pattern: string;
  readonly shift: string;
  readonly day: Day;
  /** Hours by the clock, and those that pass. */
  readonly clockH: number;
  readonly passedH: number;
}

const DAY_MIN = 1440;

/**
 * @param date any day of the week, such as `2026-10-22`
 * @param zone a name of the IANA time zone database, such as `Europe/Berlin`
 * @throws RangeError where the date or the zone is not known
 */
export function zonedWeek(shifts: readonly Shift[], date: string, zone: string): ZonedWeek {
  const monday = mondayOf(date);
  const passed = passedMinutes(monday, knownZone(zone));
  const changes: ShiftChange[] = [];
  const placed = new Map<string, Shift>();
  for (const pattern of new Set(shifts.map((s) => s.pattern))) {
    const turns = turnsOf(shifts, pattern, passed);
    const places = placedTurns(turns);
    const weekMin = weekMinutes(turns, places);
    const clockChange = weekMin === WEEK_MIN ? {} : { clockChange: { weekMin, ...clocksChanged(passed) } };
    for (const { row, shift } of places)
      placed.set(turnKey(row, shift.days[0]!), { ...shift, ...clockChange });
    for (const { shift, lengthMin, clockMin } of turns)
      if (Math.abs(lengthMin - clockMin) > 1e-9)
        changes.push({
          pattern,
          shift: shift.shift,
          day: shift.days[0]!,
          clockH: clockMin / 60,
          passedH: lengthMin / 60,
        });
  }
  const real = shifts.flatMap((shift, row) =>
    joinedDays(shift.days.map((day) => placed.get(turnKey(row, day))!)),
  );
  return {
    monday: monday.toString(),
    zone,
    hours: passed(0, 7 * DAY_MIN) / 60,
    shifts: real,
    changes,
  };
}

/** One shift on one day. */
interface Turn {
  /** Index of its row. */
  readonly row: number;
  /** With that day alone. */
  readonly shift: Shift;
  /** By the clock, minutes after Monday 00:00. */
  readonly startMin: number;
  readonly clockMin: number;
  /** Minutes that pass. */
  readonly lengthMin: number;
  /** Breaks in minutes that pass since the shift's start. */
  readonly breaks: readonly ClockSpan[];
}

function turnKey(row: number, day: Day): string {
  return `${row} ${day}`;
}

/** The turns of a pattern in the order of the week. */
function turnsOf(shifts: readonly Shift[], pattern: string, passed: Passed): Turn[] {
  return shifts
    .flatMap((shift, row) =>
      shift.pattern === pattern
        ? shift.days.map((day) => turnOf({ ...shift, days: [day] }, row, passed))
        : [],
    )
    .sort((a, b) => a.startMin - b.startMin);
}

function turnOf(shift: Shift, row: number, passed: Passed): Turn {
  const day = DAYS.indexOf(shift.days[0]!);
  const since = (clockMin: number): number => passed(day, clockMin) - passed(day, shift.startMin);
  return {
    row,
    shift,
    startMin: day * DAY_MIN + shift.startMin,
    clockMin: shift.endMin - shift.startMin,
    lengthMin: since(shift.endMin),
    breaks: shift.breaks
      .map((b): ClockSpan => ({ startMin: since(b.startMin), endMin: since(b.endMin) }))
      .filter((b) => b.endMin > b.startMin),
  };
}

interface PlacedTurn {
  readonly row: number;
  readonly shift: Shift;
  /** Minutes after Monday 00:00 in the week that is run. */
  readonly startMin: number;
  readonly endMin: number;
}

/** Turns that follow without a gap stay so; others start by the clock, or as soon as the one before is over. */
function placedTurns(turns: readonly Turn[]): PlacedTurn[] {
  const placed: PlacedTurn[] = [];
  for (const [i, turn] of turns.entries()) {
    const before = turns[i - 1];
    const endMin = placed.at(-1)?.endMin ?? turn.startMin;
    const follows = before !== undefined && before.startMin + before.clockMin === turn.startMin;
    const startMin = follows ? endMin : Math.max(turn.startMin, endMin);
    const inDay = startMin - DAYS.indexOf(turn.shift.days[0]!) * DAY_MIN;
    const breaks = turn.breaks.map((b) => ({ startMin: inDay + b.startMin, endMin: inDay + b.endMin }));
    const shift = { ...turn.shift, startMin: inDay, endMin: inDay + turn.lengthMin, breaks };
    placed.push({ row: turn.row, shift, startMin, endMin: startMin + turn.lengthMin });
  }
  return placed;
}

/**
 * Minutes after which the first turn comes again: those of a week, or what the turns need where the last one leads over
 * to the first without a pause, or would find it there.
 */
function weekMinutes(turns: readonly Turn[], placed: readonly PlacedTurn[]): number {
  const [first, last] = [placed[0], placed.at(-1)];
  const before = turns.at(-1);
  if (!first || !last || !before) return WEEK_MIN;
  const neededMin = last.endMin - first.startMin;
  const leadsOver = before.startMin + before.clockMin === turns[0]!.startMin + WEEK_MIN;
  return leadsOver ? neededMin : Math.max(WEEK_MIN, neededMin);
}

/** When the clocks are changed and by how much, for a week in which they are, once. */
function clocksChanged(passed: Passed): Pick<ClockChange, 'atMin' | 'byMin'> {
  let [before, after] = [0, WEEK_MIN];
  while (after - before > 1) {
    const middle = Math.floor((before + after) / 2);
    if (passed(0, middle) === middle) before = middle;
    else after = middle;
  }
  // Put back, the clock shows some minutes twice; put forward, it leaves some out.
  return { atMin: Math.min(after, passed(0, after)), byMin: passed(0, WEEK_MIN) - WEEK_MIN };
}

function mondayOf(date: string): Temporal.PlainDate {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date))
    throw new RangeError(`found ${date}, expected a date such as 2026-10-19`);
  try {
    const day = Temporal.PlainDate.from(date, { overflow: 'reject' });
    return day.subtract({ days: day.dayOfWeek - 1 });
  } catch {
    throw new RangeError(`found ${date}, which is no day of the calendar`);
  }
}

/** @throws RangeError where the zone is not known */
export function knownZone(zone: string): string {
  try {
    return Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone).timeZoneId;
  } catch {
    throw new RangeError(`found ${zone}, expected the name of a time zone, such as Europe/Berlin`);
  }
}

/** Minutes that pass from Monday 00:00 to a clock time, given as a day from 0 and minutes after its midnight. */
type Passed = (day: number, clockMin: number) => number;

function passedMinutes(monday: Temporal.PlainDate, zone: string): Passed {
  const at = (day: number, clockMin: number): number => zonedMomentMs(monday, day * DAY_MIN + clockMin, zone);
  const startMs = at(0, 0);
  return (day, clockMin) => (at(day, clockMin) - startMs) / 60_000;
}

/** Days with the same times make one row again; a shift of which nothing is left is dropped. */
function joinedDays(days: readonly Shift[]): Shift[] {
  const rows: Shift[] = [];
  for (const day of days.filter((d) => d.endMin > d.startMin)) {
    const times = JSON.stringify([day.startMin, day.endMin, day.breaks]);
    const same = rows.findIndex((r) => JSON.stringify([r.startMin, r.endMin, r.breaks]) === times);
    if (same < 0) rows.push(day);
    else rows[same] = { ...rows[same]!, days: [...rows[same]!.days, ...day.days] };
  }
  return rows;
}
