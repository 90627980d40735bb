/** The tables of a cell: what each holds, which columns name a row, and which hold what can be changed. */
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
  readonly meaning: string;
  readonly columns: Columns;
  /** Columns that together name a row. */
  readonly keys: readonly string[];
  /** robot.csv has one column to change, so that a path ends with the name of the setting. */
  readonly only?: string;
}

function keyed(name: string, keys: readonly string[], columns: Columns, meaning: string): KeyedTable {
  return { name, file: `${name}.csv`, meaning, columns, keys };
}

/** Every table that a cell's folder may hold. */
export const keyedTables: readonly KeyedTable[] = [
  keyed('stations', ['station'], stationColumns, 'the places where the robot picks, places or holds a part'),
  keyed('routes', ['part', 'step'], routeColumns, 'the ordered steps of each part'),
  { ...keyed('robot', ['setting'], robotColumns, 'the settings of the robot'), only: 'value' },
  keyed('travel', ['from', 'to'], travelColumns, 'robot times between stations'),
  keyed('parts', ['part'], partColumns, 'contribution, demand and yield of the parts'),
  keyed('shifts', ['pattern', 'shift'], shiftColumns, 'patterns of shifts through the week'),
  keyed('stops', ['station', 'name'], stopColumns, 'planned stops'),
  keyed('variation', ['station', 'element'], variationColumns, 'variation of the times'),
  keyed('changeovers', ['station'], changeoverColumns, 'changeovers onto each machine'),
  keyed('setups', ['station', 'from', 'to'], setupColumns, 'set-up minutes from job to job on a machine'),
  keyed('jobs', ['job'], jobColumns, 'the jobs of a week, with quantity and due day'),
  keyed('signals', ['station', 'signal'], signalColumns, 'input and output points of each machine'),
  keyed('costs', ['item'], costColumns, 'the inputs of the cost case'),
];

/** undefined where a file is no table of a cell. */
export function keyedTable(file: string): KeyedTable | undefined {
  return keyedTables.find((table) => table.file === file);
}

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
