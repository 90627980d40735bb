/** Several folders read one after another: all complaints together, inputs and changes named with their folders. */
import { basename, join, resolve } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import type { CsvForm } from '../core/model/csv-form.js';
import { readCellFolder } from '../files/read-cell-folder.js';
import { complaintLines } from '../render/complaint-lines.js';
import type { FolderChanges } from '../render/result-tables/comparison-tables.js';
import { csvFormOf } from '../tables/csv-form-of.js';
import { applySettings } from '../tables/overrides/apply-settings.js';
import { notesOf } from '../tables/overrides/merge-base.js';
import { tableChanges } from '../tables/overrides/table-changes.js';
import { workbookKind } from '../workbook/workbook.js';
import type { Answer } from './answer.js';
import type { Io } from './io.js';
import { UsageError } from './usage-error.js';
import { wrongInput } from './wrong-input.js';

export type ReadFolder = Awaited<ReturnType<typeof readCellFolder>> & {
  /** As it was given. */
  readonly folder: string;
  /** In texts: its last part, where that sets the folders apart. */
  readonly name: string;
};

/** @throws UsageError for a name that is given twice */
export function checkTwice(names: readonly string[]): void {
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) throw new UsageError(`\`${twice}\` is given twice; give each once.`);
}

/** The form of the tables of the first folder. */
export function csvFormIn(read: readonly ReadFolder[]): CsvForm {
  return csvFormOf(Object.values(read[0]?.layers?.tables ?? {}));
}

export async function readFolders(folders: readonly string[], io: Io): Promise<ReadFolder[]> {
  const read: ReadFolder[] = [];
  const short = folders.map((folder) => basename(resolve(io.cwd, folder)));
  for (const [k, folder] of folders.entries()) {
    const name = new Set(short).size === short.length ? short[k]! : folder;
    read.push({ folder, name, ...(await readCellFolder(resolve(io.cwd, folder), io.settings)) });
  }
  return read;
}

/** Complaints of all folders, each with its folder before the file; null where every folder holds a sound cell. */
export function wrongAnswer(read: readonly ReadFolder[]): Answer | null {
  const wrong = read.filter((r) => r.cell === null);
  if (wrong.length === 0) return null;
  const complaints = wrong.flatMap(({ folder, complaints: of }) =>
    of.map((c) => (read.length === 1 ? c : { ...c, file: fileOf(folder, c) })),
  );
  return wrongInput(eachOnce(complaints), inputsOf(read));
}

/** The command line is one for all folders, and a folder that is not there has no files. */
function fileOf(folder: string, { file, code }: Complaint): string {
  if (file === 'command line') return file;
  const isWhole = /^FIL0[1-4]$/.test(code) || workbookKind(file) !== null;
  return isWhole && file === basename(folder) ? folder : join(folder, file);
}

/** What is wrong with the command line is found in every folder anew, and told once. */
function eachOnce(complaints: readonly Complaint[]): Complaint[] {
  const told = new Set<string>();
  return complaints.filter((complaint) => {
    const key = JSON.stringify(complaint);
    return !told.has(key) && told.add(key);
  });
}

/** What was changed and which folders the cells build on, by the name of each folder. */
export function folderNotes(read: readonly ReadFolder[]): string[] {
  const all = read.flatMap(({ folder, notes }) => (read.length === 1 ? notes : notesOf(folder, notes)));
  return [...new Set(all)];
}

/** Files read, with their folder before the name where there are several. */
export function inputsOf(read: readonly ReadFolder[]): Answer['inputs'] {
  if (read.length === 1) return read[0]!.inputs;
  return read.flatMap(({ folder, inputs }) => inputs.map((i) => ({ ...i, file: fileIn(folder, i.file) })));
}

/** A workbook is its own file. */
function fileIn(folder: string, file: string): string {
  return workbookKind(file) !== null && file === basename(folder) ? folder : `${folder}/${file}`;
}

function lineIn(folder: string, line: string): string {
  const name = basename(folder);
  return workbookKind(name) !== null && line.startsWith(name)
    ? `${folder}${line.slice(name.length)}`
    : `${folder}/${line}`;
}

/** What the reader of the tables had to say, with the folder before it where there are several. */
export function tableWarnings(read: readonly ReadFolder[]): string[] {
  return read.flatMap(({ folder, complaints }) =>
    complaintLines(complaints).map((line) => (read.length === 1 ? line : lineIn(folder, line))),
  );
}

/** What every other folder changes against the first. */
export function changesOf(read: readonly ReadFolder[], settings: readonly string[]): FolderChanges[] {
  const tables = read.map(({ layers }) => applySettings(layers!, settings).tables);
  return read.slice(1).map(({ name }, i) => ({
    a: read[0]!.name,
    b: name,
    changes: tableChanges(tables[0]!, tables[i + 1]!),
  }));
}
