/** A table in another form of CSV: the sign between its columns and the decimal mark of its numbers; comments stay. */
import { parse } from 'csv-parse/browser/esm/sync';
import type { CsvForm } from '../core/model/csv-form.js';
import { unguarded } from '../core/model/formula-guard.js';
import { delimiterOf } from './read-sheet.js';
import { tableText } from './table-text.js';

const DECIMAL_COMMA = /^[+-]?\d*,\d+(?:e[+-]?\d+)?$/i;

/** @param text a table that can be read, each record on a line of its own */
export function inCsvForm(text: string, form: CsvForm): string {
  const lines = text.replace(/\n$/, '').split('\n');
  const isRecord = (line: string): boolean => line !== '' && !line.startsWith('#');
  const delimiter = delimiterOf(lines.find(isRecord) ?? '') ?? ',';
  return lines
    .map((line) => (isRecord(line) ? tableText([cellsOf(line, delimiter)], form) : `${line}\n`))
    .join('');
}

function cellsOf(line: string, delimiter: ',' | ';'): string[] {
  const [cells = []]: string[][] = parse(line, { delimiter });
  return cells.map((cell) => {
    const text = unguarded(cell);
    return delimiter === ';' && DECIMAL_COMMA.test(text) ? text.replace(',', '.') : text;
  });
}
