/** A table in plain text: a line under the headings, no other rules; figures to the right. */
import Table from 'cli-table3';
import stringWidth from 'string-width';
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

/** @param rows one text a column; a heading may hold line breaks to stay narrow */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  style: TextStyle,
): string {
  const widths = columns.map((column, i) => widest([column.heading, ...rows.map((row) => row[i] ?? '')]));
  const table = new Table({
    chars: NO_RULES,
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
    colAligns: columns.map((column) => column.align ?? 'left'),
  });
  const rule = widths.map((width) => (style.ascii ? '-' : '─').repeat(width));
  table.push(columns.map((column) => ({ content: column.heading, vAlign: 'bottom' as const })));
  table.push(rule, ...rows.map((row) => [...row]));
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
}

export function printTable({ columns, rows }: TableData, style: TextStyle): string {
  return textTable(columns, rows, style);
}

function widest(texts: readonly string[]): number {
  return Math.max(1, ...texts.flatMap((text) => text.split('\n').map((line) => stringWidth(line))));
}
