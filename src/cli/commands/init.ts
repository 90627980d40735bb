/** `init`: writes a filled-in starter folder whose comments explain every column. */
import { existsSync, promises as fs } from 'node:fs';
import { resolve } from 'node:path';
import { writeFiles } from '../../files/write-files.js';
import { paragraph } from '../../render/paragraph.js';
import { withColumnComments } from '../../render/table-comments.js';
import { besideFormats, tableFormats } from '../../tables/table-formats.js';
import type { Answer } from '../answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { packagePath } from '../package-path.js';

export const initCommand: CommandBody = {
  argument: 'folder to write; it is made where it is missing',
  options: () => [],
  examples: ['init my-cell'],
  run: async (given, _values, io) => {
    const folder = resolve(io.cwd, given!);
    const files = await starterFiles();
    const there = Object.keys(files).filter((name) => existsSync(resolve(folder, name)));
    if (there.length > 0) return refusal(given!, there);
    await writeFiles(folder, files);
    return written(given!, Object.keys(files));
  },
};

/** The tables of the starter cell with comments on their columns, by file name. */
export async function starterFiles(): Promise<Record<string, string>> {
  const entries = await Promise.all(
    [...tableFormats, ...besideFormats].map(async (format) => {
      const rows = await fs.readFile(packagePath(`data/starter/${format.file}`), 'utf8');
      return [format.file, withColumnComments(format, rows)] as const;
    }),
  );
  return Object.fromEntries(entries);
}

function refusal(folder: string, files: readonly string[]): Answer {
  const text = `The folder \`${folder}\` already holds ${files.map((file) => `\`${file}\``).join(', ')}. Nothing was written, so that nothing is lost. Name another folder, or move ${files.length === 1 ? 'this file' : 'these files'} away first.`;
  return {
    exit: EXIT.wrongInput,
    fields: { status: 'refused', folder, existing: files },
    text: (style) => `${paragraph(text, style.columns)}\n`,
    inputs: [],
  };
}

function written(folder: string, files: readonly string[]): Answer {
  const path = /\s/.test(folder) ? `"${folder}"` : folder;
  const text = `Wrote ${tableFormats.length} tables into \`${folder}\`, with examples of stopwatch readings (readings.csv) and of a log of signals (log.csv). Lines that begin with # explain the columns; change the figures to yours, and take out the tables that you do not need (only stations.csv, routes.csv and robot.csv must be there).`;
  return {
    exit: EXIT.done,
    fields: { status: 'written', folder, files },
    text: (style) =>
      `${paragraph(text, style.columns)}\n\nThen run:\n  roundsman check ${path}\n  roundsman schedule ${path}\n`,
    inputs: [],
  };
}
