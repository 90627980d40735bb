/**
 * The unattended shifts of a pattern: how long the cell runs in each, what ends it, parts and money, and what one more
 * rack, one spare tool or an earlier stop would add to the week. All of it from weeks on the floor without chance.
 */
import { soldOf } from '../calendar/asked-amounts.js';
import { clockText } from '../calendar/clock-text.js';
import type { WeekCalendar } from '../calendar/week-calendar.js';
import type { FloorJob } from '../floor/floor-job.js';
import type { FloorHold } from '../floor/holds.js';
import type { OpenWeek } from '../floor/open-calendar.js';
import { shiftLabel } from '../floor/open-spans.js';
import type { Cell } from '../model/cell.js';
import { earnedBy } from '../model/contribution.js';
import { type SteadyWeek, steadyWeek, weekRunner } from './steady-week.js';

export interface NightChange {
  readonly change: string;
  /** Good parts a week more with this and all changes before it; before changeovers. */
  readonly partsPerWeek: number;
}

export interface Night {
  readonly shift: string;
  readonly perWeek: number;
  /** Open hours of one. */
  readonly hours: number;
  /** Good parts of one, the same as those of its shift's name. */
  readonly parts: number;
  /** What they add to the contribution of the week, beyond an amount asked nothing; null = not given for each of them. */
  readonly contribution: number | null;
  /** Open hours from its start to the last part put out, on average. */
  readonly runsH: number;
  /** What waited for somebody until its end and began first; null where it runs through. */
  readonly endedBy: {
    readonly cause: FloorHold['cause'];
    readonly station: string;
    readonly stop: string;
  } | null;
  /** When that first began in the week shown, such as `Tue 01:42`. */
  readonly from: string | null;
  readonly changes: readonly NightChange[];
}

export interface NightInputs {
  readonly job: FloorJob;
  readonly calendar: WeekCalendar;
  readonly open: OpenWeek;
  /** The settled week, and what is left of it after changeovers. */
  readonly week: SteadyWeek;
  readonly made: SteadyWeek;
  /** Of the week shown: with changeovers its fullest, so that a hold has one time wherever it is named. */
  readonly holds: readonly FloorHold[];
  readonly mostWeeks: number;
}

/** So many changes are tried, one on top of the other. */
const MOST_CHANGES = 4;
/** Less is no gain. */
const LEAST_PARTS = 0.05;

export function nights(inputs: NightInputs): Night[] {
  const { job, calendar } = inputs;
  const rows = job.cell.shifts.filter((row) => row.pattern === calendar.pattern);
  const alone = calendar.shifts.filter((s) => !rows[s.row]!.attended);
  return [...new Set(alone.map((s) => s.shift))].map((shift) =>
    nightOf(
      inputs,
      shift,
      alone.filter((s) => s.shift === shift),
    ),
  );
}

function nightOf(inputs: NightInputs, shift: string, days: WeekCalendar['shifts']): Night {
  const { job, calendar, open, week, made, holds } = inputs;
  const { cell } = job;
  const labels = new Set(days.map((day) => shiftLabel(day)));
  const at = [...open.shiftLabels.keys()].filter((i) => labels.has(open.shiftLabels[i]!));
  const mean = (of: (i: number) => number): number => at.reduce((sum, i) => sum + of(i), 0) / days.length;
  const openS = (i: number): number => open.shiftEndsS[i]! - (i === 0 ? 0 : open.shiftEndsS[i - 1]!);
  const routes = cell.routes.length;
  const earned = (nightParts: number): number | null => {
    const good = made.good.map(
      (all, r) => all - nightParts * at.reduce((sum, i) => sum + made.goodByShiftRoute[i * routes + r]!, 0),
    );
    return earnedBy(cell, soldOf(cell, good, calendar.shifts.length));
  };
  const [all, byDay] = [earned(0), earned(1)];
  const spans = days.map((day) => spanOf(day, calendar));
  const first = holdsToTheEnd(holds, spans)[0] ?? holdsToTheEnd(week.holds, spans)[0] ?? null;
  return {
    shift,
    perWeek: days.length,
    hours: mean(openS) / 3600,
    parts: mean((i) => made.goodByShift[i]!),
    contribution: all === null || byDay === null ? null : (all - byDay) / days.length,
    runsH: mean((i) => week.lastOutS[i]!) / 3600,
    endedBy: first === null ? null : { cause: first.cause, station: first.station, stop: first.stop },
    from: first === null ? null : clockText(first.fromS, calendar),
    changes: changesFor(inputs, spans),
  };
}

interface Span {
  readonly startS: number;
  readonly endS: number;
}

/** From the start of a shift to its end, on the clock of the week in which it starts. */
function spanOf(day: WeekCalendar['shifts'][number], { shifts, segments, weekS }: WeekCalendar): Span {
  const own = segments.filter((segment) => segment.open && shifts[segment.shift] === day);
  const evening = own.findIndex((segment, i) => i > 0 && segment.startS !== own[i - 1]!.endS);
  if (evening < 0) return { startS: own[0]!.startS, endS: own.at(-1)!.endS };
  // It goes on over the end of the week.
  return { startS: own[evening]!.startS, endS: weekS + own[evening - 1]!.endS };
}

function keyOf({ cause, station, stop }: FloorHold): string {
  return JSON.stringify([cause, station, stop]);
}

/** What began to wait in one of the shifts and still did when it ended, each rack and stop once, the first first. */
function holdsToTheEnd(holds: readonly FloorHold[], spans: readonly Span[]): FloorHold[] {
  const lasting = holds.filter((hold) =>
    spans.some(({ startS, endS }) => hold.fromS >= startS && hold.fromS < endS && hold.untilS >= endS),
  );
  return lasting.filter((hold, i) => lasting.findIndex((other) => keyOf(other) === keyOf(hold)) === i);
}

/**
 * Each time what stops first is put off in the way that adds most, on top of the changes before, until nothing stops any
 * more or the steps are used up; changes at the end that add nothing are left out.
 */
function changesFor({ job, week, mostWeeks }: NightInputs, spans: readonly Span[]): NightChange[] {
  const base = total(week.good);
  const changes: NightChange[] = [];
  const done = new Set<string>();
  let [cell, holds] = [job.cell, week.holds];
  while (changes.length < MOST_CHANGES) {
    const first = holdsToTheEnd(holds, spans).find((hold) => !done.has(keyOf(hold)));
    if (first === undefined) break;
    done.add(keyOf(first));
    const tried = changedCells(cell, first).map((changed) => ({
      ...changed,
      week: steadyWeek(weekRunner({ ...job, cell: changed.cell }), mostWeeks),
    }));
    const best = tried.reduce((a, b) => (total(b.week.good) > total(a.week.good) + LEAST_PARTS ? b : a));
    changes.push({ change: best.change, partsPerWeek: total(best.week.good) - base });
    cell = best.cell;
    holds = best.week.holds;
  }
  while (changes.length > 0 && !adds(changes)) changes.pop();
  return changes;
}

/** The last change adds parts to those before. */
function adds(changes: readonly NightChange[]): boolean {
  return changes.at(-1)!.partsPerWeek > (changes.at(-2)?.partsPerWeek ?? 0) + LEAST_PARTS;
}

function changedCells(cell: Cell, { cause, station, stop }: FloorHold): { change: string; cell: Cell }[] {
  const row = cell.stops.find((s) => s.station === station && s.name === stop);
  if (cause === 'waits for operator' && row !== undefined) {
    const withStop = (more: object): Cell => ({
      ...cell,
      stops: cell.stops.map((s) => (s === row ? { ...s, ...more } : s)),
    });
    if (row.everyParts === null)
      return [
        { change: `"${stop}" at ${station} half as often`, cell: withStop({ everyH: 2 * row.everyH! }) },
      ];
    const early = row.everyParts - 1;
    return [
      {
        change: `one spare tool for "${stop}" at ${station}`,
        cell: withStop({ everyParts: 2 * row.everyParts, earlyParts: 0 }),
      },
      ...((row.earlyParts ?? 0) < early
        ? [{ change: `"${stop}" at ${station} before people leave`, cell: withStop({ earlyParts: early }) }]
        : []),
    ];
  }
  const stations = cell.stations.map((s) =>
    s.name === station && s.capacityParts !== null ? { ...s, capacityParts: 2 * s.capacityParts } : s,
  );
  // What is refilled after so many parts is so with twice as many.
  const stops = cell.stops.map((s) =>
    s.station === station && s.everyParts !== null ? { ...s, everyParts: 2 * s.everyParts } : s,
  );
  return [{ change: `one more rack at ${station}`, cell: { ...cell, stations, stops } }];
}

function total(amounts: readonly number[]): number {
  return amounts.reduce((a, b) => a + b, 0);
}
