/** A sweep as text and as CSV. */
import type { CsvForm } from '../core/model/csv-form.js';
import type { Figure } from '../core/sweep/result-figure.js';
import type { Workbook } from '../workbook/workbook.js';
import { type Column, figures, fileRows, readTable, words } from './columns.js';
import { type CsvValue, csvText } from './csv.js';
import { figureName } from './figure-names.js';
import { countText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { ResultTable } from './result-tables/result-table.js';
import { tablesBook } from './tables-book.js';
import type { TextStyle } from './text-style.js';
import { printTable, textTable } from './text-table.js';

export interface SweepTable {
  /** Paths of the inputs. */
  readonly paths: readonly string[];
  /** Paths of the figures. */
  readonly figures: readonly string[];
  readonly rows: readonly SweepRow[];
  /** Points of the whole sweep, of which a shard has some. */
  readonly points: number;
  /** Tells sweeps apart: the same for all shards of one. */
  readonly mark: string;
}

export interface SweepRow {
  readonly number: number;
  readonly values: readonly string[];
  readonly status: string;
  readonly figures: readonly Figure[];
}

/** Rows shown on a screen; all are in the CSV. */
const MOST_ROWS = 60;
const MOST_COLUMNS = 9;

export const SWEEP_COMMENT = /^# sweep ([0-9a-f]{64}), (\d+) points$/;

function markText({ mark, points }: SweepTable): string {
  return `# sweep ${mark}, ${points} points`;
}

/** The first line marks the sweep, so that parts of different ones are not mixed. */
export function sweepCsv(table: SweepTable, form: CsvForm): string {
  return `${markText(table)}\n${csvText(sweepRows(table), 6, form)}`;
}

/** Sheet of the points. */
export const POINTS_SHEET = 'points';

/** The answer and all points as the sheets of a workbook. */
export function sweepBook(table: SweepTable): Workbook {
  const title = `Sweep over ${table.paths.join(' and ')}`;
  const sentences = [
    sweepText(table),
    'The mark of this sweep, by which --merge knows its parts:',
    markText(table),
  ];
  return tablesBook(title, sentences, [
    { file: `${POINTS_SHEET}.csv`, rows: sweepRows(table), ...chartOf(table) },
  ]);
}

/** The first figure against one input; its points lie in order. */
function chartOf({ paths, figures: named, rows }: SweepTable): Pick<ResultTable, 'chart'> {
  const [input, figure] = [paths[0]!, named[0]!];
  if (paths.length > 1 || !rows.every((row) => typeof row.figures[0] === 'number')) return {};
  return { chart: { kind: 'line', title: `${figureName(figure)} by ${input}`, of: input, values: [figure] } };
}

/** All points, the headings first. */
function sweepRows(table: SweepTable): CsvValue[][] {
  return fileRows(sweepColumns(table), table.rows);
}

/** The inputs, how the search ended, the figures; a path is broken at its points, a figure has its name. */
function sweepColumns({ paths, figures: named }: SweepTable): Column<SweepRow>[] {
  const heading = (path: string) => figureName(path).replace(/\.(?=\S)/g, '.\n');
  const always = () => true;
  return [
    figures('point', undefined, 0, (row) => row.number),
    ...paths.map((path, k) =>
      figures<SweepRow>(path, heading(path), 0, (row) => asFigure(row.values[k]!), {
        text: (row) => row.values[k]!,
      }),
    ),
    words('status', 'status', (row) => row.status),
    ...named.map((path, k) =>
      figures<SweepRow>(path, heading(path), 2, (row) => row.figures[k]!, {
        isShown: always,
        text: (row) => figureText(row.figures[k]!),
      }),
    ),
  ];
}

/** A value as it was typed is a figure for a spreadsheet where it reads as one. */
function asFigure(text: string): CsvValue {
  return /^-?\d+(\.\d{1,6})?$/.test(text) ? Number(text) : text;
}

export function renderSweep(table: SweepTable, style: TextStyle): string {
  return `${paragraph(sweepText(table), style.columns)}\n\n${isGrid(table) ? grid(table, style) : list(table, style)}\n`;
}

function sweepText(table: SweepTable): string {
  const first = figureName(table.figures[0]!);
  const known = table.rows.filter((row) => typeof row.figures[0] === 'number');
  const isWhole = table.rows.length === table.points;
  const count = `${isWhole ? '' : `${numberText(table.rows.length)} of `}${countText(table.points, 'point')}`;
  if (table.rows.length === 0)
    return `${count}: there are more parts than points, and none is left for this one.`;
  if (known.length === 0) return `${count}; none has a number for ${first}.`;
  const by = (sign: number) =>
    known.reduce((a, b) => (sign * Number(b.figures[0]) > sign * Number(a.figures[0]) ? b : a));
  const at = (row: SweepRow) => table.paths.map((path, i) => `${path} ${row.values[i]}`).join(', ');
  const [most, least] = [by(1), by(-1)];
  const lacking = table.rows.filter(
    (row) => row.status === 'infeasible' || row.status === 'undecided',
  ).length;
  const lacks = lacking === 0 ? '' : ` ${numberText(lacking)} without a sequence.`;
  const stopped = table.rows.filter((row) => row.status === 'best found').length;
  const gaps =
    stopped === 0
      ? ''
      : ` At ${numberText(stopped)} of them the search stopped at its limit: differences within the gap may come from that.`;
  const figure = (row: SweepRow) => figureText(row.figures[0]!);
  const said =
    most.figures[0] === least.figures[0] && known.length > 1
      ? `${first}: ${figure(most)} at all ${isWhole && known.length === table.points ? count : `that have it; ${count}`}`
      : `${first}: highest ${figure(most)} at ${at(most)}, lowest ${figure(least)} at ${at(least)}; ${count}`;
  return `${said}.${lacks}${gaps}`;
}

/** Two inputs of which the second has few values, and all points. */
function isGrid(table: SweepTable): boolean {
  const across = new Set(table.rows.map((row) => row.values[1])).size;
  return table.paths.length === 2 && across <= MOST_COLUMNS && table.rows.length === table.points;
}

function grid(table: SweepTable, style: TextStyle): string {
  const down = [...new Set(table.rows.map((row) => row.values[0]!))];
  const across = [...new Set(table.rows.map((row) => row.values[1]!))];
  const shown = down.slice(0, MOST_ROWS);
  return table.figures
    .map((figure, f) => {
      const columns = [{ heading: '' }, ...across.map((heading) => ({ heading, align: 'right' as const }))];
      const rows = shown.map((value, i) => [
        value,
        ...across.map((_, j) => figureText(table.rows[i * across.length + j]!.figures[f]!)),
      ]);
      const title = `${figureName(figure)}: ${table.paths[0]} downwards, ${table.paths[1]} to the right`;
      return `${paragraph(title, style.columns)}\n${textTable(columns, rows, style)}`;
    })
    .concat(down.length > shown.length ? [cutText(down.length - shown.length)] : [])
    .join('\n\n');
}

function list(table: SweepTable, style: TextStyle): string {
  const shown = table.rows.slice(0, MOST_ROWS);
  const text = printTable(readTable(sweepColumns(table), shown), style);
  return table.rows.length > shown.length ? `${text}\n${cutText(table.rows.length - shown.length)}` : text;
}

function cutText(rows: number): string {
  return `${numberText(rows)} more rows: \`--out file.csv\` writes them all.`;
}

function figureText(value: Figure): string {
  if (value === null) return '-';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? numberText(value, Number.isInteger(value) ? 0 : 2) : value;
}
