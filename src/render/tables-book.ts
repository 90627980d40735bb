/** Tables of results as the sheets of a workbook: numbers as numbers, with the unit that the name of the column tells. */
import {
  type CellContent,
  columnLetters,
  type NumberFormat,
  type Workbook,
  type WorkbookChart,
  type WorkbookSheet,
} from '../workbook/workbook.js';
import type { CsvValue } from './csv.js';
import type { ResultTable } from './result-tables/result-table.js';

/** Endings of column names, with the unit that they stand for. */
const UNITS: Readonly<Record<string, string>> = { s: 's', min: 'min', h: 'h', pct: '%' };

/** A rate is no number of hours: its name says so. */
const IS_RATE = /_per_\w+$/;

/**
 * @param sentences the answer, on the first sheet
 * @param tables one sheet each, named as its file
 * @param currency of the columns that hold money
 */
export function tablesBook(
  title: string,
  sentences: readonly string[],
  tables: readonly ResultTable[],
  currency = '',
): Workbook {
  const answer: WorkbookSheet = {
    name: 'answer',
    widths: [88],
    rows: [
      [{ value: title, look: 'title' }],
      ...sentences.map((text): CellContent[] => [{ value: text, look: 'wrapped' }]),
    ],
  };
  return { title, sheets: [answer, ...tables.map((table) => tableSheet(table, currency))] };
}

function tableSheet(table: ResultTable, currency: string): WorkbookSheet {
  const [head = [], ...rows] = table.rows;
  const columns = head.map((heading, c) => {
    const [name, values] = [String(heading), rows.map((row) => row[c] ?? null)];
    const isMoney = table.money?.includes(name) === true;
    const format = isMoney ? moneyFormat(currency) : formatOf(name, values);
    return { format, width: widthOf(name, values) };
  });
  return {
    name: table.file.replace(/\.csv$/, ''),
    frozenRows: 1,
    widths: columns.map(({ width }) => width),
    rows: [
      head.map((heading): CellContent => ({ value: heading, look: 'heading' })),
      ...rows.map((row) => row.map((value, c) => contentOf(value, columns[c]?.format))),
    ],
    charts: chartOf(table),
  };
}

function moneyFormat(currency: string): NumberFormat {
  return currency === '' ? { digits: 2 } : { digits: 2, unit: currency };
}

function contentOf(value: CsvValue, format: NumberFormat | undefined): CellContent {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' && format !== undefined ? { value, format } : value;
}

/** Whole numbers stay whole; others show two digits, as the cell holds them all. */
function formatOf(name: string, values: readonly CsvValue[]): NumberFormat {
  const numbers = values.filter((value) => typeof value === 'number');
  const unit = UNITS[name.split('_').at(-1) ?? ''];
  const digits = numbers.every(Number.isInteger) ? 0 : 2;
  return unit === undefined || !name.includes('_') || IS_RATE.test(name) ? { digits } : { digits, unit };
}

const LEAST_WIDTH = 8;
const MOST_WIDTH = 44;

function widthOf(heading: string, values: readonly CsvValue[]): number {
  const longest = Math.max(0, ...values.map((value) => (typeof value === 'string' ? value.length + 1 : 10)));
  return Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, heading.length + 2, longest));
}

/** A chart beside a table of few columns is in sight at once; one of many has it below. */
const FEW_COLUMNS = 9;

/** .ods files are written without. */
function chartOf({ chart, rows: [head = [], ...rows] }: ResultTable): WorkbookChart[] {
  if (chart === undefined || rows.length === 0) return [];
  const columnOf = (name: string): number => head.indexOf(name);
  const range = (c: number): string => `${columnLetters(c)}2:${columnLetters(c)}${rows.length + 1}`;
  const place =
    head.length <= FEW_COLUMNS ? { row: 1, column: head.length + 1 } : { row: rows.length + 3, column: 0 };
  const series = chart.values.map((name) => ({ name, values: range(columnOf(name)) }));
  // An axis cut off below would make small differences look large.
  const fromZero = chart.values.every((name) => rows.every((row) => !(Number(row[columnOf(name)]) < 0)));
  const { kind, title } = chart;
  return [{ kind, title, categories: range(columnOf(chart.of)), series, fromZero, ...place }];
}
