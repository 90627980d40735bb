/** Tables of results as the sheets of a workbook: numbers as numbers, with the unit that the name of the column tells. */
import type {
  CellContent,
  NumberFormat,
  Workbook,
  WorkbookChart,
  WorkbookSheet,
} from '../workbook/workbook.js';
import { columnLetters } from '../workbook/workbook.js';
import type { CsvValue } from './csv.js';

export interface ResultTable {
  /** Name of its CSV file. */
  readonly file: string;
  /** The headings first. */
  readonly rows: readonly (readonly CsvValue[])[];
}

/** Endings of column names, with the unit that they stand for. */
const UNITS: Readonly<Record<string, string>> = { s: 's', min: 'min', h: 'h', pct: '%' };

/** A rate is no number of hours: its name says so. */
const IS_RATE = /_per_\w+$/;

/**
 * @param sentences the answer, on the first sheet
 * @param tables one sheet each, named as its file
 */
export function tablesBook(
  title: string,
  sentences: readonly string[],
  tables: readonly ResultTable[],
): Workbook {
  const answer: WorkbookSheet = {
    name: 'answer',
    widths: [110],
    rows: [
      [{ value: title, look: 'title' }],
      ...sentences.map((text): CellContent[] => [{ value: text, look: 'wrapped' }]),
    ],
  };
  return { title, sheets: [answer, ...tables.map(tableSheet)] };
}

function tableSheet({ file, rows: [head = [], ...rows] }: ResultTable): WorkbookSheet {
  const formats = head.map((name, c) =>
    formatOf(
      String(name),
      rows.map((row) => row[c] ?? null),
    ),
  );
  const name = file.replace(/\.csv$/, '');
  return {
    name,
    frozenRows: 1,
    widths: head.map((heading, c) =>
      widthOf(
        String(heading),
        rows.map((row) => row[c] ?? null),
      ),
    ),
    rows: [
      head.map((heading): CellContent => ({ value: heading, look: 'heading' })),
      ...rows.map((row) => row.map((value, c) => contentOf(value, formats[c]))),
    ],
    charts: chartOf(name, head.map(String), rows.length),
  };
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

/** Tables that are worth a picture: the columns that are drawn, by name. */
const CHARTS: Readonly<
  Record<
    string,
    {
      readonly kind: WorkbookChart['kind'];
      readonly title: string;
      readonly of: string;
      readonly values: readonly string[] | 'all others';
    }
  >
> = {
  size: {
    kind: 'line',
    title: 'Parts an hour by number of machines',
    of: 'machines',
    values: ['parts_per_h'],
  },
  patterns: {
    kind: 'column',
    title: 'Good parts a week by shift pattern',
    of: 'pattern',
    values: ['good_parts_per_week'],
  },
  'cash-flow': { kind: 'column', title: 'Cash flow by year', of: 'year', values: 'all others' },
};

/** Drawn beside the table; .ods files are written without. */
function chartOf(name: string, head: readonly string[], rows: number): WorkbookChart[] {
  const chart = CHARTS[name];
  if (chart === undefined || rows === 0) return [];
  const range = (c: number): string => `${columnLetters(c)}2:${columnLetters(c)}${rows + 1}`;
  const drawn = head.flatMap((heading, c) => {
    const isDrawn = chart.values === 'all others' ? heading !== chart.of : chart.values.includes(heading);
    return isDrawn ? [{ name: heading, values: range(c) }] : [];
  });
  const of = head.indexOf(chart.of);
  if (of < 0 || drawn.length === 0) return [];
  const place = { row: rows + 3, column: 0 };
  return [{ kind: chart.kind, title: chart.title, categories: range(of), series: drawn, ...place }];
}
