/** The changeovers of a pattern as plain data: those of one week with day and time, and what the year comes to. */

import { clockText } from '../calendar/clock-text.js';
import type { WeekCalendar } from '../calendar/week-calendar.js';
import type { SetupWay } from '../cost/way-minutes.js';
import type { ChangeoverWork } from './changeover-work.js';
import type { ChangeoverYear, PlacedChangeover } from './changeover-year.js';

export interface WeekChangeover {
  readonly station: string;
  /** Seconds after Monday 00:00: it begins, the machine runs again, the people are done. */
  readonly fromS: number;
  readonly standsUntilS: number;
  readonly untilS: number;
  /** Such as `Tue 10:05`. */
  readonly from: string;
  readonly standsUntil: string;
  readonly until: string;
  /** Minutes of work, breaks left out, and those of them in which the machine stands. */
  readonly minutes: number;
  readonly standMin: number;
  /** How the robot's signals come to the machine, and the minutes of that, which are among the others. */
  readonly way: SetupWay;
  readonly wayMin: number;
  readonly people: number;
}

/** All changeovers of a year of 52 weeks. */
export interface ChangeoverSummary {
  readonly perYear: number;
  /** Of these, changeovers for which the people find no time. */
  readonly notDonePerYear: number;
  /** Minutes of work, and minutes in which machines stand, of those that are done. */
  readonly minutesPerYear: number;
  readonly standMinPerYear: number;
  /** Weeks after which they repeat, and the number of the week that is shown, the fullest; null where none is done. */
  readonly weeks: number | null;
  readonly shownWeek: number | null;
}

export function weekChangeover(
  { work, startS, standsUntilS, endS }: PlacedChangeover,
  week?: Pick<WeekCalendar, 'weekS' | 'clockChange'>,
): WeekChangeover {
  return {
    station: work.station,
    fromS: startS,
    standsUntilS,
    untilS: endS,
    from: clockText(startS, week),
    standsUntil: clockText(standsUntilS, week),
    until: clockText(endS, week),
    minutes: work.workMin,
    standMin: work.standMin,
    way: work.way,
    wayMin: work.wayMin,
    people: work.people,
  };
}

/**
 * @param work the rows
 * @param year how they were placed; null where nobody is there to do them
 * @returns null where there are none
 */
export function changeoverSummary(
  work: readonly ChangeoverWork[],
  year: ChangeoverYear | null,
): ChangeoverSummary | null {
  if (work.length === 0) return null;
  const sum = (of: (row: ChangeoverWork, donePerYear: number) => number): number =>
    work.reduce(
      (total, row, r) => total + of(row, year === null ? 0 : (row.perYear * year.done[r]!) / year.due[r]!),
      0,
    );
  return {
    perYear: sum((row) => row.perYear),
    notDonePerYear: sum((row, done) => row.perYear - done),
    minutesPerYear: sum((row, done) => row.workMin * done),
    standMinPerYear: sum((row, done) => row.standMin * done),
    weeks: year?.weeks ?? null,
    shownWeek: year?.fullest.week ?? null,
  };
}
