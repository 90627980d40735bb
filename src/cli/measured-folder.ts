/** Writes measured values as tables into a folder of their own, which builds on that of the cell. */
import { relative, resolve } from 'node:path';
import type { FileContent } from '../files/write-files.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { tableText } from '../tables/table-text.js';
import type { Io } from './io.js';
import { writeRun } from './outputs.js';

export interface MeasuredFolder {
  /** Folder to write, as the user gave it. */
  readonly out: string;
  /** Name of the command. */
  readonly command: 'log' | 'readings';
  /** What the values come from. */
  readonly source: string;
  /** Folder of the cell, as the user gave it; null where there is none. */
  readonly base: string | null;
  /** Folders and files that were read, absolute. */
  readonly inputs: readonly string[];
  readonly files: Readonly<Record<string, FileContent>>;
}

/** @returns paths as shown */
export function writeMeasuredFolder(to: MeasuredFolder, io: Io): Promise<string[]> {
  const head = `# Written by \`roundsman ${to.command}\` from ${to.source}.\n`;
  const base =
    to.base === null ? {} : { [BASE_FILE]: baseText(resolve(io.cwd, to.out), resolve(io.cwd, to.base)) };
  const files = Object.entries({ ...to.files, ...base }).map(([name, content]) => [
    name,
    typeof content === 'string' ? `${head}${content}` : content,
  ]);
  const { command, out, inputs } = to;
  return writeRun({ command, out, inputs, files: Object.fromEntries(files) }, io);
}

function baseText(from: string, base: string): string {
  const path = (relative(from, base) || '.').replaceAll('\\', '/');
  return tableText([['folder'], [path]]);
}
