/** changeovers.csv: how often jobs change at each machine, and what else that takes. */
import type { Changeover } from '../core/model/cell.js';
import { optional } from './column.js';
import type { ComplaintList } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { firstOfEach } from './repeated-rows.js';
import type { Sheet } from './sheet.js';
import { typedRows } from './typed-rows.js';

export const changeoverColumns = {
  station: stationName('machine that changes over'),
  per_year: numberColumn('per year', 'changeovers onto the machine in a year', {
    words: 'changeovers',
    min: 0,
  }),
  minutes_other: optional(
    numberColumn('min', 'set-up minutes that both ways have in common', { words: 'minutes', min: 0 }),
    0,
    '0',
  ),
  internal_pct: optional(
    numberColumn('%', 'share of the set-up in which the machine stands', {
      words: 'per cent',
      min: 0,
      max: 100,
    }),
    100,
    '100',
  ),
  people: optional(
    numberColumn('people', 'people at work on the changeover', { words: 'people', min: 0 }),
    1,
    '1',
  ),
} as const;

export function readChangeovers(
  list: ComplaintList,
  sheet: Sheet,
  stations: KnownNames<unknown>,
): Changeover[] {
  const rows = firstOfEach(list, sheet, typedRows(list, sheet, changeoverColumns), {
    code: 'CHA01',
    column: 'station',
    keyOf: (r) => [r.values.station],
    wordsOf: (r) => `the station ${inBackticks(r.values.station)}`,
  });
  for (const { row, values } of rows)
    checkReference(list, sheet, row, { code: 'VAL09', column: 'station', name: values.station }, stations);
  return rows.map(({ values, at }) => ({
    station: values.station,
    perYear: values.per_year,
    minutesOther: values.minutes_other,
    internalPct: values.internal_pct,
    people: values.people,
    at,
  }));
}
