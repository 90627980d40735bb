/** CSV for spreadsheets. A text that a spreadsheet would run as a formula is made harmless; figures are written as figures. */
import { type CsvForm, PLAIN_CSV } from '../core/model/csv-form.js';
import { guarded } from '../core/model/formula-guard.js';

export type CsvValue = string | number | boolean | null;

const NEEDS_QUOTES = /[",;\r\n]|^\s|\s$/;

/**
 * @param digits digits after the point of figures; whole numbers stay whole
 * @throws RangeError where a figure is not finite
 * @param form separator and decimal mark
 * @example csvText([['part', 'n'], ['=1+1', 2]]) // "part,n\n'=1+1,2\n"
 */
export function csvText(
  rows: readonly (readonly CsvValue[])[],
  digits = 4,
  form: CsvForm = PLAIN_CSV,
): string {
  return rows
    .map((row) => `${row.map((value) => csvCell(value, digits, form)).join(form.separator)}\n`)
    .join('');
}

function csvCell(value: CsvValue, digits: number, { decimal }: CsvForm): string {
  if (value === null) return '';
  if (typeof value === 'number') return figure(value, digits).replace('.', decimal);
  const text = typeof value === 'boolean' ? (value ? 'yes' : 'no') : guarded(value);
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function figure(value: number, digits: number): string {
  if (!Number.isFinite(value)) throw new RangeError('a figure of a table is not finite');
  const text = String(Number(value.toFixed(digits)));
  return text === '-0' ? '0' : text;
}
