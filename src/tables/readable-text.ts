/** Tells whether a file's text can be a table at all, and gives its lines. */
import type { ComplaintList, Fault } from './complaint-list.js';
import { tableLimits } from './limits.js';
import { reportTable } from './sheet.js';

/** @returns the lines without their ends and without a byte order mark; null where the text is no table */
export function readableText(list: ComplaintList, file: string, text: string): readonly string[] | null {
  const fault = tooLarge(text) ?? notText(text);
  if (fault) {
    reportTable({ list, file }, fault);
    return null;
  }
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  reportForeignBytes(list, file, lines);
  return lines;
}

function tooLarge(text: string): Fault | null {
  if (text.length <= tableLimits.bytesPerTable) return null;
  return sizeFault('TAB03', text.length);
}

/** The complaint about a file beyond the limit; `code` tells whether it was read at all. */
export function sizeFault(code: 'TAB03' | 'FIL05', bytes: number): Fault {
  const text = `the table has ${bytes} bytes, at most ${tableLimits.bytesPerTable} (8 MB) are read`;
  return {
    code,
    text,
    help: 'Leave out rows that the cell does not use, or check that this is the right file.',
  };
}

function notText(text: string): Fault | null {
  if (!text.includes('\0')) return null;
  return {
    code: 'TAB04',
    text: 'the file is not a text table: it holds NUL characters',
    help: 'Save the sheet as CSV in UTF-8; a workbook or `Unicode text` cannot be read.',
  };
}

/** A byte that is not UTF-8 was decoded as U+FFFD: one complaint a file, at the first. */
function reportForeignBytes(list: ComplaintList, file: string, lines: readonly string[]): void {
  const index = lines.findIndex((line) => line.includes('\uFFFD'));
  if (index === -1) return;
  const text = lines[index]!;
  const start = text.indexOf('\uFFFD');
  const place = { file, line: index + 1, column: null, order: -1 };
  list.add('TAB05', { ...place, excerpt: () => ({ text, start, end: start + 1 }) }, () => ({
    code: 'TAB05',
    text: 'found a character that is not UTF-8',
    help: 'Save the table as CSV in UTF-8; older spreadsheets save in the code page of the country.',
  }));
}
