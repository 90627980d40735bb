/** Tells in which form the tables of a cell are written, so that what is written beside them opens as they do. */
import { CSV_FORMS, type CsvForm, PLAIN_CSV } from '../core/model/csv-form.js';
import { delimiterOf } from './read-sheet.js';

const DECIMAL = /(?:^|;)\s*"?[+-]?\d*([.,])\d+"?\s*(?=;|$)/g;

/**
 * The form of most of the tables. With semicolons the decimal mark is the comma, unless numbers have points and none a
 * comma: that is how spreadsheets save where the comma is the decimal mark.
 * @param texts texts of the tables
 */
export function csvFormOf(texts: readonly string[]): CsvForm {
  const tables = texts.map(filledLines).filter((lines) => lines.length > 0);
  const parted = tables.filter(([header]) => delimiterOf(header!) === ';');
  if (2 * parted.length <= tables.length) return PLAIN_CSV;
  const marks = new Set(parted.flat().flatMap((line) => [...line.matchAll(DECIMAL)].map(([, mark]) => mark)));
  return CSV_FORMS[marks.has('.') && !marks.has(',') ? 'semicolon-point' : 'semicolon-comma'];
}

function filledLines(text: string): string[] {
  return text.split(/\r\n|\n|\r/).filter((line) => line.trim() !== '' && !/^\uFEFF?\s*"?#/.test(line));
}
