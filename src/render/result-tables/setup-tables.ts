/** The order of jobs on each machine as tables. */
import type { SetupOrders, StationSetups } from '../../core/setups/setup-orders.js';
import { type Column, declared, figures, readTable, words } from '../columns.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

/** Read as a sentence, by `setupSentence`. */
const MINUTES: readonly Column<StationSetups>[] = [
  words('station', undefined, (s) => s.station),
  figures('jobs', undefined, 0, (s) => s.order.length),
  figures('setup_min', undefined, 1, (s) => s.minutes),
  figures('as_listed_min', undefined, 1, (s) => s.asListedMinutes),
  figures('least_possible_min', undefined, 1, (s) => s.boundMinutes),
  words('proven', undefined, (s) => s.proven),
];

type PlacedStep = StationSetups['steps'][number] & { readonly station: string; readonly place: number };

function placedSteps({ station, steps }: StationSetups): PlacedStep[] {
  return steps.map((step, i) => ({ ...step, station, place: i + 1 }));
}

const ORDER: readonly Column<PlacedStep>[] = [
  words('station', undefined, (s) => s.station),
  figures('place', undefined, 0, (s) => s.place),
  words('from', 'from', (s) => s.from),
  words('to', 'to', (s) => s.to),
  figures('setup_min', 'set-up\nmin', 1, (s) => s.minutes),
];

/** Of one machine. */
export function setupOrderTable(found: StationSetups): TableData {
  return readTable(ORDER, placedSteps(found));
}

const TABLES = [
  declared(
    'setup-minutes.csv',
    MINUTES,
    ({ stations }: SetupOrders) => stations,
    drawn('column', 'Set-up minutes: best order and order of the table', 'station', [
      'setup_min',
      'as_listed_min',
    ]),
  ),
  declared('setup-order.csv', ORDER, ({ stations }: SetupOrders) => stations.flatMap(placedSteps)),
];

export const SETUP_TABLES = TABLES.map(({ file }) => file);

export function setupTables(result: SetupOrders): ResultTable[] {
  return TABLES.flatMap((table) => table.inFile(result));
}
