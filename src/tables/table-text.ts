/** Rows of a table as the text that the readers of this program take back unchanged. */

/** @param rows the header first */
export function tableText(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map((cell) => quotedCell(cell, ',')).join(',')}\n`).join('');
}

/** A cell as it stands between delimiters, in quotation marks where it must be. */
export function quotedCell(cell: string, delimiter: string): string {
  const needs = cell.includes(delimiter) || /["\n#]/.test(cell);
  return needs ? `"${cell.replaceAll('"', '""')}"` : cell;
}
