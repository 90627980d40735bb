/**
 * CSV for spreadsheets. A text that a spreadsheet would run as a formula is made harmless by an apostrophe before it
 * (the advice of OWASP, "CSV Injection"); figures are written as figures.
 */

export type CsvValue = string | number | boolean | null;

const RUNS_AS_FORMULA = /^[\s\p{Cf}]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r\n]/u;
const NEEDS_QUOTES = /[",;\r\n]|^\s|\s$/;

/**
 * @param digits digits after the point of figures; whole numbers stay whole
 * @throws RangeError where a figure is not finite
 * @example csvText([['part', 'n'], ['=1+1', 2]]) // "part,n\n'=1+1,2\n"
 */
export function csvText(rows: readonly (readonly CsvValue[])[], digits = 4): string {
  return rows.map((row) => `${row.map((value) => csvCell(value, digits)).join(',')}\n`).join('');
}

function csvCell(value: CsvValue, digits: number): string {
  if (value === null) return '';
  if (typeof value === 'number') return figure(value, digits);
  const text = typeof value === 'boolean' ? (value ? 'yes' : 'no') : harmless(value);
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function harmless(text: string): string {
  return RUNS_AS_FORMULA.test(text) ? `'${text}` : text;
}

function figure(value: number, digits: number): string {
  if (!Number.isFinite(value)) throw new RangeError('a figure of a table is not finite');
  const text = String(Number(value.toFixed(digits)));
  return text === '-0' ? '0' : text;
}
