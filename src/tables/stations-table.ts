/** stations.csv: the places where the robot picks, places or holds a part. */
import { STATION_KINDS, type Station, type StationKind } from '../core/model/cell.js';
import { choiceColumn } from './choice-column.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import { stationName } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, reportTable, type Sheet } from './sheet.js';
import { recordOf, type TypedRow, typedRows } from './typed-rows.js';

export const stationColumns = {
  station: stationName('unique name'),
  kind: choiceColumn(STATION_KINDS, 'what the station is, see the list of kinds'),
  x_m: optional(
    numberColumn('m', 'position across, for travel that travel.csv does not give', quantities.metres),
    null,
  ),
  y_m: optional(
    numberColumn('m', 'position along, for travel that travel.csv does not give', quantities.metres),
    null,
  ),
  capacity: optional(
    numberColumn('parts', 'parts it can hold', quantities.partsHeld),
    null,
    'infeed and outfeed: unlimited; others 1, or the largest parts_per_cycle of the steps there',
  ),
  ready_s: optional(
    numberColumn('s', 'machine-only time from finish until the robot may enter', quantities.seconds),
    0,
  ),
  close_s: optional(
    numberColumn(
      's',
      'machine-only time from the leaving of the robot until the cycle starts',
      quantities.seconds,
    ),
    0,
  ),
  cost_per_h: optional(numberColumn('money/h', 'running cost of the station', quantities.moneyPerHour), 0),
  mtbf_h: optional(
    numberColumn('h', 'mean processing time between random stops', quantities.hoursBetween),
    null,
    'no random stops',
  ),
  mttr_min: optional(
    numberColumn('min', 'mean time to clear a random stop', { words: 'minutes', min: 0.01, max: 100_000 }),
    null,
    'no random stops',
  ),
} as const;

type StationRow = TypedRow<typeof stationColumns>;

/** @returns the stations; `capacityParts` is null where the cell is empty, whatever the kind */
export function readStations(sheet: Sheet): Station[] {
  const rows = firstOfEach(sheet, typedRows(sheet, stationColumns), 'STA01', ['station']);
  for (const row of rows) checkPairs(sheet, row);
  for (const row of rows) checkUse(sheet, row);
  if (rows.length > tableLimits.stations) reportTable(sheet, tooMany(rows.length));
  return rows.map(stationOf);
}

function tooMany(count: number) {
  const text = `the table lists ${count} stations, at most ${tableLimits.stations} are read`;
  return { code: 'STA05', text, help: 'Leave out stations that no route visits.' } as const;
}

function checkPairs(sheet: Sheet, row: StationRow): void {
  checkBoth(
    sheet,
    row,
    'STA02',
    'x_m',
    'y_m',
    'A position needs both; leave both empty where there is none.',
  );
  checkBoth(sheet, row, 'STA03', 'mtbf_h', 'mttr_min', 'Random stops need both; leave both empty for none.');
}

function checkBoth(
  sheet: Sheet,
  { row, values }: StationRow,
  code: 'STA02' | 'STA03',
  one: 'x_m' | 'mtbf_h',
  other: 'y_m' | 'mttr_min',
  help: string,
): void {
  if ((values[one] === null) === (values[other] === null)) return;
  const [given, lacking] = values[one] === null ? [other, one] : [one, other];
  const column = sheet.columns.has(lacking) ? lacking : given;
  reportCell(sheet, row, column, code, () => ({
    text: `\`${given}\` is given and \`${lacking}\` is not`,
    help,
  }));
}

const noRandomStops = [
  'mtbf_h',
  'Leave mtbf_h and mttr_min empty; time to fill or to clear it is a planned stop of stops.csv.',
] as const;
const inTheHand =
  'Leave the cell empty: the robot holds the part there for the time of the step in routes.csv.';

/** Columns that say nothing about a station of a kind, each with what to do. */
const UNUSED: Partial<
  Record<StationKind, readonly (readonly [keyof typeof stationColumns, help: string])[]>
> = {
  infeed: [noRandomStops],
  outfeed: [noRandomStops],
  held: (['capacity', 'ready_s', 'close_s', 'mtbf_h'] as const).map((column) => [column, inTheHand]),
};

function checkUse(sheet: Sheet, { row, values }: StationRow): void {
  for (const [column, help] of UNUSED[values.kind] ?? []) {
    const found = values[column];
    if (!found || (column === 'capacity' && found === 1)) continue;
    reportCell(sheet, row, column, 'STA06', () => ({
      severity: 'warning',
      text: `found ${column} ${found} at ${inBackticks(values.station)}, which a station of kind ${values.kind} does not have; it is not used`,
      help,
    }));
  }
}

function stationOf(row: StationRow): Station {
  const { station: name, capacity: capacityParts, ...more } = recordOf(row);
  return { name, capacityParts, ...more };
}
