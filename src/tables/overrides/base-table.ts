/** base.csv: the folder that a folder builds on. */
import { type Column, neededColumn, optional } from '../column.js';
import type { ComplaintList } from '../complaint-list.js';
import { inBackticks } from '../in-backticks.js';
import { textColumn } from '../name-column.js';
import { nameHelp } from '../nearest-name.js';
import { readSheet } from '../read-sheet.js';
import { read, refuse } from '../reading.js';
import { reportCell, reportTable } from '../sheet.js';
import { typedRows } from '../typed-rows.js';
import { keyedTables } from './keyed-tables.js';
import type { BaseLink } from './merge-base.js';

export const BASE_FILE = 'base.csv';

export const baseColumns = {
  folder: textColumn('path of the base, seen from this folder, such as `../demo`'),
  whole_tables: optional(wholeTablesColumn(), [] as readonly string[], 'none'),
} as const;

function wholeTablesColumn(): Column<readonly string[]> {
  const names = keyedTables.map((t) => t.name);
  return neededColumn({
    unit: '',
    meaning: 'tables that replace those of the base as a whole, such as `routes;travel`',
    allowed: `names of tables with semicolons between: ${names.join(', ')}`,
    read: (text) => {
      const given = text.split(';').map((name) => name.trim().replace(/\.csv$/, ''));
      const wrong = given.find((name) => !names.includes(name));
      if (wrong === undefined) return read(given.map((name) => `${name}.csv`));
      const said = `found ${inBackticks(wrong)}, expected the name of a table`;
      return refuse({ code: 'BAS04', text: said, help: nameHelp(wrong, names, 'tables') });
    },
  });
}

/**
 * @param own names of the tables in the folder itself
 * @returns the link, or null where the table tells none; complaints go to the list
 */
export function readBase(list: ComplaintList, text: string, own: readonly string[]): BaseLink | null {
  const sheet = readSheet(list, BASE_FILE, text, baseColumns, 'rows');
  if (!sheet) return null;
  const [row] = typedRows(sheet, baseColumns);
  if (sheet.rows.length > 1) {
    const said = `the table names ${sheet.rows.length} folders, expected one`;
    reportTable(sheet, { code: 'BAS01', text: said, help: 'A base may have a base of its own.' });
    return null;
  }
  if (row === undefined) return null;
  const { folder, whole_tables: wholeTables } = row.values;
  const lacking = wholeTables.find((name) => !own.includes(name));
  if (lacking !== undefined) {
    const said = `${inBackticks(lacking)} is to replace that of the base, and is not in this folder`;
    const help = 'Put the table into this folder, or take its name out.';
    reportCell(sheet, row.row, 'whole_tables', 'BAS06', () => ({ text: said, help }));
    return null;
  }
  return { folder, wholeTables };
}
