/** The list that the program keeps in a folder of results: which files it wrote there, and how they were then. */
import { createHash } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { join } from 'node:path';
import type { FileContent } from './write-files.js';

export const WRITTEN_LIST = 'written-by-roundsman.json';

const ABOUT =
  'Files that roundsman wrote into this folder. It writes over a file, or removes one of an earlier run, only where it is still as listed here.';

export interface WrittenList {
  /** The command whose run the folder holds; null where there is no list that can be read. */
  readonly command: string | null;
  /** SHA-256 by file name. */
  readonly files: ReadonlyMap<string, string>;
}

export function sha256(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

/** A list that is not there, was cut off or edited counts as none: then nothing is taken for the program's own. */
export async function readWrittenList(folder: string): Promise<WrittenList> {
  try {
    const { command, files } = JSON.parse(await fs.readFile(join(folder, WRITTEN_LIST), 'utf8'));
    const sums: [string, unknown][] = Object.entries(files);
    if (typeof command === 'string' && sums.every(isSum))
      return { command, files: new Map(sums.filter(isSum)) };
  } catch {
    // Not there, or no JSON of this shape.
  }
  return { command: null, files: new Map() };
}

function isSum(entry: [string, unknown]): entry is [string, string] {
  return typeof entry[1] === 'string' && /^[0-9a-f]{64}$/.test(entry[1]);
}

export function writtenListText(command: string, files: Readonly<Record<string, FileContent>>): string {
  const sums = Object.keys(files)
    .sort()
    .map((name) => [name, sha256(files[name]!)]);
  return `${JSON.stringify({ about: ABOUT, command, files: Object.fromEntries(sums) }, null, 1)}\n`;
}
