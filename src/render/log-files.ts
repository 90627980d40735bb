/** What `log --out` writes of its figures: a CSV file of every measured time, and a workbook. */
import type { LogResult } from '../core/log/log-result.js';
import type { CsvForm } from '../core/model/csv-form.js';
import type { Workbook } from '../workbook/workbook.js';
import { csvText } from './csv.js';
import { logAnswer } from './log.js';
import { logTables, measuredTable } from './result-tables/log-tables.js';
import { tablesBook } from './tables-book.js';

export const LOG_BOOK = 'log-figures.xlsx';

/** The answer, and the tables one sheet each. */
export function logBook(result: LogResult): Workbook {
  const tables = logTables(result).filter(({ rows }) => rows.length > 1);
  return tablesBook('What the log says', [...logAnswer(result), ...result.warnings], tables);
}

export function logCsv(result: LogResult, form: CsvForm): string {
  return csvText(measuredTable(result).rows, 4, form);
}
