/** Writes measured values as tables into a folder of their own, which builds on that of the cell. */
import { existsSync, readFileSync } from 'node:fs';
import { basename, join, relative, resolve } from 'node:path';
import { writeFiles } from '../files/write-files.js';
import { paragraph } from '../render/paragraph.js';
import { tableText } from '../tables/table-text.js';
import type { Answer } from './answer.js';
import { EXIT } from './exit-codes.js';
import type { Io } from './io.js';

export interface MeasuredFolder {
  /** Folder to write, as the user gave it. */
  readonly out: string;
  /** First words of every file written; what begins otherwise is somebody's own and stays. */
  readonly mark: string;
  /** What the values come from. */
  readonly source: string;
  /** Folder of the cell, as the user gave it; null where there is none. */
  readonly base: string | null;
  readonly files: Readonly<Record<string, string>>;
}

/** @returns paths as shown; null where a file of somebody's own stands in the way */
export async function writeMeasuredFolder(to: MeasuredFolder, io: Io): Promise<string[] | null> {
  const folder = resolve(io.cwd, to.out);
  const head = `${to.mark} from ${to.source}.\n`;
  const base = to.base === null ? {} : { 'base.csv': baseText(folder, resolve(io.cwd, to.base)) };
  const files = Object.entries({ ...to.files, ...base }).map(
    ([name, text]) => [name, `${head}${text}`] as const,
  );
  const isForeign = (name: string): boolean => {
    const path = join(folder, name);
    return existsSync(path) && !readFileSync(path, 'utf8').startsWith(to.mark);
  };
  if (files.some(([name]) => isForeign(name))) return null;
  const paths = await writeFiles(folder, Object.fromEntries(files));
  return paths.map((path) => join(to.out, basename(path)));
}

/** The end of a command that would have had to write over somebody's own tables. */
export function foreignFolderAnswer(out: string): Answer {
  const reason = `The folder \`${out}\` holds tables of its own. Nothing was written, so that nothing is lost. Name another folder.`;
  return {
    exit: EXIT.wrongInput,
    fields: { status: 'refused', reason },
    text: (style) => `${paragraph(reason, style.columns)}\n`,
    inputs: [],
  };
}

function baseText(from: string, base: string): string {
  const path = (relative(from, base) || '.').replaceAll('\\', '/');
  return tableText([['folder'], [path]]);
}
