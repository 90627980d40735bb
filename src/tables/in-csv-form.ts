/** A table in another form of CSV: the sign between its columns and the decimal mark of its numbers; comments stay. */
import { parse } from 'csv-parse/browser/esm/sync';
import type { CsvForm } from '../core/model/csv-form.js';
import { unguarded } from '../core/model/formula-guard.js';
import { delimiterOf } from './read-sheet.js';
import { tableText } from './table-text.js';

const DECIMAL_COMMA = /^[+-]?\d*,\d+(?:e[+-]?\d+)?$/i;

/** @param text a table that can be read, each record on a line of its own; its rows become as long as its header */
export function inCsvForm(text: string, form: CsvForm): string {
  const lines = text.replace(/\n$/, '').split('\n');
  const isRecord = (line: string): boolean => line !== '' && !line.startsWith('#');
  const header = lines.find(isRecord) ?? '';
  const delimiter = delimiterOf(header) ?? ',';
  const width = cellsOf(header, delimiter).length;
  return lines
    .map((line) => {
      if (!isRecord(line)) return `${line}\n`;
      const cells = cellsOf(line, delimiter);
      // A row of a workbook ends with its last filled cell.
      const lacking = Array<string>(Math.max(0, width - cells.length)).fill('');
      return tableText([[...cells, ...lacking]], form);
    })
    .join('');
}

function cellsOf(line: string, delimiter: ',' | ';'): string[] {
  const [cells = []]: string[][] = parse(line, { delimiter });
  return cells.map((cell) => {
    const text = unguarded(cell);
    return delimiter === ';' && DECIMAL_COMMA.test(text) ? text.replace(',', '.') : text;
  });
}
