/** setups.csv: minutes to change a machine over from one job to another, one direction a row. */

import type { Setup } from '../core/model/cell.js';
import { firstFew } from '../core/model/first-few.js';
import { jobsOf, missingSetups } from '../core/model/setup-minutes.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { tableLimits } from './limits.js';
import { nameColumn, stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, reportTable, type Sheet } from './sheet.js';
import { recordOf, typedRows } from './typed-rows.js';

export const setupColumns = {
  station: stationName('machine that is set up'),
  from: nameColumn('job that ran before: a part of routes.csv or other work'),
  to: nameColumn('job that the machine is set up for'),
  minutes: numberColumn('min', 'minutes from the last part of the one to the first good part of the other', {
    words: 'minutes',
    min: 0,
  }),
} as const;

/** Pairs named in one complaint. */
const PAIRS_NAMED = 5;

export function readSetups(sheet: Sheet, stations: KnownNames<unknown>): Setup[] {
  const rows = firstOfEach(
    sheet,
    typedRows(sheet, setupColumns),
    'SUP01',
    ['station', 'from', 'to'],
    ({ values }) =>
      `the changeover of ${inBackticks(values.station)} from ${inBackticks(values.from)} to ${inBackticks(values.to)}`,
  );
  for (const { row, values } of rows) {
    checkReference(sheet, row, { code: 'VAL09', column: 'station', name: values.station }, stations);
    if (values.from === values.to)
      reportCell(sheet, row, 'to', 'SUP02', () => ({
        text: `found ${inBackticks(values.to)} in both from and to, expected two jobs`,
        help: 'A job that follows itself needs no changeover: take the row out.',
      }));
  }
  const setups = rows.map(recordOf);
  if (sheet.isWhole && !sheet.list.hasError(sheet.file)) reportUnfit(sheet, setups);
  return setups;
}

/** At most one complaint a machine: too many jobs, or the first pairs that have no minutes. */
function reportUnfit(sheet: Sheet, setups: readonly Setup[]): void {
  for (const station of new Set(setups.map((setup) => setup.station))) {
    const jobs = jobsOf(setups, station);
    if (jobs.length > tableLimits.jobsPerMachine) {
      reportTable(sheet, {
        code: 'SUP04',
        text: `found ${jobs.length} jobs at ${inBackticks(station)}, expected at most ${tableLimits.jobsPerMachine}`,
        help: 'Take out jobs that are rarely run, or put jobs with alike changeovers under one name.',
      });
      continue;
    }
    const missing = missingSetups(setups, station);
    if (missing.length === 0) continue;
    const pairs = missing.map(([from, to]) => `${inBackticks(from)} to ${inBackticks(to)}`);
    reportTable(sheet, {
      code: 'SUP03',
      text: `no minutes are given at ${inBackticks(station)} for ${firstFew(pairs, PAIRS_NAMED)}`,
      help: 'Give each pair of jobs of a machine one row at least; the other direction takes the same minutes unless it has a row of its own.',
    });
  }
}
