/** What `readings --out` writes of its figures: a CSV file and a workbook. */
import { type CsvForm, PLAIN_CSV } from '../core/model/csv-form.js';
import type { ReadingsStudy } from '../core/readings/study-readings.js';
import type { Workbook } from '../workbook/workbook.js';
import { csvText } from './csv.js';
import { type ReadingsView, readingsAnswer } from './readings.js';
import { readingsTable } from './result-tables/readings-tables.js';
import { tablesBook } from './tables-book.js';

export const READINGS_BOOK = 'readings-figures.xlsx';

/** The answer, and the figures of each element. */
export function readingsBook(view: ReadingsView, warnings: readonly string[]): Workbook {
  return tablesBook(
    'What the readings say',
    [readingsAnswer(view), ...warnings],
    [readingsTable(view.study)],
  );
}

export function readingsCsv(study: ReadingsStudy, form: CsvForm = PLAIN_CSV): string {
  return csvText(readingsTable(study).rows, 6, form);
}
