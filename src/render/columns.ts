/**
 * A table declared once: each column with its name in a file, its heading where people read, its digits and the value of a
 * row. Terminal, page, Markdown, CSV and workbook are drawn from the same list, so none can say another figure.
 */
import type { CsvValue } from './csv.js';
import { numberText } from './numbers.js';
import type { ResultTable } from './result-tables/result-table.js';
import type { TableData } from './text-table.js';

export interface Column<Row> {
  /** In a file, with its unit. */
  readonly name: string;
  /** Where people read; line breaks keep it narrow. A column without is in files alone. */
  readonly heading?: string | undefined;
  readonly of: (row: Row) => CsvValue;
  /** After the point, where people read; a column of figures has them. */
  readonly digits?: number;
  /** What people read, where the rounded figure or the word alone does not say it. */
  readonly text?: (row: Row) => string;
  /** What people read where there is no value. */
  readonly none?: string | ((row: Row) => string);
  /** Whether people see it for these rows; without, it is left out where no row has a value. */
  readonly isShown?: (rows: readonly Row[]) => boolean;
  readonly isMoney?: boolean;
}

/** A column of figures; with `heading`, one that people see. */
export function figures<Row>(
  name: string,
  heading: string | undefined,
  digits: number,
  of: (row: Row) => CsvValue,
  more: Pick<Column<Row>, 'text' | 'none' | 'isShown' | 'isMoney'> = {},
): Column<Row> {
  return { name, heading, digits, of, ...more };
}

/** A column of words; with `heading`, one that people see. */
export function words<Row>(
  name: string,
  heading: string | undefined,
  of: (row: Row) => CsvValue,
  more: Pick<Column<Row>, 'text' | 'none' | 'isShown'> = {},
): Column<Row> {
  return { name, heading, of, ...more };
}

/** A mean with its interval: three columns of a file, of which people see the mean. */
export function estimated<Row>(
  name: string,
  heading: string | undefined,
  digits: number,
  of: (row: Row) => { mean: number; ciLow: number | null; ciHigh: number | null } | null | undefined,
): Column<Row>[] {
  const [from, to] = heading === undefined ? [] : ['from', 'to'];
  return [
    figures(name, heading, digits, (row) => of(row)?.mean ?? null),
    figures(`${name}_low`, from, digits, (row) => of(row)?.ciLow ?? null),
    figures(`${name}_high`, to, digits, (row) => of(row)?.ciHigh ?? null),
  ];
}

/** The interval of a figure: two columns of a file, which people see as one. */
export function interval<Row>(
  name: string,
  of: (row: Row) => { ciLow: number | null; ciHigh: number | null } | null,
  more: Pick<Column<Row>, 'none'> = {},
): Column<Row>[] {
  const digits = 1;
  return [
    figures(`${name}_low`, '95% confidence', digits, (row) => of(row)?.ciLow ?? null, {
      text: (row) => {
        const { ciLow, ciHigh } = of(row)!;
        return `${numberText(ciLow!, digits)} to ${numberText(ciHigh!, digits)}`;
      },
      ...more,
    }),
    figures(`${name}_high`, undefined, digits, (row) => of(row)?.ciHigh ?? null),
  ];
}

/** As people read it. */
export function readTable<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): TableData {
  const shown = columns.filter((column) => isSeen(column, rows));
  return {
    columns: shown.map(({ heading, digits }) => ({
      heading: heading!,
      ...(digits === undefined ? {} : { align: 'right' as const }),
    })),
    rows: rows.map((row) => shown.map((column) => readCell(column, row))),
  };
}

/** The same with a column for each row: few rows of many figures. Figures that no row has are left out. */
export function readAcross<Row>(
  corner: string,
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  names: readonly string[],
): TableData {
  return {
    columns: [{ heading: corner }, ...names.map((heading) => ({ heading, align: 'right' as const }))],
    rows: columns
      .filter((column) => isSeen(column, rows))
      .map((column) => [column.heading!, ...rows.map((row) => readCell(column, row))]),
  };
}

function isSeen<Row>({ heading, isShown, of }: Column<Row>, rows: readonly Row[]): boolean {
  if (heading === undefined) return false;
  return isShown?.(rows) ?? (rows.length === 0 || rows.some((row) => of(row) !== null));
}

export function readCell<Row>({ of, text, digits = 0, none = '-' }: Column<Row>, row: Row): string {
  const value = of(row);
  if (value === null) return typeof none === 'string' ? none : none(row);
  if (text !== undefined) return text(row);
  if (typeof value === 'number') return numberText(value, digits);
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
}

/** Its names, then every row. */
export function fileRows<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): CsvValue[][] {
  return [columns.map(({ name }) => name), ...rows.map((row) => columns.map(({ of }) => of(row)))];
}

/** As a spreadsheet has it, unless it has no rows. */
export function fileTable<Row>(
  file: string,
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  more: Pick<ResultTable, 'chart'> = {},
): ResultTable[] {
  if (rows.length === 0) return [];
  const money = columns.filter(({ isMoney }) => isMoney).map(({ name }) => name);
  return [{ file, rows: fileRows(columns, rows), ...(money.length > 0 ? { money } : {}), ...more }];
}

/** A table of an answer: called, it is what people read; in a file it has its name, every column and every row. */
export interface DeclaredTable<Source> {
  (source: Source): TableData;
  readonly file: string;
  /** None where it has no rows. */
  readonly inFile: (source: Source) => ResultTable[];
}

/** @param columns the same for every answer, or by the answer */
export function declared<Source, Row>(
  file: string,
  columns: readonly Column<Row>[] | ((source: Source) => readonly Column<Row>[]),
  rowsOf: (source: Source) => readonly Row[],
  more: Pick<ResultTable, 'chart'> = {},
): DeclaredTable<Source> {
  const columnsOf = typeof columns === 'function' ? columns : () => columns;
  return Object.assign((source: Source) => readTable(columnsOf(source), rowsOf(source)), {
    file,
    inFile: (source: Source) => fileTable(file, columnsOf(source), rowsOf(source), more),
  });
}
