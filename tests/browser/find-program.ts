// A browser's program: the one that a variable of the environment names, else the first of some names on the PATH.
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** @returns the path; null where there is none that can be run */
export function findProgram(named: string | undefined, names: readonly string[]): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const places = named ? [named] : names.flatMap((name) => folders.map((folder) => join(folder, name)));
  return places.find(canRun) ?? null;
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
