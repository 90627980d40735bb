/** The line of a file with the faulty place marked under it, cut to a window around the place. */
import type { Complaint } from '../core/model/complaint.js';
import { visibleText } from './visible-text.js';

/** Most characters of a line that are shown. */
const WINDOW = 100;
/** Characters shown before the fault where the line is cut. */
const BEFORE = 40;
const WIDE =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uFF01-\uFF60]/u;

/** @returns two lines: the excerpt with its line number, and the marks under it */
export function excerptLines(
  excerpt: NonNullable<Complaint['excerpt']>,
  line: number | null,
): [string, string] {
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
