/** Finds the line with the headers: the first with text, or one close below where a title stands above it. */
import type { Columns } from './column.js';
import { columnNamed } from './column-named.js';

/** Lines with text that are looked at below the first. */
const LINES_SEARCHED = 8;

export interface HeaderLine {
  /** Index of the line. */
  readonly at: number;
  /** Lines with text that stand above it and are passed over. */
  readonly above: number;
}

/**
 * @param lines the lines of the table
 * @param filled indices of those with text, comments left out, in order
 * @returns the first filled line, unless none of its cells names a column and a line below does in two cells or in all
 */
export function headerLine(
  lines: readonly string[],
  filled: readonly number[],
  columns: Columns,
): HeaderLine | null {
  const [first, ...below] = filled;
  if (first === undefined) return null;
  const none = { at: first, above: 0 };
  if (namedCells(lines[first]!, columns).named > 0) return none;
  const found = below.slice(0, LINES_SEARCHED).findIndex((at) => {
    const { named, filled: count } = namedCells(lines[at]!, columns);
    return named >= 2 || (named === 1 && count === 1);
  });
  return found === -1 ? none : { at: below[found]!, above: found + 1 };
}

function namedCells(line: string, columns: Columns): { readonly named: number; readonly filled: number } {
  const sign = line.replace(/"[^"]*"/g, '').includes(';') ? ';' : ',';
  const cells = line
    .split(sign)
    .map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'))
    .filter((cell) => cell !== '');
  const named = cells.filter((cell) => Object.hasOwn(columns, cell) || columnNamed(cell, columns) !== null);
  return { named: named.length, filled: cells.length };
}
