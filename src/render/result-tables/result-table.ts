/**
 * The figures of an answer as tables for a spreadsheet: a CSV file or a sheet each. Columns carry their units, texts that a
 * spreadsheet would run are made harmless as the file is written.
 */
import type { CsvForm } from '../../core/model/csv-form.js';
import type { WorkbookChart } from '../../workbook/workbook.js';
import { type CsvValue, csvText } from '../csv.js';

export interface ResultTable {
  /** Name of its CSV file. */
  readonly file: string;
  /** The headings first. */
  readonly rows: readonly (readonly CsvValue[])[];
  /** Columns that hold money. */
  readonly money?: readonly string[];
  /** A picture of it, where it is worth one. */
  readonly chart?: TableChart;
}

export interface TableChart {
  readonly kind: WorkbookChart['kind'];
  readonly title: string;
  /** The column along the axis. */
  readonly of: string;
  /** The columns that are drawn. */
  readonly values: readonly string[];
}

const DIGITS = 4;

/** The tables as CSV. @returns texts by file name */
export function resultFiles(tables: readonly ResultTable[], form: CsvForm): Record<string, string> {
  return Object.fromEntries(tables.map(({ file, rows }) => [file, csvText(rows, DIGITS, form)]));
}

/** @param values the columns that are drawn against the column `of` */
export function drawn(
  kind: TableChart['kind'],
  title: string,
  of: string,
  values: readonly string[],
): { readonly chart: TableChart } {
  return { chart: { kind, title, of, values } };
}
