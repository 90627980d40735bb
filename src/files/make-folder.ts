/** Makes a folder step by step: Node's own way of making several at once never ends below some system folders. */

import { randomUUID } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { dirname, join } from 'node:path';
import { systemReason } from './system-reason.js';
import { letSignalsEnd, removeTemporary, trackTemporary } from './temporary-paths.js';
import { WriteError } from './write-error.js';

/**
 * @returns the folders made, the outermost first; none where it was there
 * @throws WriteError where the system refuses; nothing is left behind then
 */
export async function makeFolder(path: string): Promise<string[]> {
  const { lacking } = await nearestFolder(path);
  const made: string[] = [];
  try {
    for (const folder of lacking) {
      await fs.mkdir(folder);
      made.push(folder);
    }
    return made;
  } catch (error) {
    await removeFolders(made);
    throw new WriteError(path, systemReason(error).text);
  }
}

/** Removes folders that were made for nothing; one that holds something by now stays. */
export async function removeFolders(made: readonly string[]): Promise<void> {
  for (const folder of [...made].reverse()) await fs.rmdir(folder).catch(() => undefined);
}

/**
 * Finds out before the work whether a folder can be made and written into, by doing so at the nearest one that is there.
 * @throws WriteError where it cannot
 */
export async function probeFolder(path: string): Promise<void> {
  const { there } = await nearestFolder(path);
  const trial = join(there, `.roundsman-${randomUUID()}.tmp`);
  trackTemporary(trial);
  try {
    await fs.mkdir(trial).finally(() => removeTemporary(trial));
    await letSignalsEnd();
  } catch (error) {
    throw new WriteError(path, systemReason(error).text);
  }
}

/** The nearest folder above a path that is there, itself included, and those below it that are lacking. */
async function nearestFolder(path: string): Promise<{ there: string; lacking: string[] }> {
  const lacking: string[] = [];
  for (let there = path; ; there = dirname(there)) {
    try {
      if ((await fs.stat(there)).isDirectory()) return { there, lacking };
      throw new WriteError(path, 'a file is where the folder should be');
    } catch (error) {
      if (error instanceof WriteError) throw error;
      const { code, text } = systemReason(error);
      if (code !== 'ENOENT' && code !== 'ENOTDIR') throw new WriteError(path, text);
      if (dirname(there) === there) throw new WriteError(path, text);
      lacking.unshift(there);
    }
  }
}
