/** travel.csv: robot time between two stations, one direction a row. */
import type { TravelRow } from '../core/model/cell.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, type Sheet } from './sheet.js';
import { recordOf, type TypedRow, typedRows } from './typed-rows.js';

const { seconds } = quantities;

export const travelColumns = {
  from: stationName('station that the robot leaves'),
  to: stationName('station that it reaches'),
  empty_s: numberColumn('s', 'robot time with an empty gripper', seconds),
  loaded_s: optional(numberColumn('s', 'robot time with a part in the gripper', seconds), null, 'as empty_s'),
} as const;

type Row = TypedRow<typeof travelColumns>;

export function readTravel(sheet: Sheet, stations: KnownNames<unknown>): TravelRow[] {
  const rows = firstOfEach(
    sheet,
    typedRows(sheet, travelColumns),
    'TRA01',
    ['from', 'to'],
    ({ values }) => `the travel from ${inBackticks(values.from)} to ${inBackticks(values.to)}`,
  );
  for (const row of rows) checkRow(sheet, row, stations);
  return rows.map(recordOf).map((way) => ({ ...way, loadedS: way.loadedS ?? way.emptyS }));
}

function checkRow(sheet: Sheet, { row, values }: Row, stations: KnownNames<unknown>): void {
  for (const column of ['from', 'to'] as const)
    checkReference(sheet, row, { code: 'VAL09', column, name: values[column] }, stations);
  if (values.from !== values.to) return;
  reportCell(sheet, row, 'to', 'TRA02', () => ({
    text: `found ${inBackticks(values.to)} in both from and to, expected two stations`,
    help: 'Time at a station is load_s, unload_s or index_s.',
  }));
}
