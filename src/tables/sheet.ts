/** A table's text split into a header and rows of cells, with the way back from a cell to its place in the file. */
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintList, Fault, FaultPlace } from './complaint-list.js';
import { scanRecord, trimmedSpan } from './field-spans.js';
import type { Reading } from './reading.js';

export interface SheetRow {
  /** Line on which the record starts and ends, from 1. */
  readonly line: number;
  readonly endLine: number;
  /** Cells without the spaces around them; `-` and spaces alone count as empty. */
  readonly cells: readonly string[];
}

export interface Sheet {
  /** Takes what is wrong with the table. */
  readonly list: ComplaintList;
  readonly file: string;
  /** The lines of the file without their ends. */
  readonly lines: readonly string[];
  readonly delimiter: ',' | ';';
  readonly header: SheetRow;
  /** Index of each known column. */
  readonly columns: ReadonlyMap<string, number>;
  readonly rows: readonly SheetRow[];
  /** False where a record or a needed column could not be read, so that names may be lacking. */
  readonly isWhole: boolean;
}

/** A table before its header is read. */
export type Lines = Pick<Sheet, 'list' | 'file' | 'lines' | 'delimiter'>;

/** The text of a cell; empty where the row ends before it or the column is not there. */
export function cellText(sheet: Sheet, row: SheetRow, column: string): string {
  const index = sheet.columns.get(column);
  return index === undefined ? '' : (row.cells[index] ?? '');
}

/** Reports a fault in a cell of a row; `column` null means the whole line. */
export function reportCell(
  sheet: Sheet,
  row: SheetRow,
  column: string | null,
  code: Fault['code'],
  fault: () => Omit<Fault, 'code'>,
): void {
  const index = column === null ? undefined : sheet.columns.get(column);
  let span: Fault['span'];
  const place: FaultPlace = {
    file: sheet.file,
    line: row.line,
    column,
    order: index ?? -1,
    excerpt: () =>
      index === undefined ? lineExcerpt(sheet, row, span) : cellExcerpt(sheet, row, index, span),
  };
  sheet.list.add(code, place, () => {
    const worked = { code, ...fault() };
    span = worked.span;
    return worked;
  });
}

/** Notes a cell that was read as something else than it says. */
export function noteTaken(sheet: Sheet, row: SheetRow, column: string, reading: Reading<unknown>): void {
  if (!reading.ok || reading.taken === undefined) return;
  const { list, file } = sheet;
  list.note({ file, line: row.line, column, found: cellText(sheet, row, column), taken: reading.taken });
}

/** Reports a fault of the whole table. */
export function reportTable(
  { list, file }: Pick<Sheet, 'list' | 'file'>,
  fault: Fault,
  column: string | null = null,
): void {
  list.add(fault.code, { file, line: null, column, order: -1, excerpt: () => null }, () => fault);
}

/** The text of a record as it stands in the file; records over several lines keep their line ends. */
export function recordText(sheet: Lines, row: Pick<SheetRow, 'line' | 'endLine'>): string {
  return sheet.lines.slice(row.line - 1, row.endLine).join('\n');
}

export function cellExcerpt(
  sheet: Lines,
  row: Pick<SheetRow, 'line' | 'endLine'>,
  index: number,
  part?: Fault['span'],
): NonNullable<Complaint['excerpt']> {
  const text = recordText(sheet, row);
  const field = scanRecord(text, sheet.delimiter).spans[index];
  if (!field) return { text, start: text.length, end: text.length };
  const { start, end } = trimmedSpan(text, field.start, field.end);
  if (!part || text.slice(start, end).includes('"')) return { text, start, end };
  return { text, start: Math.min(start + part[0], end), end: Math.min(start + part[1], end) };
}

/** Without a part all of the line is marked. */
function lineExcerpt(sheet: Lines, row: SheetRow, part?: Fault['span']): NonNullable<Complaint['excerpt']> {
  const text = recordText(sheet, row);
  if (part) return { text, start: part[0], end: part[1] };
  const { start, end } = trimmedSpan(text, 0, text.length);
  return { text, start, end };
}
