/**
 * A cell kept as a folder that builds on another: base.csv, and of each table only the rows that differ. Put together
 * with its base again it says the same, row by row.
 */
import { complaintList } from '../complaint-list.js';
import type { Tables } from '../inspect-tables.js';
import { quotedCell, tableText } from '../table-text.js';
import { BASE_FILE, readBase } from './base-table.js';
import { type KeyedTable, keyedTable } from './keyed-tables.js';
import { plainLayer } from './layered-tables.js';
import { mergeBase } from './merge-base.js';
import { tableChanges } from './table-changes.js';
import { draftIn, keyOf } from './table-draft.js';

/**
 * @param base tables of the folder that it builds on
 * @param whole all tables of the cell itself
 * @param folder path of the base, seen from the folder of the cell, such as `../demo`
 */
export function variantTables(base: Tables, whole: Tables, folder: string): Tables {
  const own: Record<string, string> = {};
  const replaced: string[] = [];
  for (const file of new Set([...Object.keys(whole), ...Object.keys(base)])) {
    if (whole[file] === base[file]) continue;
    const table = keyedTable(file);
    const rows = table === undefined ? null : changedRows(table, base, whole);
    const text = rows ?? whole[file] ?? (table === undefined ? undefined : withoutRows(table, base));
    if (text === undefined) continue;
    own[file] = text;
    if (table !== undefined && rows === null && base[file] !== undefined) replaced.push(table.name);
  }
  const link = tableText([
    ['folder', 'whole_tables'],
    [folder, replaced.join(';')],
  ]);
  return { [BASE_FILE]: link, ...own };
}

/** All tables of a cell that was kept as its changes; null where the two cannot be put together. */
export function withBase(base: Tables, own: Tables): Tables | null {
  const { [BASE_FILE]: text = '', ...tables } = own;
  const list = complaintList();
  const link = readBase(list, text, Object.keys(tables));
  if (link === null || list.hasError()) return null;
  const merged = mergeBase(plainLayer(base), tables, link);
  return merged.unread.length > 0 ? null : merged.tables;
}

/** The rows that differ, under their header; null where they alone would not give the table again. */
function changedRows(table: KeyedTable, before: Tables, after: Tables): string | null {
  const [was, is] = [draftIn(before, table), draftIn(after, table)];
  if (was === null || is === null) return null;
  const known = new Set(was.rows.map(({ cells }) => JSON.stringify(cells)));
  const changed = is.rows.filter(({ cells }) => !known.has(JSON.stringify(cells)));
  const line = (cells: readonly string[]): string =>
    cells.map((cell) => quotedCell(cell, is.delimiter)).join(is.delimiter);
  const own = `${[is.header.cells, ...changed.map(({ cells }) => cells)].map(line).join('\n')}\n`;
  const { tables, complaints } = mergeBase(
    plainLayer({ [table.file]: before[table.file]! }),
    { [table.file]: own },
    { folder: '', wholeTables: [] },
  );
  return complaints.length === 0 && isSame(table, tables, after) ? own : null;
}

/** The same rows in the same order, whatever way their cells are written. */
function isSame(table: KeyedTable, a: Tables, b: Tables): boolean {
  const keys = (tables: Tables): string => {
    const of = draftIn(tables, table)!;
    return JSON.stringify(of.rows.map((row) => keyOf(of, row)));
  };
  const { file } = table;
  return keys(a) === keys(b) && tableChanges({ [file]: a[file]! }, { [file]: b[file]! }).length === 0;
}

/** A table that the cell lacks and its base has. */
function withoutRows(table: KeyedTable, before: Tables): string {
  return tableText([draftIn(before, table)?.header.cells ?? table.keys]);
}
