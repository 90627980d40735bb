/** Stopwatch readings as tables: times, variation, readings needed and distributions, element by element. */
import type { ElementStudy, ReadingsOptions, ReadingsStudy } from '../../core/readings/study-readings.js';
import { FIGURES_FILE } from '../../tables/table-formats.js';
import { type Column, figures, fileRows, readTable, words } from '../columns.js';
import { numberText, secondsText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import type { ResultTable } from './result-table.js';

/** One row for each element. */
export function readingsTable({ elements }: ReadingsStudy): ResultTable {
  const all = [ELEMENT, COUNT, MEAN, ...INTERVAL, ...SPREAD, ...RATED, OUTLIERS, ...NEEDED, ...FIT];
  return { file: FIGURES_FILE, rows: fileRows(all, elements) };
}

/** @param hasTables whether the tables of a cell were given to hold them against */
export function timesTable(
  { elements }: ReadingsStudy,
  { confidencePct }: ReadingsOptions,
  hasTables: boolean,
): TableData {
  const [low, high] = INTERVAL;
  const interval = [{ ...low!, heading: `${confidencePct}%\ninterval` }, high!];
  const rated = RATED.filter(({ name }) => hasTables || name !== IN_TABLES);
  return readTable([ELEMENT, COUNT, MEAN, ...interval, ...rated], elements);
}

export function variationTable({ elements }: ReadingsStudy): TableData {
  return readTable([ELEMENT, ...SPREAD, OUTLIERS], elements);
}

export function neededTable({ elements }: ReadingsStudy): TableData {
  return readTable([ELEMENT, COUNT, ...NEEDED], elements);
}

/** Seconds with three figures or one digit after the point, whichever shows more. */
export function readingText(value: number): string {
  return numberText(value, Math.abs(value) < 10 ? 2 : 1);
}

type Of = (e: ElementStudy) => number | null;
type More = Pick<Column<ElementStudy>, 'isShown' | 'text'>;

function seconds(name: string, heading: string | undefined, of: Of, more: More = {}): Column<ElementStudy> {
  return figures(name, heading, 2, of, { text: (e) => readingText(of(e)!), ...more });
}

const always = () => true;

const ELEMENT = words<ElementStudy>('element', 'element', (e) => e.element);
const COUNT = figures<ElementStudy>('n', 'readings', 0, (e) => e.n);
const MEAN = seconds('mean_s', 'mean\ns', (e) => e.mean);
const INTERVAL = [
  seconds('ci_low_s', 'interval', (e) => e.ciLow, {
    isShown: always,
    text: ({ ciLow, ciHigh }) => `${readingText(ciLow!)} to ${readingText(ciHigh!)}`,
  }),
  seconds('ci_high_s', undefined, (e) => e.ciHigh),
];
const SPREAD = [
  seconds('sd_s', 'std.\ndev. s', (e) => e.sd, { isShown: always }),
  figures<ElementStudy>('cv_pct', 'of the\nmean %', 1, (e) => e.cvPct, { isShown: always }),
  seconds('min_s', 'lowest\ns', (e) => e.min),
  seconds('median_s', 'median\ns', (e) => e.median),
  seconds('max_s', 'highest\ns', (e) => e.max),
];
const IN_TABLES = 'table_s';
const RATED = [
  seconds('normal_s', 'normal\ns', (e) => e.normal.mean, { isShown: (rows) => rows.some((e) => e.isRated) }),
  seconds('standard_s', 'standard\ns', (e) => e.standardS),
  seconds(IN_TABLES, 'in the\ntables s', (e) => e.table?.tableS ?? null, { isShown: always }),
];
const OUTLIERS = figures<ElementStudy>('outliers', 'outliers', 0, (e) => e.outliers.length);
const NEEDED = [
  figures<ElementStudy>('needed_n', undefined, 0, (e) => e.neededN),
  figures<ElementStudy>('needed_by_t_n', 'needed', 0, (e) => e.neededNByStudent, { isShown: always }),
  figures<ElementStudy>('more_n', 'still\nto take', 0, (e) => e.moreN, { isShown: always }),
  figures<ElementStudy>('foreign', undefined, 0, (e) => e.foreign?.count ?? 0),
  words<ElementStudy>('trend', 'trend', (e) => e.trend?.direction ?? null, {
    isShown: always,
    text: trendText,
  }),
  figures<ElementStudy>('change_s', undefined, 2, (e) => e.trend?.changeS ?? null),
  figures<ElementStudy>('autocorrelation', undefined, 2, (e) => e.trend?.autocorrelation ?? null),
];
/** Read as sentences. */
const FIT = [
  words<ElementStudy>('distribution', undefined, (e) => e.fit.distribution),
  figures<ElementStudy>('fit_mean_s', undefined, 2, (e) => e.fit.mean),
  figures<ElementStudy>('fit_sd_s', undefined, 2, (e) => e.fit.sd),
];

function trendText({ trend }: ElementStudy): string {
  const { direction, changeS } = trend!;
  return direction === 'none' ? 'steady' : `${direction} ${secondsText(Math.abs(changeS))}`;
}
