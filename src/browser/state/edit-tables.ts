/** Changes of the tables as a user makes them; each gives new tables and leaves all lines that it does not touch as they are. */
import type { Tables } from '../../tables/inspect-tables.js';
import { keyedTable } from '../../tables/overrides/keyed-tables.js';
import {
  addRow,
  draftCell,
  draftOf,
  draftText,
  newDraft,
  setCells,
  sheetIn,
  type TableDraft,
} from '../../tables/overrides/table-draft.js';
import type { RowChange } from '../grid/grid.js';

/** A value as one line: a line break would make two rows of one. */
export function withoutLineBreaks(value: string): string {
  return value.replace(/\p{Cc}+/gu, ' ').trim();
}

/** @param line of the row, from 1; null for a new row at the end */
export function withCells(
  tables: Tables,
  file: string,
  line: number | null,
  values: Readonly<Record<string, string>>,
): Tables {
  return withRows(tables, file, [{ line, values }]);
}

/** Several rows in one step, such as a paste. New rows without a value are left out. */
export function withRows(tables: Tables, file: string, changes: readonly RowChange[]): Tables {
  const draft = draftFor(tables, file);
  if (draft === null) return tables;
  let isChanged = false;
  for (const { line, values } of changes) {
    const wanted = Object.entries(values).map(
      ([column, value]) => [column, withoutLineBreaks(value)] as const,
    );
    const found = line === null ? undefined : draft.rows.find((row) => row.line === line);
    if (line !== null && found === undefined) continue;
    const changed = wanted.filter(
      ([column, value]) => (found === undefined ? '' : draftCell(draft, found, column)) !== value,
    );
    if (changed.length === 0) continue;
    setCells(draft, found ?? addRow(draft), Object.fromEntries(changed));
    isChanged = true;
  }
  return isChanged ? { ...tables, [file]: draftText(draft) } : tables;
}

export function withoutRow(tables: Tables, file: string, line: number): Tables {
  const sheet = sheetIn(tables, file);
  const row = sheet?.rows.find((r) => r.line === line);
  if (!sheet || row === undefined) return tables;
  const lines = [...sheet.lines.slice(0, row.line - 1), ...sheet.lines.slice(row.endLine)];
  return { ...tables, [file]: `${lines.join('\n').replace(/\n*$/, '')}\n` };
}

/** A table with its needed columns and no rows. */
export function withTable(tables: Tables, file: string): Tables {
  const table = keyedTable(file);
  if (table === undefined || Object.hasOwn(tables, file)) return tables;
  return { ...tables, [file]: draftText(newDraft(table, firstColumns(file))) };
}

export function withoutTable(tables: Tables, file: string): Tables {
  const { [file]: _, ...others } = tables;
  return Object.hasOwn(tables, file) ? others : tables;
}

function firstColumns(file: string): string[] {
  const columns = Object.entries(keyedTable(file)!.columns);
  const needed = columns.filter(([, column]) => column.needed).map(([name]) => name);
  return needed.length === 0 ? columns.slice(0, 2).map(([name]) => name) : needed;
}

/** The table to be changed, begun where there is none; null where its text is no table. */
function draftFor(tables: Tables, file: string): TableDraft | null {
  const table = keyedTable(file);
  if (table === undefined) return null;
  if (!Object.hasOwn(tables, file)) return newDraft(table, firstColumns(file));
  const sheet = sheetIn(tables, file);
  if (sheet === null) return null;
  const draft = draftOf(table, sheet);
  // What ends the text is no line of it: new rows stand after the last one that says something.
  while (draft.lines.length > 0 && draft.lines.at(-1)!.trim() === '') draft.lines.pop();
  return draft;
}
