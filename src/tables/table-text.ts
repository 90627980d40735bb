/** Rows of a table as the text that the readers of this program take back unchanged, harmless in a spreadsheet. */
import { guarded } from '../core/model/formula-guard.js';

/** @param rows the header first */
export function tableText(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map((cell) => quotedCell(cell, ',')).join(',')}\n`).join('');
}

/** Numbers run as nothing, and a lone `-` is an empty cell. */
const IS_HARMLESS = /^(?:-|[+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?%?)$/i;

/** A cell as it stands between delimiters, in quotation marks where it must be. */
export function quotedCell(value: string, delimiter: string): string {
  const cell = IS_HARMLESS.test(value) ? value : guarded(value);
  const needs = cell.includes(delimiter) || /["\n#]/.test(cell);
  return needs ? `"${cell.replaceAll('"', '""')}"` : cell;
}
