/** Turns a table's text into a sheet: a header held against the known columns, and rows of cells. */
import type { Columns } from './column.js';
import type { ComplaintList, Fault } from './complaint-list.js';
import { headerLine } from './header-line.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import { readHeader } from './read-header.js';
import { readableText } from './readable-text.js';
import { cellExcerpt, recordText, reportCell, reportTable, type Sheet, type SheetRow } from './sheet.js';
import { splitRecords } from './split-records.js';

/** `rows`: the table and a row in it are needed; `table`: without rows all is at its default; `none`: may be left out. */
export type Need = 'rows' | 'table' | 'none';

const HEADER_ONLY = {
  rows: { severity: 'error', help: 'Add at least one row.' },
  table: { severity: 'warning', help: 'Add the settings that differ from their defaults.' },
  none: { severity: 'warning', help: 'Add rows, or take the file out of the folder.' },
} as const;

/**
 * @param file name of the table
 * @param text its text
 * @param columns the columns it may have
 * @param need whether a cell can be read without this table or without rows in it
 * @returns the sheet, or null where the text is no table
 */
export function readSheet(
  list: ComplaintList,
  file: string,
  text: string,
  columns: Columns,
  need: Need,
): Sheet | null {
  const lines = readableText(list, file, text);
  if (lines === null) return null;
  const filled = lines.flatMap((line, i) => (isSkipped(line) ? [] : [i]));
  const found = headerLine(lines, filled, columns);
  if (found === null) return refuseTable(list, file, emptyFault(columns));
  const start = found.at;
  if (found.above > 0) noteTitle(list, file, lines, filled[0]!, start);
  const delimiter = delimiterOf(lines[start]!);
  if (delimiter === null) return refuseTable(list, file, TABS);
  const base = { list, file, lines, delimiter };
  const records = splitRecords(base, start);
  if (records.rows[0]?.line !== start + 1) return null;
  const [header, ...rows] = records.rows.filter((row, i) => i === 0 || !isIdle(row));
  if (!header) return null;
  const read = readHeader({ ...base, header }, columns);
  const sheet = { ...base, header, columns: read.columns, rows, isWhole: read.isWhole && records.isWhole };
  checkRows(sheet, read.width, need);
  return rows.length > tableLimits.rowsPerTable ? null : sheet;
}

function noteTitle(
  list: ComplaintList,
  file: string,
  lines: readonly string[],
  title: number,
  header: number,
): void {
  const taken = `a title; the headers are taken from line ${header + 1}`;
  const text = lines[title]!.replace(/^[",;\s]+|[",;\s]+$/g, '');
  list.note({ file, line: title + 1, column: null, found: text, taken });
}

export const TABS: Fault = {
  code: 'TAB08',
  text: 'the columns are separated by tabs, expected commas or semicolons',
  help: 'Save the table as CSV, not as tab-separated text.',
};

function emptyFault(columns: Columns): Fault {
  const header = Object.keys(columns).join(',');
  return {
    code: 'TAB06',
    text: 'the table is empty, expected a header row',
    help: `Begin with \`${header}\`.`,
  };
}

function refuseTable(list: ComplaintList, file: string, fault: Fault): null {
  reportTable({ list, file }, fault);
  return null;
}

/** Blank lines and comments. A spreadsheet may have set a comment in quotation marks. */
function isSkipped(line: string): boolean {
  const text = line.trimStart();
  return text === '' || text.startsWith('#') || text.startsWith('"#') || /^[\s,;]*$/.test(text);
}

function isIdle(row: SheetRow): boolean {
  return row.cells.every((cell) => cell === '') || row.cells[0]!.startsWith('#');
}

/** Told by the header: the sign that stands more often outside quotation marks; null where tabs part the columns. */
export function delimiterOf(header: string): ',' | ';' | null {
  const bare = header.replace(/"[^"]*"/g, '');
  const count = (sign: string) => bare.split(sign).length - 1;
  if (count(';') > count(',')) return ';';
  return count(',') === 0 && count('\t') > 0 ? null : ',';
}

function checkRows(sheet: Sheet, width: number, need: Need): void {
  const { rows } = sheet;
  if (rows.length === 0 && sheet.isWhole) {
    const text = 'the table has a header and no rows';
    reportTable(sheet, { code: 'TAB07', text, ...HEADER_ONLY[need] });
  }
  if (rows.length > tableLimits.rowsPerTable) {
    const text = `the table has ${rows.length} rows, at most ${tableLimits.rowsPerTable} are read`;
    reportTable(sheet, { code: 'TAB14', text, help: 'Leave out rows that the cell does not use.' });
  }
  // A spreadsheet ends all rows with the same empty cells; a decimal comma makes one row longer than the others.
  const [first, ...others] = rows.length === 1 ? [...rows, sheet.header] : rows;
  const isEven = others.every(({ cells }) => cells.length === first!.cells.length);
  for (const row of rows) if (row.cells.length > width) checkSurplus(sheet, row, width, isEven);
}

function checkSurplus(sheet: Sheet, row: SheetRow, width: number, isEven: boolean): void {
  const filled = row.cells.findIndex((cell, i) => i >= width && cell !== '');
  if (filled === -1 && (isEven || !mayBeDecimal(sheet, row))) return;
  reportCell(sheet, row, null, 'TAB13', () => {
    const { start, end } = cellExcerpt(sheet, row, filled === -1 ? width : filled);
    const found =
      filled === -1
        ? `${row.cells.length} values in a row of ${width} columns, the last of them empty`
        : `${inBackticks(row.cells[filled]!)} as value ${filled + 1} of a row of ${width} columns`;
    return { text: `found ${found}`, help: surplusHelp(sheet, row), span: [start, end] };
  });
}

function mayBeDecimal(sheet: Sheet, row: SheetRow): boolean {
  return sheet.delimiter === ',' && /\d,\d/.test(recordText(sheet, row));
}

function surplusHelp(sheet: Sheet, row: SheetRow): string {
  if (!mayBeDecimal(sheet, row)) return 'Look for a delimiter too many in this row.';
  return 'If a number was written with a decimal comma, write a decimal point; set text with commas in quotation marks.';
}
