/** The tables as data: columns with units, defaults and what they may hold. For help texts, the README and `init`. */
import { changeoverColumns } from './changeovers-table.js';
import type { Columns } from './column.js';
import { costColumns } from './costs-table.js';
import { jobColumns } from './jobs-table.js';
import { logColumns } from './log/log-columns.js';
import { partColumns } from './parts-table.js';
import { readingColumns } from './readings-table.js';
import { robotColumns, robotSettings } from './robot-table.js';
import { routeColumns } from './route-columns.js';
import { setupColumns } from './setups-table.js';
import { shiftColumns } from './shift-columns.js';
import { signalColumns } from './signals-table.js';
import { stationColumns } from './stations-table.js';
import { stopColumns } from './stops-table.js';
import { travelColumns } from './travel-table.js';
import { variationColumns } from './variation-table.js';

interface ColumnFormat {
  readonly name: string;
  readonly unit: string;
  readonly needed: boolean;
  /** What an empty cell means; null for a needed column. */
  readonly default: string | null;
  readonly allowed: string;
  readonly meaning: string;
}

export interface TableFormat {
  readonly file: string;
  readonly needed: boolean;
  readonly meaning: string;
  readonly columns: readonly ColumnFormat[];
  /** For robot.csv: the settings that its rows may name. */
  readonly settings?: readonly ColumnFormat[];
}

function formatsOf(columns: Columns): ColumnFormat[] {
  return Object.entries(columns).map(([name, column]) => {
    const { unit, needed, default: blank, allowed, meaning } = column;
    return { name, unit, needed, default: blank, allowed, meaning };
  });
}

function table(file: string, needed: boolean, meaning: string, columns: Columns): TableFormat {
  return { file, needed, meaning, columns: formatsOf(columns) };
}

/** Every table that a cell's folder may hold, needed ones first. The items of costs.csv are in `costItems`. */
export const tableFormats: readonly TableFormat[] = [
  table('stations.csv', true, 'the places where the robot picks, places or holds a part', stationColumns),
  table('routes.csv', true, 'the ordered steps of each part', routeColumns),
  {
    ...table('robot.csv', true, 'the settings of the robot', robotColumns),
    settings: formatsOf(robotSettings),
  },
  table('travel.csv', false, 'robot times between stations', travelColumns),
  table('parts.csv', false, 'contribution, demand and yield of the parts', partColumns),
  table('shifts.csv', false, 'patterns of shifts through the week', shiftColumns),
  table('stops.csv', false, 'planned stops', stopColumns),
  table('variation.csv', false, 'variation of the times', variationColumns),
  table('changeovers.csv', false, 'changeovers onto each machine', changeoverColumns),
  table('setups.csv', false, 'set-up minutes from job to job on a machine', setupColumns),
  table('jobs.csv', false, 'the jobs of a week, with quantity and due day', jobColumns),
  table('signals.csv', false, 'input and output points of each machine', signalColumns),
  table('costs.csv', false, 'the inputs of the cost case', costColumns),
];

/** Files that a folder may hold beside its tables; commands on the cell pass over them. */
export const besideFormats: readonly TableFormat[] = [
  table('readings.csv', false, 'stopwatch readings, for the command `readings`', readingColumns),
  table('log.csv', false, 'a log of signals, for the command `log`', logColumns),
];

/** Names of all known tables. */
export const tableFiles: readonly string[] = tableFormats.map((format) => format.file);

/** Figures of readings that `readings --out` writes. */
export const FIGURES_FILE = 'readings-figures.csv';

/** Measured times of a log that `log --out` writes. */
export const LOG_FIGURES_FILE = 'log-figures.csv';

/** Names of the files beside them. */
export const besideFiles: readonly string[] = [
  ...besideFormats.map((format) => format.file),
  FIGURES_FILE,
  LOG_FIGURES_FILE,
];
