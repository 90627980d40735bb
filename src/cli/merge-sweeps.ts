/** Puts the parts of a sweep together again: the same file as if it had run in one go. */
import { promises as fs } from 'node:fs';
import { resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import { systemReason } from '../files/system-reason.js';
import { SWEEP_COMMENT } from '../render/sweep.js';
import { delimiterOf } from '../tables/read-sheet.js';
import { sealOf } from '../tables/seal.js';
import { UsageError } from './usage-error.js';

interface ShardFile {
  readonly file: string;
  readonly comment: string;
  readonly header: string;
  readonly points: number;
  readonly lines: ReadonlyMap<number, string>;
}

/** @throws UsageError where the files are not the shards of one sweep, or some points are missing or there twice */
export async function mergeSweeps(
  cwd: string,
  files: readonly string[],
): Promise<{ text: string; points: number }> {
  const shards = await Promise.all(files.map((file) => readShard(cwd, file)));
  const [first] = shards;
  if (first === undefined) throw new UsageError('`--merge` needs the files of the parts; none is given.');
  for (const shard of shards)
    if (shard.comment !== first.comment || shard.header !== first.header)
      throw new UsageError(
        `\`${shard.file}\` is of another sweep than \`${first.file}\`: tables, inputs, figures or the program differ.`,
      );
  const lines = new Map<number, string>();
  for (const shard of shards)
    for (const [number, line] of shard.lines) {
      if (lines.has(number))
        throw new UsageError(
          `Point ${number} is in \`${shard.file}\` and in another file too; give each part once.`,
        );
      lines.set(number, line);
    }
  const numbers = Array.from({ length: first.points }, (_, i) => i + 1);
  const missing = numbers.filter((n) => !lines.has(n));
  if (missing.length > 0) throw new UsageError(missingText(missing, first.points));
  const text = [first.comment, first.header, ...numbers.map((n) => lines.get(n)!)].join('\n');
  return { text: `${text}\n`, points: first.points };
}

function missingText(missing: readonly number[], points: number): string {
  const shown = missing.slice(0, 8).join(', ');
  const more = missing.length > 8 ? ' and so on' : '';
  return `${missing.length} of ${points} points are missing (${shown}${more}); a part is not given or did not end.`;
}

async function readShard(cwd: string, file: string): Promise<ShardFile> {
  const text = await textOf(cwd, file);
  const [comment = '', header = '', ...lines] = text
    .replace(/\r\n/g, '\n')
    .split('\n')
    .filter((l) => l !== '' && sealOf(l) === null);
  const mark = SWEEP_COMMENT.exec(comment);
  if (!mark)
    throw new UsageError(
      `\`${file}\` is not written by \`sweep --out\`: its first line does not mark a sweep.`,
    );
  const delimiter = delimiterOf(header) ?? ',';
  const columns = columnsOf(header, delimiter);
  const byNumber = new Map<number, string>();
  for (const line of lines) {
    const number = Number(/^\d+/.exec(line)?.[0]);
    if (!(number >= 1 && number <= Number(mark[2])) || columnsOf(line, delimiter) !== columns)
      throw new UsageError(
        `\`${file}\` holds a line that is no point of its sweep: \`${line.slice(0, 60)}\`. It may have been cut off or edited; run that part again.`,
      );
    if (byNumber.has(number)) throw new UsageError(`\`${file}\` holds point ${number} twice.`);
    byNumber.set(number, line);
  }
  return { file, comment, header, points: Number(mark[2]), lines: byNumber };
}

function columnsOf(line: string, delimiter: string): number {
  const rows: string[][] = parse(line, { delimiter, relax_quotes: true, relax_column_count: true });
  return rows[0]?.length ?? 0;
}

/** Far above the points of any sweep with all their figures. */
const MOST_BYTES = 256 * 1024 * 1024;

async function textOf(cwd: string, file: string): Promise<string> {
  try {
    const stat = await fs.stat(resolve(cwd, file));
    if (!stat.isFile()) throw new UsageError(`\`${file}\` is not an ordinary file.`);
    if (stat.size > MOST_BYTES)
      throw new UsageError(
        `\`${file}\` is larger than ${MOST_BYTES / 1024 ** 2} MiB, so it is not written by \`sweep --out\`.`,
      );
    return await fs.readFile(resolve(cwd, file), 'utf8');
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`\`${file}\` cannot be read: ${systemReason(error).text}.`);
  }
}
