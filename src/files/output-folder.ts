/**
 * A folder of results holds one run of one command and nothing of it is written over that is not the program's own: no
 * table of a cell, no input, no file of somebody else's, none that was changed since.
 */

import { promises as fs } from 'node:fs';
import { join } from 'node:path';
import { listText } from '../core/model/list-text.js';
import { inBackticks } from '../tables/in-backticks.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { tableFiles } from '../tables/table-formats.js';
import { probeFolder } from './make-folder.js';
import { OutputRefused } from './output-refused.js';
import { type FileContent, writeSet } from './write-files.js';
import { readWrittenList, sha256, WRITTEN_LIST, writtenListText } from './written-list.js';

export interface OutputFolder {
  /** Absolute path. */
  readonly path: string;
  /** As the user gave it. */
  readonly shown: string;
  /** Name of the command whose run it is to hold. */
  readonly command: string;
  /** Folders and files that the run reads, absolute. */
  readonly inputs: readonly string[];
}

const TABLES: ReadonlySet<string> = new Set([...tableFiles, BASE_FILE]);
const NAMED = 5;

/**
 * Before the work: whether it could be written.
 * @param names of the files that may be written
 * @throws OutputRefused or WriteError where not
 */
export async function checkOutputFolder(to: OutputFolder, names: readonly string[]): Promise<void> {
  await planOf(to, names);
  await probeFolder(to.path);
}

/**
 * Writes all files of a run, whole or not at all, in place of those of the run before.
 * @param files texts by name
 * @returns the names written, sorted, without that of the list
 */
export async function writeOutputFolder(
  to: OutputFolder,
  files: Readonly<Record<string, FileContent>>,
): Promise<string[]> {
  const names = Object.keys(files).sort();
  const { stale } = await planOf(to, names);
  await writeSet(to.path, { ...files, [WRITTEN_LIST]: writtenListText(to.command, files) }, stale);
  return names;
}

/** @returns the files of the run before that this one does not write */
async function planOf(
  to: OutputFolder,
  names: readonly string[],
): Promise<{ readonly stale: readonly string[] }> {
  const there = await namesIn(to.path);
  if (there === null) return { stale: [] };
  const list = await readWrittenList(to.path);
  const tables = there.filter((name) => TABLES.has(name.toLowerCase()) && !list.files.has(name));
  if (tables.length > 0) throw new OutputRefused(cellText(to, tables));
  await refuseInputs(to, there);
  const changed: string[] = [];
  const own: string[] = [];
  for (const name of there) {
    const listed = list.files.get(name);
    if (listed === undefined) continue;
    if (listed === (await sumOf(join(to.path, name)))) own.push(name);
    else changed.push(name);
  }
  if (list.command !== null && list.command !== to.command && own.length > 0)
    throw new OutputRefused(otherRunText(to, list.command));
  if (changed.length > 0) throw new OutputRefused(changedText(to, changed));
  const ours = new Set([...own, WRITTEN_LIST]);
  const foreign = there.filter((name) => names.includes(name) && !ours.has(name));
  if (foreign.length > 0) throw new OutputRefused(foreignText(to, foreign));
  return { stale: own.filter((name) => !names.includes(name)) };
}

/** @param replaced names of files that would go, or be written over */
async function refuseInputs(
  { path, shown, inputs }: OutputFolder,
  replaced: readonly string[],
): Promise<void> {
  const real = (p: string) => fs.realpath(p).catch(() => p);
  const read = await Promise.all(inputs.map(real));
  const touched = await Promise.all([path, ...replaced.map((name) => join(path, name))].map(real));
  if (touched.some((p) => read.includes(p)))
    throw new OutputRefused(
      `This run reads ${inBackticks(shown)} or a file in it. ${NOTHING} Name another folder.`,
    );
}

/** null where there is no such folder; that it cannot be read is found out by the probe. */
async function namesIn(path: string): Promise<string[] | null> {
  try {
    return (await fs.readdir(path)).sort();
  } catch {
    return null;
  }
}

/** null for what is no ordinary file. */
async function sumOf(path: string): Promise<string | null> {
  if (!(await fs.lstat(path)).isFile()) return null;
  return sha256(await fs.readFile(path));
}

const NOTHING = 'Nothing was written, so that nothing is lost.';

function named(names: readonly string[]): string {
  const shown = names.slice(0, NAMED).map(inBackticks);
  const more = names.length - shown.length;
  return listText(more > 0 ? [...shown, `${more} more`] : shown);
}

function cellText({ shown }: OutputFolder, tables: readonly string[]): string {
  return `The folder ${inBackticks(shown)} holds tables of its own (${named(tables)}). ${NOTHING} Name another folder.`;
}

function otherRunText({ shown, command }: OutputFolder, other: string): string {
  return `The folder ${inBackticks(shown)} holds the files of \`${other}\`; one of \`${command}\` would mix with them. ${NOTHING} Name another folder, or delete this one first.`;
}

function changedText({ shown }: OutputFolder, changed: readonly string[]): string {
  const [were, them] = changed.length === 1 ? ['was', 'it'] : ['were', 'them'];
  return `In the folder ${inBackticks(shown)}, ${named(changed)} ${were} changed after roundsman wrote ${them}. ${NOTHING} Move ${them} away or name another folder.`;
}

function foreignText({ shown }: OutputFolder, foreign: readonly string[]): string {
  const [are, them] = foreign.length === 1 ? ['is', 'it'] : ['are', 'them'];
  return `In the folder ${inBackticks(shown)}, ${named(foreign)} ${are} there already, and not as roundsman wrote ${them}. ${NOTHING} Move ${them} away or name another folder.`;
}
