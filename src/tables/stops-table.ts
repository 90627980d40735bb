/** stops.csv: planned stops such as tool change, gauge, rack refill, cleaning. */
import type { PlannedStop, StationKind } from '../core/model/cell.js';
import { yesNoColumn } from './choice-column.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { nameColumn, stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, type Sheet } from './sheet.js';
import { recordOf, type TypedRow, typedRows } from './typed-rows.js';

export const stopColumns = {
  station: stationName('station that stops'),
  name: nameColumn('what is done, such as `tool change`'),
  every_parts: optional(
    numberColumn('parts', 'parts between two stops; give this or every_h', quantities.partsBetween),
    null,
  ),
  every_h: optional(
    numberColumn('h', 'hours between two stops; give this or every_parts', quantities.hoursBetween),
    null,
  ),
  minutes: numberColumn('min', 'time that the stop takes', quantities.minutes),
  operator: optional(yesNoColumn('whether it waits for attended hours'), true),
  early_parts: optional(
    numberColumn(
      'parts',
      'by at most how many parts it is done early, before people leave, where it would come due while nobody is there; needs every_parts and operator yes',
      quantities.partsBetween,
    ),
    null,
    'never early',
  ),
} as const;

type StopRow = TypedRow<typeof stopColumns>;

export function readStops(sheet: Sheet, stations: KnownNames<StationKind | null>): PlannedStop[] {
  const rows = firstOfEach(
    sheet,
    typedRows(sheet, stopColumns),
    'STO03',
    ['name', 'station'],
    ({ values }) => `the stop ${inBackticks(values.name)} of ${inBackticks(values.station)}`,
  );
  for (const row of rows) checkRow(sheet, row, stations);
  return rows.map((row) => {
    const { earlyParts, ...stop } = recordOf(row);
    return earlyParts === null ? stop : { ...stop, earlyParts };
  });
}

function checkRow(sheet: Sheet, { row, values }: StopRow, stations: KnownNames<StationKind | null>): void {
  checkReference(sheet, row, { code: 'VAL09', column: 'station', name: values.station }, stations);
  if (stations?.get(values.station) === 'held')
    reportCell(sheet, row, 'station', 'STO05', () => heldStop(values));
  checkEarly(sheet, row, values);
  const count = Number(values.every_parts !== null) + Number(values.every_h !== null);
  if (count === 1) return;
  const column = count === 2 || !sheet.columns.has('every_parts') ? 'every_h' : 'every_parts';
  reportCell(sheet, row, sheet.columns.has(column) ? column : null, count === 0 ? 'STO01' : 'STO02', () => ({
    text: `${inBackticks(values.name)} has ${count === 0 ? 'neither' : 'both'} every_parts ${count === 0 ? 'nor' : 'and'} every_h, expected one of them`,
    help: 'Write how often the stop comes due in parts or in hours; for both causes give two rows with names of their own.',
  }));
}

/** The robot itself works there, and no part waits for it. */
function heldStop({ station, name }: StopRow['values']) {
  return {
    text: `${inBackticks(station)} is a held station, where no planned stop such as ${inBackticks(name)} is reckoned with`,
    help: 'Give the stop to a machine that is stopped meanwhile, or add its share to cycle_s of the held step.',
  };
}

/** Doing a stop early makes sense by parts, for what an operator does, and by fewer than lie between two. */
function checkEarly(
  sheet: Sheet,
  row: StopRow['row'],
  { name, early_parts: early, every_parts: every, operator }: StopRow['values'],
): void {
  if (early === null) return;
  const wrong =
    every === null
      ? 'but no every_parts'
      : early >= every
        ? `which is not below every_parts, ${every}`
        : operator
          ? null
          : 'but operator no';
  if (wrong === null) return;
  reportCell(sheet, row, 'early_parts', 'STO04', () => ({
    text: `${inBackticks(name)} has early_parts ${early}, ${wrong}`,
    help: 'Give early_parts only with every_parts and operator yes, and fewer parts than lie between two stops.',
  }));
}
