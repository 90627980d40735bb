/** The tables as paths see them: which columns name a row, and which hold what can be changed. */
import { changeoverColumns } from '../changeovers-table.js';
import type { Columns } from '../column.js';
import { costColumns } from '../costs-table.js';
import { jobColumns } from '../jobs-table.js';
import { partColumns } from '../parts-table.js';
import { robotColumns, robotSettings } from '../robot-table.js';
import { routeColumns } from '../route-columns.js';
import { setupColumns } from '../setups-table.js';
import { shiftColumns } from '../shift-columns.js';
import { signalColumns } from '../signals-table.js';
import { stationColumns } from '../stations-table.js';
import { stopColumns } from '../stops-table.js';
import { travelColumns } from '../travel-table.js';
import { variationColumns } from '../variation-table.js';

export interface KeyedTable {
  /** Name in a path, such as `routes`; the file's name without its ending. */
  readonly name: string;
  readonly file: string;
  readonly columns: Columns;
  /** Columns that together name a row. */
  readonly keys: readonly string[];
  /** robot.csv has one column to change, so that a path ends with the name of the setting. */
  readonly only?: string;
}

function keyed(name: string, columns: Columns, keys: readonly string[], only?: string): KeyedTable {
  return { name, file: `${name}.csv`, columns, keys, ...(only === undefined ? {} : { only }) };
}

export const keyedTables: readonly KeyedTable[] = [
  keyed('stations', stationColumns, ['station']),
  keyed('routes', routeColumns, ['part', 'step']),
  keyed('robot', robotColumns, ['setting'], 'value'),
  keyed('travel', travelColumns, ['from', 'to']),
  keyed('parts', partColumns, ['part']),
  keyed('shifts', shiftColumns, ['pattern', 'shift']),
  keyed('stops', stopColumns, ['station', 'name']),
  keyed('variation', variationColumns, ['station', 'element']),
  keyed('changeovers', changeoverColumns, ['station']),
  keyed('setups', setupColumns, ['station', 'from', 'to']),
  keyed('jobs', jobColumns, ['job']),
  keyed('signals', signalColumns, ['station', 'signal']),
  keyed('costs', costColumns, ['item']),
];

/** Columns that a path may end with. */
export function changeableColumns(table: KeyedTable): string[] {
  if (table.only !== undefined) return [table.only];
  return Object.keys(table.columns).filter((name) => !table.keys.includes(name));
}

/** How a path into the table is written, in words. @example 'routes.<part>.<step>.<column>' */
export function pathForm(table: KeyedTable): string {
  const keys = table.keys.map((key) => `<${key}>`);
  return [table.name, ...keys, ...(table.only === undefined ? ['<column>'] : [])].join('.');
}

export const robotSettingNames: readonly string[] = Object.keys(robotSettings);
