/** Several folders read one after another: all complaints together, inputs and changes named with their folders. */
import { resolve } from 'node:path';
import { readCellFolder } from '../files/read-cell-folder.js';
import type { FolderChanges } from '../render/comparison.js';
import { applySettings } from '../tables/overrides/apply-settings.js';
import { tableChanges } from '../tables/overrides/table-changes.js';
import type { Answer } from './answer.js';
import { complaintLines } from './cell-answer.js';
import type { Io } from './io.js';
import { UsageError } from './usage-error.js';
import { wrongInput } from './wrong-input.js';

export type ReadFolder = Awaited<ReturnType<typeof readCellFolder>> & { readonly folder: string };

/** @throws UsageError for a name that is given twice */
export function checkTwice(names: readonly string[]): void {
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) throw new UsageError(`\`${twice}\` is given twice; give each once.`);
}

export async function readFolders(folders: readonly string[], io: Io): Promise<ReadFolder[]> {
  const read: ReadFolder[] = [];
  for (const folder of folders)
    read.push({ folder, ...(await readCellFolder(resolve(io.cwd, folder), io.settings)) });
  return read;
}

/** Complaints of all folders, each with its folder before the file; null where every folder holds a sound cell. */
export function wrongAnswer(read: readonly ReadFolder[]): Answer | null {
  const wrong = read.filter((r) => r.cell === null);
  if (wrong.length === 0) return null;
  const complaints = wrong.flatMap(({ folder, complaints: of }) =>
    of.map((c) =>
      c.file === 'command line' || read.length === 1 ? c : { ...c, file: `${folder}/${c.file}` },
    ),
  );
  return wrongInput(complaints, inputsOf(read));
}

/** Files read, with their folder before the name where there are several. */
export function inputsOf(read: readonly ReadFolder[]): Answer['inputs'] {
  if (read.length === 1) return read[0]!.inputs;
  return read.flatMap(({ folder, inputs }) => inputs.map((i) => ({ ...i, file: `${folder}/${i.file}` })));
}

/** What the reader of the tables had to say, with the folder before it where there are several. */
export function tableWarnings(read: readonly ReadFolder[]): string[] {
  return read.flatMap(({ folder, complaints }) =>
    complaintLines(complaints).map((line) => (read.length === 1 ? line : `${folder}/${line}`)),
  );
}

/** What every other folder changes against the first. */
export function changesOf(read: readonly ReadFolder[], settings: readonly string[]): FolderChanges[] {
  const tables = read.map(({ layers }) => applySettings(layers!, settings).tables);
  return read.slice(1).map(({ folder }, i) => ({
    a: read[0]!.folder,
    b: folder,
    changes: tableChanges(tables[0]!, tables[i + 1]!),
  }));
}
