/** Reads the tables of a cell's folder from disk; whatever stands in the way becomes a complaint. */
import { type Dirent, promises as fs } from 'node:fs';
import { basename, join } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintCode } from '../tables/complaint-codes.js';
import { complain, type ReadAs } from '../tables/complaint-list.js';
import { isTableName } from '../tables/inspect-tables.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { tableFiles } from '../tables/table-formats.js';
import { workbookKind } from '../workbook/workbook.js';
import {
  type FolderRead,
  nothingRead,
  RIGHTS,
  readTableFile,
  type TableFileRead,
} from './read-table-file.js';
import { systemReason } from './system-reason.js';

/** @param path the folder, or a workbook in its place; never throws for what is wrong on disk */
export async function readFolder(path: string): Promise<FolderRead> {
  const kind = workbookKind(path);
  if (kind !== null && (await isFile(path))) {
    // What unpacks workbooks is loaded when one is there.
    const { readBook } = await import('./read-book.js');
    return readBook(path, kind, (file) => tableFiles.includes(file) || file === BASE_FILE);
  }
  const listing = await listFolder(path);
  if (!Array.isArray(listing)) return nothingRead(listing);
  const files = await Promise.all(listing.map((entry) => readEntry(path, entry)));
  return {
    tables: Object.fromEntries(files.flatMap((f) => (f.text === null ? [] : [[f.name, f.text]]))),
    complaints: files.flatMap((f) => f.complaint ?? []),
    inputs: files.flatMap((f) => f.input ?? []),
    readAs: files.flatMap(formNote),
    places: new Map(),
    unread: files.filter((f) => f.text === null).map((f) => f.name),
    isThere: true,
  };
}

async function isFile(path: string): Promise<boolean> {
  return fs.stat(path).then(
    (stat) => stat.isFile(),
    () => false,
  );
}

function formNote({ name, form }: TableFileRead): ReadAs[] {
  if (form === undefined) return [];
  return [{ file: name, line: null, column: null, found: 'a text that is not UTF-8', taken: form }];
}

/** The files of the folder that end in .csv, by name; or the complaint that says why there are none. */
async function listFolder(path: string): Promise<Dirent[] | Complaint> {
  const told = (code: ComplaintCode, text: string, help = CELL) =>
    complain(code, basename(path) || path, text, help);
  const shown = `\`${path}\``;
  try {
    if (!(await fs.stat(path)).isDirectory())
      return told('FIL02', `${shown} is a file, expected a folder or a workbook (.xlsx or .ods)`);
    const all = await fs.readdir(path, { withFileTypes: true });
    const entries = all.filter((entry) => isTableName(entry.name));
    if (entries.length > 0) return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
    return told('FIL04', `the folder ${shown} holds no file that ends in .csv`);
  } catch (error) {
    const { code, text } = systemReason(error);
    if (code === 'ENOENT')
      return told('FIL01', `there is no ${workbookKind(path) === null ? 'folder' : 'workbook'} ${shown}`);
    if (code === 'ENOTDIR') return told('FIL02', `${shown} leads through a file, expected a folder`);
    return told('FIL03', `the folder ${shown} cannot be read: ${text}`, RIGHTS);
  }
}

const CELL =
  'Name the folder that holds stations.csv, routes.csv and robot.csv, or the workbook with sheets of these names.';

async function readEntry(folder: string, { name }: Dirent): Promise<TableFileRead> {
  if (!tableFiles.includes(name) && name !== BASE_FILE) return { name, text: '' };
  return readTableFile(join(folder, name), name);
}
