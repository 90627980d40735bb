/** Reads the tables of a cell's folder from disk; whatever stands in the way becomes a complaint. */
import { type Dirent, promises as fs } from 'node:fs';
import { basename, join } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import type { ReadAs } from '../tables/complaint-list.js';
import { isTableName } from '../tables/inspect-tables.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { tableFiles } from '../tables/table-formats.js';
import type { BookPlaces } from '../workbook/place-in-book.js';
import { workbookKind } from '../workbook/workbook.js';
import { complain, type InputFile, RIGHTS, readTableFile, type TableFileRead } from './read-table-file.js';
import { systemReason } from './system-reason.js';

export interface FolderRead {
  /** Texts of the known tables by name; other files that end in .csv are named with an empty text. */
  readonly tables: Readonly<Record<string, string>>;
  readonly complaints: readonly Complaint[];
  readonly inputs: readonly InputFile[];
  /** What was read as something else than it says. */
  readonly readAs: readonly ReadAs[];
  /** For a workbook, where each table stands in it. */
  readonly places: BookPlaces;
  /** Known tables that are in the folder and could not be read. */
  readonly unread: readonly string[];
  /** False where the folder itself could not be read: then nothing more is to be said about its tables. */
  readonly isThere: boolean;
}

const NO_PLACES: BookPlaces = new Map();

/** @param path the folder, or a workbook in its place; never throws for what is wrong on disk */
export async function readFolder(path: string): Promise<FolderRead> {
  const kind = workbookKind(path);
  if (kind !== null && (await isFile(path))) {
    // What unpacks workbooks is loaded when one is there.
    const { readBook } = await import('./read-book.js');
    const book = await readBook(path, kind, (file) => tableFiles.includes(file) || file === BASE_FILE);
    return { ...book, unread: [] };
  }
  const listing = await listFolder(path);
  if (!Array.isArray(listing))
    return {
      tables: {},
      complaints: [listing],
      inputs: [],
      readAs: [],
      places: NO_PLACES,
      unread: [],
      isThere: false,
    };
  const files = await Promise.all(listing.map((entry) => readEntry(path, entry)));
  return {
    tables: Object.fromEntries(files.flatMap((f) => (f.text === null ? [] : [[f.name, f.text]]))),
    complaints: files.flatMap((f) => f.complaint ?? []),
    inputs: files.flatMap((f) => f.input ?? []),
    readAs: files.flatMap(formNote),
    places: NO_PLACES,
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
  const name = basename(path) || path;
  try {
    if (!(await fs.stat(path)).isDirectory())
      return complain(
        'FIL02',
        name,
        `${shown(path)} is a file, expected a folder or a workbook (.xlsx or .ods)`,
        CELL,
      );
    const entries = (await fs.readdir(path, { withFileTypes: true })).filter((entry) =>
      isTableName(entry.name),
    );
    if (entries.length > 0) return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
    return complain('FIL04', name, `the folder ${shown(path)} holds no file that ends in .csv`, CELL);
  } catch (error) {
    const reason = systemReason(error);
    if (reason.code === 'ENOENT')
      return complain(
        'FIL01',
        name,
        `there is no ${workbookKind(path) === null ? 'folder' : 'workbook'} ${shown(path)}`,
        CELL,
      );
    if (reason.code === 'ENOTDIR')
      return complain('FIL02', name, `${shown(path)} leads through a file, expected a folder`, CELL);
    return complain('FIL03', name, `the folder ${shown(path)} cannot be read: ${reason.text}`, RIGHTS);
  }
}

const CELL =
  'Name the folder that holds stations.csv, routes.csv and robot.csv, or the workbook with sheets of these names.';

function shown(path: string): string {
  return `\`${path}\``;
}

async function readEntry(folder: string, { name }: Dirent): Promise<TableFileRead> {
  if (!tableFiles.includes(name) && name !== BASE_FILE) return { name, text: '' };
  return readTableFile(join(folder, name), name);
}
