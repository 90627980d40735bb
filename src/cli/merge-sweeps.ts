/** Puts the parts of a sweep together again: the same points as if it had run in one go. */
import { type CsvForm, PLAIN_CSV } from '../core/model/csv-form.js';
import type { Figure } from '../core/sweep/result-figure.js';
import type { SweepTable } from '../render/sweep.js';
import { readSweepPart, type SweepPart } from './read-sweep-part.js';
import { UsageError } from './usage-error.js';

export interface MergedSweep {
  readonly table: SweepTable;
  /** Form of the first CSV file among the parts. */
  readonly form: CsvForm;
}

/** @throws UsageError where the files are not the parts of one sweep, or some points are missing or there twice */
export async function mergeSweeps(cwd: string, files: readonly string[]): Promise<MergedSweep> {
  const parts = await Promise.all(files.map((file) => readSweepPart(cwd, file)));
  const [first] = parts;
  if (first === undefined) throw new UsageError('`--merge` needs the files of the parts; none is given.');
  for (const part of parts)
    if (part.mark !== first.mark || part.points !== first.points || !isSame(part.headings, first.headings))
      throw new UsageError(
        `\`${part.file}\` is of another sweep than \`${first.file}\`: tables, inputs, figures or the program differ.`,
      );
  const rows = rowsOf(parts);
  const numbers = Array.from({ length: first.points }, (_, i) => i + 1);
  const missing = numbers.filter((n) => !rows.has(n));
  if (missing.length > 0) throw new UsageError(missingText(missing, first.points));
  const form = parts.find((part) => part.form !== null)?.form ?? PLAIN_CSV;
  return { table: tableOf(first, numbers, rows), form };
}

function isSame(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((text, i) => text === b[i]);
}

function rowsOf(parts: readonly SweepPart[]): Map<number, readonly Figure[]> {
  const rows = new Map<number, readonly Figure[]>();
  for (const part of parts)
    for (const [number, cells] of part.rows) {
      if (rows.has(number))
        throw new UsageError(
          `Point ${number} is in \`${part.file}\` and in another file too; give each part once.`,
        );
      rows.set(number, cells);
    }
  return rows;
}

function tableOf(
  { headings, mark, points }: SweepPart,
  numbers: readonly number[],
  rows: ReadonlyMap<number, readonly Figure[]>,
): SweepTable {
  const inputs = headings.indexOf('status') - 1;
  return {
    paths: headings.slice(1, inputs + 1),
    figures: headings.slice(inputs + 2),
    points,
    mark,
    rows: numbers.map((number) => {
      const cells = rows.get(number)!;
      return {
        number,
        values: cells.slice(0, inputs).map(String),
        status: String(cells[inputs]),
        figures: cells.slice(inputs + 1),
      };
    }),
  };
}

function missingText(missing: readonly number[], points: number): string {
  const shown = missing.slice(0, 8).join(', ');
  const more = missing.length > 8 ? ' and so on' : '';
  return `${missing.length} of ${points} points are missing (${shown}${more}); a part is not given or did not end.`;
}
