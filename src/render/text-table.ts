/** A table in plain text: a line under the headings, no other rules; figures to the right. */
import Table from 'cli-table3';
import stringWidth from 'string-width';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';

export interface TextColumn {
  readonly heading: string;
  /** Figures stand to the right; words to the left. */
  readonly align?: 'left' | 'right';
}

/** A column of figures. @example right('parts\\nan hour') */
export function right(heading: string): TextColumn {
  return { heading, align: 'right' };
}

/** A table before it is drawn, for a terminal or a page. */
export interface TableData {
  /** Headings may hold line breaks to stay narrow. */
  readonly columns: readonly TextColumn[];
  readonly rows: readonly (readonly string[])[];
}

const NO_RULES = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: '  ',
};

/**
 * As wide as it needs and no wider than the terminal: headings are broken into as few lines as fit, then the longest
 * words of the rows.
 *
 * @param rows one text a column; a heading may hold line breaks of its own
 */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  style: TextStyle,
): string {
  const fitted = fittedTo(style.columns, columns, rows);
  const widths = columns.map((_, k) =>
    widest([fitted.headings[k]!, ...fitted.rows.map((row) => row[k] ?? '')]),
  );
  const table = new Table({
    chars: NO_RULES,
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
    colAligns: columns.map((column) => column.align ?? 'left'),
  });
  const rule = widths.map((width) => (style.ascii ? '-' : '─').repeat(width));
  table.push(fitted.headings.map((content) => ({ content, vAlign: 'bottom' as const })));
  table.push(rule, ...fitted.rows.map((row) => [...row]));
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
}

export function printTable({ columns, rows }: TableData, style: TextStyle): string {
  return textTable(columns, rows, style);
}

const GAP = 2;
const MOST_HEADING_LINES = 5;
/** Words of a cell are not pressed narrower than this. */
const LEAST_WORDS = 12;

function fittedTo(
  width: number,
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
): { readonly headings: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const bodies = columns.map((_, k) => widest(rows.map((row) => row[k] ?? '')));
  const headed = (lines: number) =>
    columns.map(({ heading }, k) => broken(heading, narrowest(heading, lines, bodies[k]!)));
  const total = (headings: readonly string[]) =>
    headings.reduce((sum, heading, k) => sum + Math.max(bodies[k]!, widest([heading])) + GAP, -GAP);
  let headings = columns.map(({ heading }) => heading);
  for (let lines = 2; total(headings) > width && lines <= MOST_HEADING_LINES; lines++)
    headings = headed(lines);
  const over = total(headings) - width;
  const longest = bodies.indexOf(Math.max(...bodies.filter((_, k) => columns[k]!.align !== 'right')));
  if (over <= 0 || longest < 0) return { headings, rows };
  const words = Math.max(LEAST_WORDS, bodies[longest]! - over);
  return {
    headings: headings.map((heading, k) => (k === longest ? broken(heading, words) : heading)),
    rows: rows.map((row) => row.map((cell, k) => (k === longest ? broken(cell, words) : cell))),
  };
}

/** The least width in which a heading has no more lines than asked, where any has. */
function narrowest(heading: string, lines: number, least: number): number {
  const most = widest([heading]);
  for (let width = Math.max(1, least); width < most; width++)
    if (broken(heading, width).split('\n').length <= lines) return width;
  return most;
}

/** Each line of its own broken again where it is too long; a word is never broken. */
function broken(text: string, width: number): string {
  return text
    .split('\n')
    .map((line) => (stringWidth(line) <= width ? line : paragraph(line, width)))
    .join('\n');
}

function widest(texts: readonly string[]): number {
  return Math.max(1, ...texts.flatMap((text) => text.split('\n').map((line) => stringWidth(line))));
}
