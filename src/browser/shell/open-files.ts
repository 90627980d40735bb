/** Files that the user opens, as a desk: a folder or single tables as CSV, a zip of them, or a workbook, which is left to the worker. */
import { unzipSync } from 'fflate';
import { decodedText } from '../../tables/decoded-text.js';
import { BASE_FILE } from '../../tables/overrides/base-table.js';
import { besideFiles, tableFiles } from '../../tables/table-formats.js';
import type { Desk } from '../state/desk.js';
import { deskInFolders } from './desk-folders.js';

export interface OpenedFile {
  /** With its folders, `/` between them. */
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** What was opened and what there is to say of it, or why nothing could be. */
export type Opened =
  | { readonly desk: Desk; readonly notes: readonly string[] }
  | { readonly book: OpenedFile }
  | { readonly refused: string };

const MOST_BYTES = 20_000_000;

/** @param kept the tables that single CSV files are added to */
export function openedDesk(files: readonly OpenedFile[], kept: Desk): Opened {
  if (files.reduce((sum, { bytes }) => sum + bytes.length, 0) > MOST_BYTES)
    return { refused: 'These files have more than 20 MB; a cell has less.' };
  const zip = files.find(({ path }) => /\.zip$/i.test(path));
  if (zip !== undefined) return fromZip(zip, kept);
  const book = files.find(({ path }) => /\.(xlsx|ods)$/i.test(path));
  if (book !== undefined) return { book };
  return fromTables(files, kept);
}

function fromZip({ path, bytes }: OpenedFile, kept: Desk): Opened {
  try {
    const within = Object.entries(
      unzipSync(bytes, { filter: ({ name, originalSize }) => isTable(name) && originalSize < MOST_BYTES }),
    );
    const name = baseName(path).replace(/\.zip$/i, '');
    // Tables at the top of a zip are those of a cell that is named as the zip.
    const files = within.map(([inner, content]) => ({ path: `${name}/${inner}`, bytes: content }));
    return fromTables(files, kept);
  } catch {
    return { refused: `${path} cannot be unpacked. Save it again as an ordinary zip without a password.` };
  }
}

function fromTables(files: readonly OpenedFile[], kept: Desk): Opened {
  const found = files.filter(({ path }) => isTable(path));
  if (found.length === 0)
    return {
      refused: `No table of a cell is among these files. Tables are named ${tableFiles.slice(0, 3).join(', ')} and so on.`,
    };
  const folders = new Map<string, Record<string, string>>();
  const notes: string[] = [];
  for (const { path, bytes } of found) {
    const folder = path.split('/').slice(0, -1).join('/');
    const { text, form } = decodedText(bytes);
    if (form !== null) notes.push(`${path} is read as ${form}.`);
    folders.set(folder, { ...folders.get(folder), [baseName(path)]: text });
  }
  const loose = folders.get('');
  if (loose !== undefined && folders.size === 1 && loose[BASE_FILE] === undefined)
    return { desk: { ...kept, tables: { ...kept.tables, ...loose } }, notes };
  const opened = deskInFolders(folders);
  return typeof opened === 'string' ? { refused: opened } : { desk: opened, notes };
}

function baseName(path: string): string {
  return path.split('/').at(-1)!;
}

function isTable(path: string): boolean {
  const name = baseName(path);
  return tableFiles.includes(name) || besideFiles.includes(name) || name === BASE_FILE;
}
