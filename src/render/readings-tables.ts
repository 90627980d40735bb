/** The figures of stopwatch readings as a table for a spreadsheet. */
import { type CsvForm, PLAIN_CSV } from '../core/model/csv-form.js';
import type { ReadingsStudy } from '../core/readings/study-readings.js';
import { FIGURES_FILE } from '../tables/table-formats.js';
import type { Workbook } from '../workbook/workbook.js';
import { type CsvValue, csvText } from './csv.js';
import { type ReadingsView, readingsAnswer } from './readings.js';
import { tablesBook } from './tables-book.js';

export const READINGS_BOOK = 'readings-figures.xlsx';

/** The answer, and the figures of each element. */
export function readingsBook(view: ReadingsView, warnings: readonly string[]): Workbook {
  return tablesBook(
    'What the readings say',
    [readingsAnswer(view), ...warnings],
    [{ file: FIGURES_FILE, rows: figureRows(view.study) }],
  );
}

/** One row for each element. */
function figureRows({ elements }: ReadingsStudy): CsvValue[][] {
  const rows = elements.map((e): CsvValue[] => [
    e.element,
    e.n,
    e.mean,
    e.sd,
    e.ciLow,
    e.ciHigh,
    e.cvPct,
    e.min,
    e.median,
    e.max,
    e.normal.mean,
    e.standardS,
    e.table?.tableS ?? null,
    e.outliers.length,
    e.neededN,
    e.moreN,
    e.foreign?.count ?? 0,
    e.trend?.direction ?? null,
    e.trend?.changeS ?? null,
    e.trend?.autocorrelation ?? null,
    e.fit.distribution,
    e.fit.mean,
    e.fit.sd,
  ]);
  return [FIGURE_COLUMNS, ...rows];
}

export function readingsCsv(study: ReadingsStudy, form: CsvForm = PLAIN_CSV): string {
  return csvText(figureRows(study), 6, form);
}

const FIGURE_COLUMNS = [
  'element',
  'n',
  'mean_s',
  'sd_s',
  'ci_low_s',
  'ci_high_s',
  'cv_pct',
  'min_s',
  'median_s',
  'max_s',
  'normal_s',
  'standard_s',
  'table_s',
  'outliers',
  'needed_n',
  'more_n',
  'foreign',
  'trend',
  'change_s',
  'autocorrelation',
  'distribution',
  'fit_mean_s',
  'fit_sd_s',
];
