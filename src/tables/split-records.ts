/**
 * Splits the lines of a table into records and cells. Lines are taken apart one by one, so that every record knows where
 * it starts and a fault in one does not hide the next.
 */
import { unguarded } from '../core/model/formula-guard.js';
import type { Fault } from './complaint-list.js';
import { scanRecord, spanText } from './field-spans.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import type { Lines, SheetRow } from './sheet.js';

/** The records of a table; `isWhole` is false where one of them could not be split. */
export interface Records {
  readonly rows: readonly SheetRow[];
  readonly isWhole: boolean;
}

/**
 * Joins the lines of records in which a quoted cell spans several; reports quotation marks that do not pair.
 * @param start index of the line to begin with
 */
export function splitRecords(base: Lines, start: number): Records {
  const rows: SheetRow[] = [];
  let isWhole = true;
  for (let at = start; at < base.lines.length; at += 1) {
    const line = base.lines[at]!;
    const comment = line.trimStart();
    if (comment === '' || comment.startsWith('#')) continue;
    if (!line.includes('"')) {
      rows.push({ line: at + 1, endLine: at + 1, cells: line.split(base.delimiter).map(cellValue) });
      continue;
    }
    const row = quotedRecord(base, at);
    if (row === null) isWhole = false;
    else rows.push(row);
    at = (row?.endLine ?? at + 1) - 1;
  }
  return { rows, isWhole };
}

function quotedRecord(base: Lines, at: number): SheetRow | null {
  const most = Math.min(base.lines.length, at + tableLimits.linesPerRecord);
  let text = base.lines[at]!;
  let scan = scanRecord(text, base.delimiter);
  let endLine = at + 1;
  while (scan.state === 'open' && endLine < most) {
    text += `\n${base.lines[endLine]}`;
    endLine += 1;
    scan = scanRecord(text, base.delimiter);
  }
  if (scan.state === 'whole') {
    const cells = scan.spans.map((span) => cellValue(spanText(text, span)));
    return { line: at + 1, endLine, cells };
  }
  reportQuotes(base, at, scan.state, endLine);
  return null;
}

function reportQuotes(base: Lines, at: number, state: 'open' | 'fault', endLine: number): void {
  const text = base.lines[at]!;
  const mark = scanRecord(text, base.delimiter).faultAt;
  const isOpen = state === 'open' || endLine > at + 1;
  const fault: Fault = {
    code: 'TAB09',
    text: isOpen
      ? 'a quotation mark opens here and is not closed before the next column'
      : `found ${inBackticks(text.slice(mark).split(base.delimiter)[0]!.trim())} after a closing quotation mark`,
    help: 'Set the whole value in quotation marks and double each mark inside it, or use none.',
  };
  const excerpt = () => ({ text, start: mark, end: mark + 1 });
  base.list.add('TAB09', { file: base.file, line: at + 1, column: null, order: -1, excerpt }, () => fault);
}

/** Spaces around a value are not part of it, nor is the apostrophe that keeps it from running; a lone `-` is an empty cell. */
function cellValue(cell: string): string {
  const text = unguarded(cell.trim());
  return text === '-' ? '' : text;
}
