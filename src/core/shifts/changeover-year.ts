/**
 * What the changeovers of a year cost: after the first weeks have settled, the weeks in which they fall due are run
 * without chance, until the last one is done, and what they make less than settled weeks without changeovers is their
 * loss.
 */

import { YEAR_WEEKS } from '../calendar/year.js';
import type { DoneChangeover } from '../floor/changeovers.js';
import { crewClock } from '../floor/crew-clock.js';
import type { YearOfChangeovers } from '../floor/floor-job.js';
import type { FloorHold } from '../floor/holds.js';
import type { OpenWeek } from '../floor/open-calendar.js';
import { changeoverDues } from './changeover-dues.js';
import type { ChangeoverWork } from './changeover-work.js';
import type { SteadyWeek, WeekMade, WeekRunner } from './steady-week.js';

/** One changeover as it was placed, on a clock from the Monday of its week. */
export interface PlacedChangeover {
  readonly work: ChangeoverWork;
  readonly startS: number;
  readonly standsUntilS: number;
  readonly endS: number;
}

export interface ChangeoverYear {
  /** Weeks after which the changeovers repeat. */
  readonly weeks: number;
  /** What a week loses to changeovers on average. */
  readonly loss: WeekMade;
  /** Good parts of all routes by shift of the open week, in order, of each week. */
  readonly goodByShiftOfWeeks: readonly (readonly number[])[];
  /** By row of the work: changeovers that fell due, and those that were done. */
  readonly due: readonly number[];
  readonly done: readonly number[];
  /** The fullest week: its number from 1, its changeovers in order, and its holds. */
  readonly fullest: {
    readonly week: number;
    readonly changeovers: readonly PlacedChangeover[];
    readonly holds: readonly FloorHold[];
  };
  /** By week, the changeovers that begin in it. */
  readonly byWeek: readonly (readonly PlacedChangeover[])[];
}

/** Weeks in which a run settles before the first changeover falls due, and after the last in which some may be left. */
const WEEKS_BEFORE = 2;
const WEEKS_AFTER = 2;

/** When the changeovers fall due on a clock from a Monday 00:00; null where there are none, or nobody who could do them. */
export function yearOfChangeovers(work: readonly ChangeoverWork[], open: OpenWeek): YearOfChangeovers | null {
  const crew = crewClock(open);
  if (work.length === 0 || crew.mostPeople === 0) return null;
  const { weeks, dueS } = changeoverDues(work, crew.clock, 0);
  return {
    weeks,
    rows: work.map((row, r) => ({
      station: row.station,
      workS: row.workMin * 60,
      stopS: row.standMin * 60,
      people: row.people,
      dueS: dueS[r]!,
    })),
  };
}

export function changeoverYear(
  work: readonly ChangeoverWork[],
  year: YearOfChangeovers,
  runner: WeekRunner,
  steady: SteadyWeek,
): ChangeoverYear {
  const { weekS } = runner.open;
  const firstS = WEEKS_BEFORE * weekS;
  const player = runner.start(
    year.rows.map((row) => ({ ...row, dueS: row.dueS.map((dueS) => dueS + firstS) })),
  );
  for (let week = 0; week < WEEKS_BEFORE; week++) player.next();
  player.holds();
  const wanted = year.rows.reduce((sum, row) => sum + row.dueS.length, 0);
  const made: WeekMade[] = [];
  const holds: FloorHold[][] = [];
  while (
    made.length < year.weeks ||
    (player.changeovers().length < wanted && made.length < year.weeks + WEEKS_AFTER)
  ) {
    made.push(player.next());
    holds.push(player.holds());
  }
  const changeovers = player.changeovers();
  const due = year.rows.map((row) => row.dueS.length);
  const done = work.map((_, r) => changeovers.filter((c) => c.row === r).length);
  const byWeek = made.map((_, week) => placedIn(work, changeovers, firstS + week * weekS, weekS));
  const fullest = fullestWeek(byWeek);
  return {
    weeks: year.weeks,
    loss: lossOf(steady, made, weightOf(work, due, done, year.weeks) / year.weeks),
    goodByShiftOfWeeks: made.slice(0, year.weeks).map((w) => w.goodByShift),
    due,
    done,
    fullest: { week: fullest + 1, changeovers: byWeek[fullest]!, holds: holds[fullest]! },
    byWeek,
  };
}

/** The changeovers that begin in a week, in order, on the clock of its Monday. */
function placedIn(
  work: readonly ChangeoverWork[],
  changeovers: readonly DoneChangeover[],
  mondayS: number,
  weekS: number,
): PlacedChangeover[] {
  return changeovers
    .filter((c) => c.startS >= mondayS && c.startS < mondayS + weekS)
    .map((c) => ({
      work: work[c.row]!,
      startS: c.startS - mondayS,
      standsUntilS: c.runsAgainS - mondayS,
      endS: c.endS - mondayS,
    }))
    .sort((a, b) => a.startS - b.startS);
}

/** Where a count is not whole, a few more or fewer minutes were run than the year has: the loss is taken in proportion. */
function weightOf(
  work: readonly ChangeoverWork[],
  due: readonly number[],
  done: readonly number[],
  weeks: number,
): number {
  const sum = (of: (row: ChangeoverWork, r: number) => number): number =>
    work.reduce((total, row, r) => total + of(row, r), 0);
  const run = sum((row, r) => done[r]! * row.standMin);
  const asked = sum((row, r) => ((row.perYear * weeks) / YEAR_WEEKS) * (done[r]! / due[r]!) * row.standMin);
  return run > 0 && Math.abs(asked - run) > 1e-9 * run ? asked / run : 1;
}

/** Settled weeks less the weeks that were run, times a weight. */
function lossOf(steady: SteadyWeek, made: readonly WeekMade[], weight: number): WeekMade {
  const lost = (of: (w: WeekMade) => readonly number[]): number[] =>
    of(steady).map((amount, i) => weight * made.reduce((sum, w) => sum + amount - of(w)[i]!, 0));
  return {
    good: lost((w) => w.good),
    scrap: lost((w) => w.scrap),
    late: lost((w) => w.late),
    goodByShift: lost((w) => w.goodByShift),
    goodByShiftRoute: lost((w) => w.goodByShiftRoute),
    lastOutS: steady.lastOutS.map(() => 0),
    busyS: weight * made.reduce((sum, w) => sum + steady.busyS - w.busyS, 0),
  };
}

function fullestWeek(byWeek: readonly (readonly PlacedChangeover[])[]): number {
  const minutes = byWeek.map((placed) => placed.reduce((sum, p) => sum + p.work.workMin, 0));
  return minutes.indexOf(Math.max(...minutes));
}
