/**
 * Splits the lines of a table into records and cells. Lines are taken apart here, so that every record knows where it
 * starts and a fault in one does not hide the next; records with quotation marks are decoded by csv-parse.
 *
 * The browser build of csv-parse is imported because it is the one that runs both in Node and in a page.
 */
import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import { unguarded } from '../core/model/formula-guard.js';
import type { ComplaintList, Fault } from './complaint-list.js';
import { scanRecord } from './field-spans.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import type { Sheet, SheetRow } from './sheet.js';

type Lines = Pick<Sheet, 'file' | 'lines' | 'delimiter'>;

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

/** The records of a table; `isWhole` is false where one of them could not be split. */
export interface Records {
  readonly rows: readonly SheetRow[];
  readonly isWhole: boolean;
}

/** @param start index of the line to begin with */
export function splitRecords(list: ComplaintList, base: Lines, start: number): Records {
  const { records, isWhole } = draftRecords(list, base, start);
  const rows = splitDrafts(list, base, records);
  return { rows, isWhole: isWhole && rows.every((row) => row.cells.length > 0) };
}

/** Joins the lines of records in which a quoted cell spans several; reports quotation marks that do not pair. */
function draftRecords(list: ComplaintList, base: Lines, start: number): Drafts {
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

function quotedRecord(list: ComplaintList, base: Lines, at: number): Draft | null {
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
  base: Lines,
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

function splitDrafts(list: ComplaintList, base: Lines, drafts: readonly Draft[]): SheetRow[] {
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

/** Spaces around a value are not part of it, nor is the apostrophe that keeps it from running; a lone `-` is an empty cell. */
function cellValue(cell: string): string {
  const text = unguarded(cell.trim());
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

function decodeAlone(list: ComplaintList, base: Lines, draft: Draft): string[] {
  const records = decodeTogether([draft], base.delimiter);
  if (records?.[0]) return records[0];
  reportQuotes(list, base, draft.line - 1, 'fault', draft.endLine);
  return [];
}
