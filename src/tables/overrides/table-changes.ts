/** What differs between the tables of two cells, cell by cell, by the paths that changes are given by. */
import type { Tables } from '../inspect-tables.js';
import { changeableColumns, type KeyedTable, keyedTables } from './keyed-tables.js';
import { type DraftRow, draftCell, draftIn, keyOf, sameKey, type TableDraft } from './table-draft.js';

export interface TableChange {
  /** File name of the table. */
  readonly table: string;
  /** @example 'routes.bracket.2.cycle_s'; for a row that only one side has, without the column */
  readonly path: string;
  /** As written; null where the row is not there, an empty text where the cell is empty. */
  readonly a: string | null;
  readonly b: string | null;
}

/** @param a, b sound tables by file name; values that are written in two ways and mean the same are no change */
export function tableChanges(a: Tables, b: Tables): TableChange[] {
  return keyedTables.flatMap((table) => changesOf(table, draftIn(a, table), draftIn(b, table)));
}

function changesOf(table: KeyedTable, a: TableDraft | null, b: TableDraft | null): TableChange[] {
  const ofA = namedRows(a);
  const ofB = namedRows(b);
  const changes: TableChange[] = [];
  const taken = new Set<DraftRow>();
  for (const { key, row } of ofA) {
    const other = ofB.find((r) => !taken.has(r.row) && sameKey(r.key, key));
    if (other) {
      taken.add(other.row);
      changes.push(...cellChanges(table, key, a!, row, b!, other.row));
    } else changes.push({ table: table.file, path: pathOf(table, key), a: rowText(a!, row), b: null });
  }
  for (const { key, row } of ofB)
    if (!taken.has(row))
      changes.push({ table: table.file, path: pathOf(table, key), a: null, b: rowText(b!, row) });
  return changes;
}

function namedRows(draft: TableDraft | null): { key: string[]; row: DraftRow }[] {
  return (draft?.rows ?? []).map((row) => ({ key: keyOf(draft!, row), row }));
}

function cellChanges(
  table: KeyedTable,
  key: readonly string[],
  a: TableDraft,
  rowA: DraftRow,
  b: TableDraft,
  rowB: DraftRow,
): TableChange[] {
  return changeableColumns(table).flatMap((column) => {
    const [textA, textB] = [draftCell(a, rowA, column), draftCell(b, rowB, column)];
    if (meaning(table, column, textA, a) === meaning(table, column, textB, b)) return [];
    return [{ table: table.file, path: pathOf(table, key, column), a: textA, b: textB }];
  });
}

/** What a cell says, whatever way it is written in. */
function meaning(table: KeyedTable, column: string, text: string, draft: TableDraft): string {
  const rule = table.columns[column]!;
  if (text === '') return JSON.stringify(rule.blank ?? null);
  const reading = rule.read(text, { decimalComma: draft.delimiter === ';' });
  const value: unknown = reading.ok ? reading.value : text;
  const plain = draft.delimiter === ';' && typeof value === 'string' ? value.replace(',', '.') : value;
  const number = typeof plain === 'string' && plain.trim() !== '' ? Number(plain) : Number.NaN;
  return JSON.stringify(Number.isFinite(number) ? number : value);
}

function pathOf(table: KeyedTable, key: readonly string[], column?: string): string {
  const last = column === undefined || table.only !== undefined ? [] : [column];
  return [table.name, ...key, ...last].join('.');
}

/** The cells of a row that are not empty, without its name. */
function rowText(draft: TableDraft, row: DraftRow): string {
  const cells = changeableColumns(draft.table).flatMap((column) => {
    const text = draftCell(draft, row, column);
    return text === '' ? [] : [draft.table.only === undefined ? `${column} ${text}` : text];
  });
  return cells.length === 0 ? 'there' : cells.join(', ');
}
