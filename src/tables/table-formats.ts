/** The tables as data: columns with units, defaults and what they may hold. For help texts, the README and `init`. */
import type { Column, Columns } from './column.js';
import { logColumns } from './log/log-columns.js';
import { keyedTables } from './overrides/keyed-tables.js';
import { readingColumns } from './readings-table.js';
import { robotSettings } from './robot-table.js';

type ColumnFormat = Pick<Column<unknown>, 'unit' | 'needed' | 'default' | 'allowed' | 'meaning'> & {
  readonly name: string;
};

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

/** Tables that no cell can be without. */
const NEEDED = ['stations.csv', 'routes.csv', 'robot.csv'];

function formatOf(file: string, meaning: string, columns: Columns): TableFormat {
  return { file, needed: NEEDED.includes(file), meaning, columns: formatsOf(columns) };
}

/** Every table that a cell's folder may hold, needed ones first. The items of costs.csv are in `costItems`. */
export const tableFormats: readonly TableFormat[] = keyedTables.map(({ file, meaning, columns }) => ({
  ...formatOf(file, meaning, columns),
  ...(file === 'robot.csv' ? { settings: formatsOf(robotSettings) } : {}),
}));

/** Files that a folder may hold beside its tables; commands on the cell pass over them. */
export const besideFormats: readonly TableFormat[] = [
  formatOf('readings.csv', 'stopwatch readings, for the command `readings`', readingColumns),
  formatOf('log.csv', 'a log of signals, for the command `log`', logColumns),
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
