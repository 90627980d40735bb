/** Complaints as text for a terminal or a log: where, what, the line with the place marked, how to mend it. */

import pc from 'picocolors';
import type { Complaint } from '../core/model/complaint.js';
import { sentence } from './first-letter.js';
import { visibleText } from './visible-text.js';

export interface ComplaintStyle {
  readonly colour: boolean;
}

type Paint = ReturnType<typeof pc.createColors>;

/**
 * @param complaints in the order in which they are to be read
 * @returns the text, with a line that sums up at the end; empty when there is nothing to say
 */
export function renderComplaints(complaints: readonly Complaint[], { colour }: ComplaintStyle): string {
  if (complaints.length === 0) return '';
  const paint = pc.createColors(colour);
  return `${[...complaints.map((c) => oneComplaint(c, paint)), summary(complaints)].join('\n\n')}\n`;
}

function oneComplaint(complaint: Complaint, paint: Paint): string {
  const { severity, code, text, help, excerpt, line } = complaint;
  const mark = severity === 'error' ? paint.red : paint.yellow;
  const head = `${paint.bold(placeText(complaint))}  ${mark(`${severity} ${code}`)}`;
  const shown =
    excerpt === null ? [] : excerptLines(excerpt, line).map((row, i) => (i === 1 ? mark(row) : row));
  const mend = help === null ? [] : [`  ${paint.cyan('Fix:')} ${visibleText(help)}`];
  return [head, `  ${sentence(visibleText(text))}`, ...shown, ...mend].join('\n');
}

/** @example 'routes.csv, line 7, column unload_s'; of a workbook 'my-cell.xlsx, routes!F7, column unload_s' */
function placeText({ file, line, column, cell }: Complaint): string {
  const place = cell ?? (line === null ? '' : `line ${line}`);
  const parts = [file, place, column === null ? '' : `column ${column}`];
  return visibleText(parts.filter((part) => part !== '').join(', '));
}

/** @example '2 errors and 1 warning in 3 tables. No results.' */
function summary(complaints: readonly Complaint[]): string {
  const errors = complaints.filter((c) => c.severity === 'error').length;
  const warnings = complaints.length - errors;
  const counts = [counted(errors, 'error'), counted(warnings, 'warning')]
    .filter((text) => text !== '')
    .join(' and ');
  const files = counted(new Set(complaints.map((c) => c.file)).size, 'file');
  return `${counts} in ${files}.${errors > 0 ? ' No results.' : ''}`;
}

function counted(count: number, what: string): string {
  return count === 0 ? '' : `${count} ${what}${count === 1 ? '' : 's'}`;
}

/** Most characters of a line that are shown. */
const WINDOW = 100;
/** Characters shown before the fault where the line is cut. */
const BEFORE = 40;
const WIDE =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uFF01-\uFF60]/u;

/** @returns two lines: the excerpt, cut to a window around the faulty place, and the marks under that */
function excerptLines(excerpt: NonNullable<Complaint['excerpt']>, line: number | null): [string, string] {
  const { before, fault, after } = windowOf(excerpt);
  const number = line === null ? '' : String(line);
  const gutter = ' '.repeat(number.length);
  const marks = '~'.repeat(Math.max(1, widthOf(fault)));
  return [
    `    ${number} │ ${before}${fault}${after}`,
    `    ${gutter} │ ${' '.repeat(widthOf(before))}${marks}`,
  ];
}

/** The three pieces of the line in printable signs, cut so that the fault's start is in sight. */
function windowOf({ text, start, end }: NonNullable<Complaint['excerpt']>) {
  const from = text.length <= WINDOW ? 0 : Math.max(0, Math.min(start - BEFORE, text.length - WINDOW));
  const to = Math.min(text.length, from + WINDOW);
  const faultEnd = Math.min(Math.max(start, end), to);
  return {
    before: `${from > 0 ? '…' : ''}${visibleText(text.slice(from, start))}`,
    fault: visibleText(text.slice(start, faultEnd)),
    after: `${visibleText(text.slice(faultEnd, to))}${to < text.length ? '…' : ''}`,
  };
}

/** Columns that a text takes in a terminal. */
function widthOf(text: string): number {
  let width = 0;
  for (const character of text) if (!/\p{M}/u.test(character)) width += WIDE.test(character) ? 2 : 1;
  return width;
}
