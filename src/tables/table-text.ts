/** Rows of a table as the text that the readers of this program take back unchanged, harmless in a spreadsheet. */
import { type CsvForm, PLAIN_CSV } from '../core/model/csv-form.js';
import { guarded } from '../core/model/formula-guard.js';

/** @param rows the header first; numbers with a decimal point */
export function tableText(rows: readonly (readonly string[])[], form: CsvForm = PLAIN_CSV): string {
  const { separator, decimal } = form;
  const cellOf = (cell: string): string =>
    quotedCell(IS_DECIMAL.test(cell) ? cell.replace('.', decimal) : cell, separator);
  return rows.map((row) => `${row.map(cellOf).join(separator)}\n`).join('');
}

const IS_DECIMAL = /^[+-]?\d*\.\d+(?:e[+-]?\d+)?$/i;

/** Numbers run as nothing, and a lone `-` is an empty cell. */
const IS_HARMLESS = /^(?:-|[+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?%?)$/i;

/** A cell as it stands between delimiters, in quotation marks where it must be. */
export function quotedCell(value: string, delimiter: string): string {
  const cell = IS_HARMLESS.test(value) ? value : guarded(value);
  const needs = cell.includes(delimiter) || /["\n#]/.test(cell);
  return needs ? `"${cell.replaceAll('"', '""')}"` : cell;
}
