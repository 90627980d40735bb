/** The columns of each table that a folder or a workbook may hold, by file name. */
import type { Columns } from './column.js';
import { logColumns } from './log/log-columns.js';
import { BASE_FILE, baseColumns } from './overrides/base-table.js';
import { keyedTable } from './overrides/keyed-tables.js';
import { readingColumns } from './readings-table.js';

export function columnsOf(file: string): Columns | null {
  const keyed = keyedTable(file);
  if (keyed) return keyed.columns;
  if (file === 'readings.csv') return readingColumns;
  if (file === 'log.csv') return logColumns;
  return file === BASE_FILE ? baseColumns : null;
}
