/** Writes files so that a reader sees the old ones or the new ones, never a half-written one, nor half of a set. */
import { randomUUID } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder, removeFolders } from './make-folder.js';
import { systemReason } from './system-reason.js';
import { removeTemporary, trackTemporary } from './temporary-paths.js';
import { WriteError } from './write-error.js';

/** A text, or the bytes of a workbook. */
export type FileContent = string | Uint8Array;

/**
 * Writes several files into one folder: all of them take their names when the last is on the disk.
 * @param files contents by file name; a name must not lead out of the folder
 * @returns the paths written
 * @throws WriteError where the system refuses: the folder is then as it was; RangeError for a name that is not a plain
 *   file name
 */
export async function writeFiles(
  folder: string,
  files: Readonly<Record<string, FileContent>>,
): Promise<string[]> {
  await writeSet(folder, files, []);
  return Object.keys(files)
    .sort()
    .map((name) => join(folder, name));
}

/** The same, and takes files away that the new ones replace. */
export async function writeSet(
  folder: string,
  files: Readonly<Record<string, FileContent>>,
  stale: readonly string[],
): Promise<void> {
  const names = Object.keys(files).sort();
  for (const name of [...names, ...stale]) checkName(name);
  const made = await makeFolder(folder);
  try {
    await withStage(folder, async (stage) => {
      for (const name of names)
        await writeSynced(join(folder, name), join(stage, `new-${name}`), files[name]!);
      await exchange(folder, stage, names, stale);
    });
  } catch (error) {
    await removeFolders(made);
    throw error;
  }
}

/**
 * Writes one file whole or not at all; the folder is made where it is missing.
 * @param write is given the temporary path, in the same folder, under which it has to write the file
 * @throws WriteError where the system refuses; the old file is then as it was and nothing is left beside it
 */
export async function replaceFile<T>(path: string, write: (temporary: string) => Promise<T>): Promise<T> {
  checkName(path.slice(dirname(path).length + 1));
  const made = await makeFolder(dirname(path));
  try {
    return await withStage(dirname(path), async (stage) => {
      const temporary = join(stage, 'new');
      const result = await write(temporary);
      await guarded(path, () => fs.rename(temporary, path));
      return result;
    });
  } catch (error) {
    await removeFolders(made);
    throw error;
  }
}

export function writeAtomically(path: string, text: FileContent): Promise<void> {
  return replaceFile(path, (temporary) => writeSynced(path, temporary, text));
}

/** A folder inside the folder for what is not in its place yet, and for what is to go. */
async function withStage<T>(folder: string, work: (stage: string) => Promise<T>): Promise<T> {
  const stage = join(folder, `.roundsman-${randomUUID()}.tmp`);
  trackTemporary(stage);
  try {
    await guarded(folder, () => fs.mkdir(stage));
    return await work(stage);
  } finally {
    removeTemporary(stage);
  }
}

/** Only when the text is on the disk it is known that there was room for it. */
async function writeSynced(path: string, temporary: string, text: FileContent): Promise<void> {
  await guarded(path, async () => {
    const file = await fs.open(temporary, 'wx');
    try {
      await file.writeFile(text, 'utf8');
      await file.sync();
    } finally {
      await file.close();
    }
  });
}

/** Old files go to the stage, new ones to their places; where one of these steps fails, all are taken back. */
async function exchange(
  folder: string,
  stage: string,
  names: readonly string[],
  stale: readonly string[],
): Promise<void> {
  const done: (readonly [from: string, to: string])[] = [];
  const move = async (from: string, to: string, path: string) => {
    await guarded(path, () => fs.rename(from, to));
    done.push([from, to]);
  };
  try {
    for (const name of [...stale, ...names]) {
      const path = join(folder, name);
      const there = await fs.lstat(path).catch(() => null);
      if (there?.isDirectory()) throw new WriteError(path, 'it is a folder');
      if (there !== null) await move(path, join(stage, `old-${name}`), path);
    }
    for (const name of names) await move(join(stage, `new-${name}`), join(folder, name), join(folder, name));
  } catch (error) {
    for (const [from, to] of done.reverse()) await fs.rename(to, from);
    throw error;
  }
}

async function guarded<T>(path: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw new WriteError(path, systemReason(error).text);
  }
}

function checkName(name: string): void {
  if (name === '' || name === '.' || name === '..' || /[/\\\0]/.test(name))
    throw new RangeError(`\`${name}\` is not a plain file name`);
}
