/** A table in plain text: a line under the headings, no other rules; figures to the right. */
import Table from 'cli-table3';
import stringWidth from 'string-width';
import { paragraph } from './paragraph.js';
import { shortened } from './shortened.js';
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
 * As wide as it needs and no wider than the terminal: headings are broken into as few lines as fit, then lists among
 * figures, then the columns of words, at last names are cut in the middle.
 *
 * @param rows one text a column; a heading may hold line breaks of its own
 */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  style: TextStyle,
): string {
  const fitted = fittedTo(style, columns, rows);
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

interface Fitted {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

function fittedTo(
  { columns: width, ascii }: TextStyle,
  columns: readonly TextColumn[],
  rows: Fitted['rows'],
): Fitted {
  const bodies = columns.map((_, k) => bodyWidth(rows, k));
  const headed = (lines: number) =>
    columns.map(({ heading }, k) => broken(heading, narrowest(heading, lines, bodies[k]!)));
  let fitted: Fitted = { headings: columns.map(({ heading }) => heading), rows };
  for (let lines = 2; totalWidth(fitted) > width && lines <= MOST_HEADING_LINES; lines++)
    fitted = { headings: headed(lines), rows };
  for (let lines = 2; leastWidth(fitted, columns) > width && lines <= MOST_HEADING_LINES; lines++)
    fitted = { ...fitted, rows: listsBroken(columns, rows, lines) };
  fitted = { ...fitted, headings: cutHeadings(fitted, width, ascii ? '...' : '…') };
  const rooms = roomsOf(fitted, columns, width);
  return columns.reduce(
    (now, _, k) => (rooms[k]! < bodies[k]! ? pressed(now, k, rooms[k]!, ascii ? '...' : '…') : now),
    fitted,
  );
}

/** With headings cut to what stands under them and the words of each column in lines. */
function leastWidth({ rows }: Fitted, columns: readonly TextColumn[]): number {
  return columns.reduce((sum, { align }, k) => {
    const body = bodyWidth(rows, k);
    return sum + (align === 'right' ? body : Math.min(body, 2 * LEAST_WORDS)) + GAP;
  }, -GAP);
}

/** Lists of names among figures in lines, so that the figures beside them keep their room. */
function listsBroken(columns: readonly TextColumn[], rows: Fitted['rows'], lines: number): Fitted['rows'] {
  return rows.map((row) =>
    row.map((cell, k) =>
      columns[k]!.align === 'right' && cell.includes(', ') ? broken(cell, narrowest(cell, lines, 1)) : cell,
    ),
  );
}

/** Long names in headings are cut, the longest first, where the columns are too wide with them. */
function cutHeadings({ headings, rows }: Fitted, width: number, sign: string): readonly string[] {
  const cut = (room: number) =>
    headings.map((heading, k) =>
      heading.replace(/\S+/gu, (word) => cutTo(word, Math.max(room, bodyWidth(rows, k)), sign)),
    );
  let room = widest(headings);
  while (room > LEAST_WORDS && totalWidth({ headings: cut(room), rows }) > width) room--;
  return totalWidth({ headings, rows }) > width ? cut(room) : headings;
}

/** Columns of words give way, the widest first and no further than the next one. */
function roomsOf({ headings, rows }: Fitted, columns: readonly TextColumn[], width: number): number[] {
  const rooms = columns.map((_, k) => bodyWidth(rows, k));
  const words = columns.flatMap(({ align }, k) => (align === 'right' ? [] : [k]));
  const heads = headings.map((heading, k) => (words.includes(k) ? longestWord(heading) : widest([heading])));
  for (;;) {
    const over = rooms.reduce((sum, room, k) => sum + Math.max(room, heads[k]!) + GAP, -GAP) - width;
    const [first, next] = [...words].sort((one, other) => rooms[other]! - rooms[one]!);
    if (over <= 0 || first === undefined || rooms[first]! <= LEAST_WORDS) return rooms;
    const level = next === undefined ? 0 : Math.min(rooms[next]!, rooms[first]! - 1);
    rooms[first] = Math.max(LEAST_WORDS, rooms[first]! - over, level);
  }
}

function longestWord(text: string): number {
  return widest(text.split(/\s+/));
}

function bodyWidth(rows: Fitted['rows'], k: number): number {
  return widest(rows.map((row) => row[k] ?? ''));
}

function totalWidth({ headings, rows }: Fitted): number {
  return headings.reduce(
    (sum, heading, k) => sum + Math.max(bodyWidth(rows, k), widest([heading])) + GAP,
    -GAP,
  );
}

/** One column no wider than its room: broken at blanks, and a longer name cut. */
function pressed({ headings, rows }: Fitted, column: number, room: number, sign: string): Fitted {
  const fitCell = (text: string) =>
    broken(
      text.replace(/\S+/gu, (word) => cutTo(word, room, sign)),
      room,
    );
  return {
    headings: headings.map((heading, k) => (k === column ? broken(heading, room) : heading)),
    rows: rows.map((row) => row.map((cell, k) => (k === column ? fitCell(cell) : cell))),
  };
}

function cutTo(word: string, room: number, sign: string): string {
  let text = word;
  for (let letters = room; stringWidth(text) > room; letters--) text = shortened(word, letters, sign);
  return text;
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
