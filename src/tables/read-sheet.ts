/**
 * Splits a table's text into records and cells. Lines are taken apart here, so that every record knows where it starts
 * and a fault in one does not hide the next; records with quotation marks are decoded by csv-parse.
 *
 * The browser build of csv-parse is imported because it is the one that runs both in Node and in a page.
 */
import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import type { Columns } from './column.js';
import type { ComplaintList, Fault } from './complaint-list.js';
import { scanRecord } from './field-spans.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import { readHeader } from './read-header.js';
import { readableText } from './readable-text.js';
import { cellExcerpt, recordText, reportCell, reportTable, type Sheet, type SheetRow } from './sheet.js';

/** A stretch of lines that is one record, not yet split. */
interface Draft {
  readonly line: number;
  readonly endLine: number;
  readonly text: string;
  readonly hasQuotes: boolean;
}

interface Drafts {
  readonly records: readonly Draft[];
  readonly isWhole: boolean;
}

/**
 * @param file name of the table
 * @param text its text
 * @param columns the columns it may have
 * @param isNeeded whether a cell cannot be read without a row of this table
 * @returns the sheet, or null where the text is no table
 */
export function readSheet(
  list: ComplaintList,
  file: string,
  text: string,
  columns: Columns,
  isNeeded: boolean,
): Sheet | null {
  const lines = readableText(list, file, text);
  if (lines === null) return null;
  const start = lines.findIndex((line) => !isSkipped(line));
  if (start === -1) return refuseTable(list, file, emptyFault(columns));
  const delimiter = delimiterOf(lines[start]!);
  if (delimiter === null) return refuseTable(list, file, TABS);
  const base = { file, lines, delimiter };
  const drafts = draftRecords(list, base, start);
  if (drafts.records[0]?.line !== start + 1) return null;
  const [header, ...rows] = splitDrafts(list, base, drafts.records).filter(
    (row, i) => i === 0 || !isIdle(row),
  );
  if (!header) return null;
  const read = readHeader(list, base, header, columns);
  const sheet = { ...base, header, columns: read.columns, rows, isWhole: read.isWhole && drafts.isWhole };
  checkRows(list, sheet, read.width, isNeeded);
  return rows.length > tableLimits.rowsPerTable ? null : sheet;
}

const TABS: Fault = {
  code: 'TAB08',
  text: 'the columns are parted by tabs, expected commas or semicolons',
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
  reportTable(list, file, fault);
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
function delimiterOf(header: string): ',' | ';' | null {
  const bare = header.replace(/"[^"]*"/g, '');
  const count = (sign: string) => bare.split(sign).length - 1;
  if (count(';') > count(',')) return ';';
  return count(',') === 0 && count('\t') > 0 ? null : ',';
}

/** Joins the lines of records in which a quoted cell spans several; reports quotation marks that do not pair. */
function draftRecords(
  list: ComplaintList,
  base: Pick<Sheet, 'file' | 'lines' | 'delimiter'>,
  start: number,
): Drafts {
  const records: Draft[] = [];
  let isWhole = true;
  for (let at = start; at < base.lines.length; at += 1) {
    const line = base.lines[at]!;
    const comment = line.trimStart();
    if (comment === '' || comment.startsWith('#')) continue;
    if (!line.includes('"')) {
      records.push({ line: at + 1, endLine: at + 1, text: line, hasQuotes: false });
      continue;
    }
    const draft = quotedRecord(list, base, at);
    if (draft === null) isWhole = false;
    else records.push(draft);
    at = (draft?.endLine ?? at + 1) - 1;
  }
  return { records, isWhole };
}

function quotedRecord(
  list: ComplaintList,
  base: Pick<Sheet, 'file' | 'lines' | 'delimiter'>,
  at: number,
): Draft | null {
  const most = Math.min(base.lines.length, at + tableLimits.linesPerRecord);
  let text = base.lines[at]!;
  let scan = scanRecord(text, base.delimiter);
  let endLine = at + 1;
  while (scan.state === 'open' && endLine < most) {
    text += `\n${base.lines[endLine]}`;
    endLine += 1;
    scan = scanRecord(text, base.delimiter);
  }
  if (scan.state === 'whole') return { line: at + 1, endLine, text, hasQuotes: true };
  reportQuotes(list, base, at, scan.state, endLine);
  return null;
}

function reportQuotes(
  list: ComplaintList,
  base: Pick<Sheet, 'file' | 'lines' | 'delimiter'>,
  at: number,
  state: 'open' | 'fault',
  endLine: number,
): void {
  const text = base.lines[at]!;
  const alone = scanRecord(text, base.delimiter);
  const mark = alone.state === 'whole' ? 0 : alone.faultAt;
  const isOpen = state === 'open' || endLine > at + 1;
  const fault: Fault = {
    code: 'TAB09',
    text: isOpen
      ? 'a quotation mark opens here and is not closed before the next column'
      : `found ${inBackticks(text.slice(mark).split(base.delimiter)[0]!.trim())} after a closing quotation mark`,
    help: 'Set the whole value in quotation marks and double each mark inside it, or use none.',
  };
  const excerpt = () => ({ text, start: mark, end: mark + 1 });
  list.add('TAB09', { file: base.file, line: at + 1, column: null, order: -1, excerpt }, () => fault);
}

function splitDrafts(
  list: ComplaintList,
  base: Pick<Sheet, 'file' | 'lines' | 'delimiter'>,
  drafts: readonly Draft[],
): SheetRow[] {
  const quoted = drafts.filter((draft) => draft.hasQuotes);
  const decoded = decodeTogether(quoted, base.delimiter);
  let next = 0;
  return drafts.map((draft) => {
    const raw = draft.hasQuotes
      ? (decoded?.[next++] ?? decodeAlone(list, base, draft))
      : draft.text.split(base.delimiter);
    return { line: draft.line, endLine: draft.endLine, cells: raw.map(cellValue) };
  });
}

/** Spaces around a value are not part of it; a lone `-` is an empty cell. */
function cellValue(cell: string): string {
  const text = cell.trim();
  return text === '-' ? '' : text;
}

const PARSING = {
  relax_column_count: true,
  relax_quotes: true,
  trim: true,
  record_delimiter: '\n',
  max_record_size: 0,
} as const;

/**
 * All records with quotation marks in one go; null where csv-parse does not see the same records. It is given bytes,
 * because its browser build encodes text slowly.
 */
function decodeTogether(drafts: readonly Draft[], delimiter: string): string[][] | null {
  if (drafts.length === 0) return null;
  try {
    const bytes = new TextEncoder().encode(drafts.map((d) => d.text).join('\n'));
    const records = parse(bytes, { ...PARSING, delimiter });
    return records.length === drafts.length ? records : null;
  } catch (error) {
    if (error instanceof CsvError) return null;
    throw error;
  }
}

function decodeAlone(
  list: ComplaintList,
  base: Pick<Sheet, 'file' | 'lines' | 'delimiter'>,
  draft: Draft,
): string[] {
  const records = decodeTogether([draft], base.delimiter);
  if (records?.[0]) return records[0];
  reportQuotes(list, base, draft.line - 1, 'fault', draft.endLine);
  return [];
}

function checkRows(list: ComplaintList, sheet: Sheet, width: number, isNeeded: boolean): void {
  const { file, rows } = sheet;
  if (rows.length === 0 && sheet.isWhole) {
    const help = isNeeded ? 'Add a row for each.' : 'Add rows, or take the file out of the folder.';
    const severity = isNeeded ? 'error' : 'warning';
    reportTable(list, file, { code: 'TAB07', text: 'the table has a header and no rows', help, severity });
  }
  if (rows.length > tableLimits.rowsPerTable) {
    const text = `the table has ${rows.length} rows, at most ${tableLimits.rowsPerTable} are read`;
    reportTable(list, file, { code: 'TAB14', text, help: 'Leave out rows that the cell does not use.' });
  }
  for (const row of rows) if (row.cells.length > width) checkSurplus(list, sheet, row, width);
}

function checkSurplus(list: ComplaintList, sheet: Sheet, row: SheetRow, width: number): void {
  const index = row.cells.findIndex((cell, i) => i >= width && cell !== '');
  if (index === -1) return;
  reportCell(list, sheet, row, null, 'TAB13', () => {
    const { start, end } = cellExcerpt(sheet, row, index);
    const text = `found ${inBackticks(row.cells[index]!)} as value ${index + 1} of a row of ${width} columns`;
    return { text, help: surplusHelp(sheet, row), span: [start, end] };
  });
}

function surplusHelp(sheet: Sheet, row: SheetRow): string {
  const mayBeDecimal = sheet.delimiter === ',' && /\d,\d/.test(recordText(sheet, row));
  if (!mayBeDecimal) return 'Look for a delimiter too many in this row.';
  return 'If a number was written with a decimal comma, write a decimal point; set text with commas in quotation marks.';
}
