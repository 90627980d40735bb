/** The folders that a cell was read from: its own, and those that it builds on. */
import { dirname, resolve } from 'node:path';
import type { InputFile } from '../files/read-table-file.js';

/** @param folder of the cell, absolute */
export function inputFolders(folder: string, inputs: readonly InputFile[]): string[] {
  return [...new Set([folder, ...inputs.map(({ file }) => dirname(resolve(folder, file)))])];
}
