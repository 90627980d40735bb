/** Cells copied from a spreadsheet, as changes of a table. */
import type { EditGrid, RowChange } from './grid.js';

/** Rows and cells of the clipboard: tabs between cells, quotation marks round those with a line break. */
export function clipboardCells(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let isQuoted = false;
  const endCell = (): void => {
    rows.at(-1)!.push(cell);
    cell = '';
  };
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!;
    if (isQuoted && sign === '"' && text[at + 1] === '"') {
      cell += '"';
      at++;
    } else if (isQuoted && sign === '"') isQuoted = false;
    else if (isQuoted) cell += sign;
    else if (sign === '"' && cell === '') isQuoted = true;
    else if (sign === '\t') endCell();
    else if (sign === '\n') {
      endCell();
      rows.push([]);
    } else if (sign !== '\r') cell += sign;
  }
  endCell();
  if (rows.at(-1)!.every((last) => last === '')) rows.pop();
  return rows;
}

/** True where a paste is more than one value. */
export function isBlock(text: string): boolean {
  return /[\t\n]/.test(text.trimEnd());
}

/**
 * A block pasted at a cell. Where its first row names the columns of the table, its cells go under those names;
 * otherwise they go where they stand, from the cell to the right and down, with new rows at the end.
 *
 * @param row index in the grid; the number of its rows for the new row at the end
 * @param shown names of the columns in the order in which they are seen
 */
export function pastedRows(
  grid: EditGrid,
  shown: readonly string[],
  row: number,
  column: string,
  text: string,
): RowChange[] {
  const block = clipboardCells(text);
  const head = block[0]?.map((cell) => cell.trim().toLowerCase()) ?? [];
  const names = new Set(grid.columns.map(({ name }) => name));
  const hasHead = head.length > 0 && head.every((cell) => names.has(cell));
  const from = Math.max(0, shown.indexOf(column));
  const columns = hasHead ? head : shown.slice(from);
  return (hasHead ? block.slice(1) : block).map((cells, k) => ({
    line: grid.rows[row + k]?.line ?? null,
    values: Object.fromEntries(cells.slice(0, columns.length).map((cell, c) => [columns[c]!, cell])),
  }));
}
