/** changeovers.csv: how often jobs change at each machine, and what else that takes. */

import { patternNames, weekCalendar } from '../core/calendar/week-calendar.js';
import type { Changeover, Shift, StationKind } from '../core/model/cell.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, type Sheet } from './sheet.js';
import { recordOf, type TypedRow, typedRows } from './typed-rows.js';

export const changeoverColumns = {
  station: stationName('machine that changes over'),
  per_year: numberColumn('per year', 'changeovers onto the machine in a year', quantities.changeoversAYear),
  minutes_other: optional(
    numberColumn('min', 'set-up minutes common to both options', quantities.minutes),
    0,
  ),
  internal_pct: optional(
    numberColumn('%', 'share of the set-up minutes that is downtime of the machine', quantities.perCent),
    100,
  ),
  people: optional(numberColumn('people', 'people at work on the changeover', quantities.people), 1),
} as const;

type Row = TypedRow<typeof changeoverColumns>;

const HOURS_A_YEAR = 8760;

/** Parts lie on a rack or come to it as they are: there is no job to set it up for. */
function checkKind(sheet: Sheet, { row, values }: Row, kind: StationKind | null): void {
  if (kind !== 'infeed' && kind !== 'outfeed') return;
  reportCell(sheet, row, 'station', 'CHA03', () => ({
    text: `${inBackticks(values.station)} is an ${kind}, expected a station that is set up for a job`,
    help: 'Give the changeovers of the machines; time to fill or empty a rack is a planned stop of stops.csv.',
  }));
}

function checkHours(sheet: Sheet, { row, values }: Row, longest: AttendedYear | null): void {
  const hours = (values.per_year * values.minutes_other * values.internal_pct) / 100 / 60;
  if (longest !== null && hours > longest.hours && hours <= HOURS_A_YEAR)
    reportCell(sheet, row, 'per_year', 'CHA04', () => ({
      severity: 'warning',
      text: `${values.per_year} changeovers of ${values.minutes_other} minutes stop ${inBackticks(values.station)} for ${Math.round(hours)} hours a year; somebody is there for at most ${Math.round(longest.hours)} (pattern ${inBackticks(longest.pattern)})`,
      help: 'Check whether per_year is of one year and one machine, and minutes_other in minutes.',
    }));
  if (hours <= HOURS_A_YEAR) return;
  const inside =
    values.internal_pct < 100 ? ` (${values.internal_pct}% of them with the machine stopped)` : '';
  reportCell(sheet, row, 'per_year', 'CHA02', () => ({
    text: `${values.per_year} changeovers of ${values.minutes_other} minutes${inside} stop ${inBackticks(values.station)} for ${Math.round(hours)} hours a year, which has ${HOURS_A_YEAR}`,
    help: 'Check whether per_year is of one year and one machine, and minutes_other in minutes.',
  }));
}

interface AttendedYear {
  readonly pattern: string;
  readonly hours: number;
}

const WEEKS_A_YEAR = 52;

/** The pattern in which somebody is there for most of the year; null without shifts. */
function longestPattern(shifts: readonly Shift[]): AttendedYear | null {
  const all = patternNames(shifts).map((pattern) => ({
    pattern,
    hours: WEEKS_A_YEAR * weekCalendar(shifts, pattern).attendedH,
  }));
  return all.reduce<AttendedYear | null>((most, one) => (one.hours > (most?.hours ?? -1) ? one : most), null);
}

/** @param shifts to hold the hours of changeovers against; empty where they are not known */
export function readChangeovers(
  sheet: Sheet,
  stations: KnownNames<StationKind | null>,
  shifts: readonly Shift[],
): Changeover[] {
  const longest = longestPattern(shifts);
  const rows = firstOfEach(sheet, typedRows(sheet, changeoverColumns), 'CHA01', ['station']);
  for (const row of rows) {
    const { station } = row.values;
    checkReference(sheet, row.row, { code: 'VAL09', column: 'station', name: station }, stations);
    checkKind(sheet, row, stations?.get(station) ?? null);
    checkHours(sheet, row, longest);
  }
  return rows.map(recordOf);
}
