/** Writes files so that a reader sees the old text or the new one, never a half-written one. */
import { randomUUID } from 'node:crypto';
import { closeSync, promises as fs, mkdirSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { systemReason } from './system-reason.js';
import { WriteError } from './write-error.js';

/**
 * Writes under a temporary name in the same folder, then renames. The folder is made where it is missing.
 * @throws WriteError where the system refuses; the old file is then as it was and nothing is left beside it
 */
export async function writeAtomically(path: string, text: string): Promise<void> {
  const temporary = temporaryName(path);
  try {
    await fs.mkdir(dirname(path), { recursive: true });
    await fs.writeFile(temporary, text, { encoding: 'utf8', flag: 'wx' });
    await fs.rename(temporary, path);
  } catch (error) {
    await fs.rm(temporary, { force: true }).catch(() => undefined);
    throw new WriteError(path, systemReason(error).text);
  }
}

/**
 * Writes a file piece by piece, for texts that are too long to hold; it takes its name when all of it is there.
 *
 * @param work is given the function that writes a piece
 * @throws WriteError where the system refuses; the old file is then as it was and nothing is left beside it
 */
export function writePieces<T>(path: string, work: (write: (text: string) => void) => T): T {
  const temporary = temporaryName(path);
  let file = -1;
  const guarded = <R>(act: () => R): R => {
    try {
      return act();
    } catch (error) {
      throw new WriteError(path, systemReason(error).text);
    }
  };
  try {
    file = guarded(() => {
      mkdirSync(dirname(path), { recursive: true });
      return openSync(temporary, 'wx');
    });
    const result = work((text) => guarded(() => writeFileSync(file, text)));
    guarded(() => closeSync(file));
    file = -1;
    guarded(() => renameSync(temporary, path));
    return result;
  } finally {
    if (file >= 0) closeSync(file);
    rmSync(temporary, { force: true });
  }
}

/**
 * Writes several files into one folder, one after another in the order of their names.
 * @param files texts by file name; a name must not lead out of the folder
 * @returns the paths written
 * @throws WriteError at the first that the system refuses; RangeError for a name that is not a plain file name
 */
export async function writeFiles(folder: string, files: Readonly<Record<string, string>>): Promise<string[]> {
  const names = Object.keys(files).sort();
  for (const name of names) checkName(name);
  const paths: string[] = [];
  for (const name of names) {
    const path = join(folder, name);
    await writeAtomically(path, files[name]!);
    paths.push(path);
  }
  return paths;
}

function temporaryName(path: string): string {
  return join(dirname(path), `.${basename(path)}.${randomUUID()}.tmp`);
}

function checkName(name: string): void {
  if (name === '' || name === '.' || name === '..' || /[/\\\0]/.test(name))
    throw new RangeError(`\`${name}\` is not a plain file name`);
}
