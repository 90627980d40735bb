/**
 * A table that is being changed: rows that stay keep their line in the text, so that a complaint about one of them
 * still names the line of its file; changed rows stand where they stood, and new ones come after the end.
 */
import type { Columns } from '../column.js';
import { type ComplaintList, complaintList } from '../complaint-list.js';
import type { Tables } from '../inspect-tables.js';
import { readSheet } from '../read-sheet.js';
import type { NumberStyle } from '../reading.js';
import { cellText, type Sheet } from '../sheet.js';
import { quotedCell } from '../table-text.js';
import { type KeyedTable, keyedTable } from './keyed-tables.js';

export interface DraftRow {
  /** Line of the text, from 1. */
  readonly line: number;
  readonly endLine: number;
  readonly cells: string[];
}

export interface TableDraft {
  readonly table: KeyedTable;
  readonly delimiter: ',' | ';';
  readonly lines: string[];
  readonly header: DraftRow;
  readonly columns: Map<string, number>;
  readonly rows: DraftRow[];
}

/** A table without rows. */
export function newDraft(table: KeyedTable, columns: readonly string[]): TableDraft {
  return {
    table,
    delimiter: ',',
    lines: [columns.join(',')],
    header: { line: 1, endLine: 1, cells: [...columns] },
    columns: new Map(columns.map((name, i) => [name, i])),
    rows: [],
  };
}

/** The draft of a sheet. */
export function draftOf(table: KeyedTable, sheet: Sheet): TableDraft {
  const copied = ({ line, endLine, cells }: Sheet['header']): DraftRow => ({
    line,
    endLine,
    cells: [...cells],
  });
  return {
    table,
    delimiter: sheet.delimiter,
    lines: [...sheet.lines],
    header: copied(sheet.header),
    columns: new Map(sheet.columns),
    rows: sheet.rows.map(copied),
  };
}

/** The draft of a table among others; null where it is not there, or cannot be read so that each row has its name. */
export function draftIn(tables: Tables, table: KeyedTable): TableDraft | null {
  const sheet = sheetIn(tables, table.file);
  return sheet?.isWhole && table.keys.every((key) => sheet.columns.has(key)) ? draftOf(table, sheet) : null;
}

/** A table among others, whose faults are told elsewhere; null where it is not there or is no table. */
export function sheetIn(tables: Tables, file: string): Sheet | null {
  const [table, text] = [keyedTable(file), tables[file]];
  return table === undefined || text === undefined ? null : looseSheet(complaintList(), table, text);
}

/** The names that a column of a table gives, each once. */
export function namesIn(tables: Tables, file: string, column: string): string[] {
  const sheet = sheetIn(tables, file);
  const names = sheet?.rows.map((row) => cellText(sheet, row, column)) ?? [];
  return [...new Set(names)].filter((name) => name !== '');
}

/** Reads a table of which no column is needed; null where it is no table. */
export function looseSheet(list: ComplaintList, table: KeyedTable, text: string): Sheet | null {
  const columns: Columns = Object.fromEntries(
    Object.entries(table.columns).map(([name, column]) => [name, { ...column, needed: false }]),
  );
  return readSheet(list, table.file, text, columns, 'none');
}

export function draftText(draft: TableDraft): string {
  return `${draft.lines.join('\n')}\n`;
}

export function draftCell(draft: TableDraft, row: DraftRow, column: string): string {
  const index = draft.columns.get(column);
  return index === undefined ? '' : (row.cells[index] ?? '');
}

/** The cells that name a row. */
export function keyOf(draft: TableDraft, row: DraftRow): string[] {
  const style = { decimalComma: draft.delimiter === ';' };
  return draft.table.keys.map((column) => keyCell(draft.table, column, draftCell(draft, row, column), style));
}

/** A cell that names a row, in the form that it is read as: `Hands` names the row `hands`, and the step `2,0` is `2`. */
export function keyCell(table: KeyedTable, column: string, text: string, style: NumberStyle): string {
  const reading = table.columns[column]!.read(text, style);
  if (!reading.ok) return text;
  return typeof reading.value === 'number' ? String(reading.value) : (reading.taken ?? text);
}

/** Adds a row that holds nothing yet. */
export function addRow(draft: TableDraft): DraftRow {
  const line = draft.lines.length + 1;
  const row = { line, endLine: line, cells: draft.header.cells.map(() => '') };
  draft.lines.push('');
  draft.rows.push(row);
  return row;
}

/** Writes values into a row, with a new column where the table has none of that name. */
export function setCells(draft: TableDraft, row: DraftRow, values: Readonly<Record<string, string>>): void {
  for (const [column, value] of Object.entries(values)) {
    const index = draft.columns.get(column) ?? addColumn(draft, column);
    while (row.cells.length <= index) row.cells.push('');
    row.cells[index] = value;
  }
  writeRecord(draft, row);
}

function addColumn(draft: TableDraft, column: string): number {
  const index = draft.header.cells.length;
  draft.header.cells.push(column);
  draft.columns.set(column, index);
  writeRecord(draft, draft.header);
  return index;
}

/** Sets a record's text on its first lines; what is left of them becomes blank, which is passed over. */
function writeRecord(draft: TableDraft, { line, endLine, cells }: DraftRow): void {
  const text = cells.map((cell) => quotedCell(cell, draft.delimiter)).join(draft.delimiter);
  const lines = text.split('\n');
  for (let at = line; at <= endLine; at++) draft.lines[at - 1] = lines[at - line] ?? '';
}

/** Same row: texts alike, or numbers alike (`2`, `2.0` and `2,0`). */
export function sameKey(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((piece, i) => samePiece(piece, b[i]!));
}

export function samePiece(a: string, b: string): boolean {
  return a === b || numberOf(a) === numberOf(b);
}

function numberOf(text: string): number {
  return text === '' ? Number.NaN : Number(text.replace(',', '.'));
}
