/** Reads a file that `sweep --out` wrote, CSV or workbook, as the points that it holds. */
import { promises as fs } from 'node:fs';
import { resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { CsvForm } from '../core/model/csv-form.js';
import { unguarded } from '../core/model/formula-guard.js';
import type { Figure } from '../core/sweep/result-figure.js';
import { systemReason } from '../files/system-reason.js';
import { POINTS_SHEET, SWEEP_COMMENT } from '../render/sweep.js';
import { csvFormOf } from '../tables/csv-form-of.js';
import { sealOf } from '../tables/seal.js';
import { type Grid, type GridCell, WorkbookFault } from '../workbook/grid.js';
import { readGrids } from '../workbook/read-grids.js';
import { type WorkbookKind, workbookKind } from '../workbook/workbook.js';
import { UsageError } from './usage-error.js';

export interface SweepPart {
  readonly file: string;
  /** Tells sweeps apart. */
  readonly mark: string;
  /** Points of the whole sweep. */
  readonly points: number;
  /** Form of a CSV file; null for a workbook. */
  readonly form: CsvForm | null;
  readonly headings: readonly string[];
  /** The cells of each point after its number. */
  readonly rows: ReadonlyMap<number, readonly Figure[]>;
}

/** @throws UsageError where the file cannot be read, or is none of a sweep */
export async function readSweepPart(cwd: string, file: string): Promise<SweepPart> {
  const kind = workbookKind(file);
  const bytes = await bytesOf(cwd, file);
  return kind === null ? partOfText(file, bytes.toString('utf8')) : partOfBook(file, bytes, kind);
}

function partOfText(file: string, text: string): SweepPart {
  const [comment = '', ...lines] = text
    .replace(/\r\n/g, '\n')
    .split('\n')
    .filter((line) => line !== '' && sealOf(line) === null);
  const mark = markIn([comment]);
  if (mark === null)
    throw new UsageError(
      `\`${file}\` is not written by \`sweep --out\`: its first line does not mark a sweep.`,
    );
  const form = csvFormOf([lines.join('\n')]);
  const [header = '', ...points] = lines;
  const headings = cellsOf(header, form).map(unguarded);
  const rows = points.map((shown) => ({
    shown,
    cells: cellsOf(shown, form).map((cell) => figureOf(cell, form)),
  }));
  return { file, ...mark, form, headings, rows: numbered(file, mark.points, headings, rows) };
}

function cellsOf(line: string, { separator }: CsvForm): string[] {
  const rows: string[][] = parse(line, {
    delimiter: separator,
    relax_quotes: true,
    relax_column_count: true,
  });
  return rows[0] ?? [];
}

/** A figure is written in one way; every other text is a name. */
function figureOf(cell: string, { decimal }: CsvForm): Figure {
  if (cell === '') return null;
  const pointed = decimal === ',' ? cell.replace(',', '.') : cell;
  return String(Number(pointed)) === pointed ? Number(pointed) : unguarded(cell);
}

async function partOfBook(file: string, bytes: Buffer, kind: WorkbookKind): Promise<SweepPart> {
  const { grids } = await readGrids(bytes, kind, (name) => name === 'answer' || name === POINTS_SHEET).catch(
    (error: unknown) => {
      if (error instanceof WorkbookFault)
        throw new UsageError(`\`${file}\` cannot be read: ${error.message}. ${error.help}`);
      throw error;
    },
  );
  const rowsOf = (name: string): Figure[][] => gridRows(grids.find((grid) => grid.name === name));
  const mark = markIn(rowsOf('answer').flat().map(String));
  const [headings = [], ...points] = rowsOf(POINTS_SHEET);
  if (mark === null || headings.length === 0)
    throw new UsageError(
      `\`${file}\` is not written by \`sweep --out\`: its sheets do not hold the points of a sweep and its mark.`,
    );
  const headed = headings.map(String);
  const rows = points.map((cells) => ({
    cells: [...cells, ...Array<null>(Math.max(0, headed.length - cells.length)).fill(null)],
    shown: cells.join(', '),
  }));
  return { file, ...mark, form: null, headings: headed, rows: numbered(file, mark.points, headed, rows) };
}

function gridRows(grid: Grid | undefined): Figure[][] {
  return [...(grid?.rows.values() ?? [])].map((row) =>
    Array.from({ length: Math.max(-1, ...row.keys()) + 1 }, (_, c) => figureIn(row.get(c))),
  );
}

function figureIn(cell: GridCell | undefined): Figure {
  if (cell?.kind === 'number' || cell?.kind === 'boolean') return cell.value;
  return cell?.kind === 'text' ? cell.text : null;
}

function markIn(texts: readonly string[]): Pick<SweepPart, 'mark' | 'points'> | null {
  const found = texts.map((text) => SWEEP_COMMENT.exec(text)).find((match) => match !== null);
  return found === undefined ? null : { mark: found[1]!, points: Number(found[2]) };
}

function numbered(
  file: string,
  points: number,
  headings: readonly string[],
  rows: readonly { readonly cells: readonly Figure[]; readonly shown: string }[],
): Map<number, readonly Figure[]> {
  const byNumber = new Map<number, readonly Figure[]>();
  for (const { cells, shown } of rows) {
    const [number, ...rest] = cells;
    if (typeof number !== 'number' || !(number >= 1 && number <= points) || cells.length !== headings.length)
      throw new UsageError(
        `\`${file}\` holds a line that is no point of its sweep: \`${shown.slice(0, 60)}\`. It may have been cut off or edited; run that part again.`,
      );
    if (byNumber.has(number)) throw new UsageError(`\`${file}\` holds point ${number} twice.`);
    byNumber.set(number, rest);
  }
  return byNumber;
}

/** Far above the points of any sweep with all their figures. */
const MOST_BYTES = 256 * 1024 * 1024;

async function bytesOf(cwd: string, file: string): Promise<Buffer> {
  try {
    const stat = await fs.stat(resolve(cwd, file));
    if (!stat.isFile()) throw new UsageError(`\`${file}\` is not an ordinary file.`);
    if (stat.size > MOST_BYTES)
      throw new UsageError(
        `\`${file}\` is larger than ${MOST_BYTES / 1024 ** 2} MiB, so it is not written by \`sweep --out\`.`,
      );
    return await fs.readFile(resolve(cwd, file));
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`\`${file}\` cannot be read: ${systemReason(error).text}.`);
  }
}
