/** Reads the tables of a cell's folder from disk; whatever stands in the way becomes a complaint. */
import { createHash } from 'node:crypto';
import { type Dirent, promises as fs } from 'node:fs';
import { basename, join } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintCode } from '../tables/complaint-codes.js';
import { isTableName } from '../tables/inspect-tables.js';
import { tableLimits } from '../tables/limits.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { sizeFault } from '../tables/readable-text.js';
import { tableFiles } from '../tables/table-formats.js';
import { systemReason } from './system-reason.js';

/** A file that a result was worked out from. */
export interface InputFile {
  readonly file: string;
  /** SHA-256 of its bytes, in hexadecimal digits. */
  readonly sha256: string;
  readonly bytes: number;
}

export interface FolderRead {
  /** Texts of the known tables by name; other files that end in .csv are named with an empty text. */
  readonly tables: Readonly<Record<string, string>>;
  readonly complaints: readonly Complaint[];
  readonly inputs: readonly InputFile[];
  /** Known tables that are in the folder and could not be read. */
  readonly unread: readonly string[];
  /** False where the folder itself could not be read: then nothing more is to be said about its tables. */
  readonly isThere: boolean;
}

/** @param path the folder; never throws for what is wrong on disk */
export async function readFolder(path: string): Promise<FolderRead> {
  const listing = await listFolder(path);
  if (!Array.isArray(listing))
    return { tables: {}, complaints: [listing], inputs: [], unread: [], isThere: false };
  const files = await Promise.all(listing.map((entry) => readEntry(path, entry)));
  return {
    tables: Object.fromEntries(files.flatMap((f) => (f.text === null ? [] : [[f.name, f.text]]))),
    complaints: files.flatMap((f) => f.complaint ?? []),
    inputs: files.flatMap((f) => f.input ?? []),
    unread: files.filter((f) => f.text === null).map((f) => f.name),
    isThere: true,
  };
}

/** The files of the folder that end in .csv, by name; or the complaint that says why there are none. */
async function listFolder(path: string): Promise<Dirent[] | Complaint> {
  const name = basename(path) || path;
  try {
    if (!(await fs.stat(path)).isDirectory())
      return complain('FIL02', name, `${shown(path)} is a file, expected a folder`, CELL);
    const entries = (await fs.readdir(path, { withFileTypes: true })).filter((entry) =>
      isTableName(entry.name),
    );
    if (entries.length > 0) return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
    return complain('FIL04', name, `the folder ${shown(path)} holds no file that ends in .csv`, CELL);
  } catch (error) {
    const reason = systemReason(error);
    if (reason.code === 'ENOENT') return complain('FIL01', name, `there is no folder ${shown(path)}`, CELL);
    if (reason.code === 'ENOTDIR')
      return complain('FIL02', name, `${shown(path)} leads through a file, expected a folder`, CELL);
    return complain('FIL03', name, `the folder ${shown(path)} cannot be read: ${reason.text}`, RIGHTS);
  }
}

const CELL = 'Name the folder that holds stations.csv, routes.csv and robot.csv.';
const RIGHTS = 'Check that you may read it.';

function shown(path: string): string {
  return `\`${path}\``;
}

function complain(code: ComplaintCode, file: string, text: string, help: string | null): Complaint {
  return { code, severity: 'error', file, line: null, column: null, text, excerpt: null, help };
}

interface EntryRead {
  readonly name: string;
  readonly text: string | null;
  readonly complaint?: Complaint;
  readonly input?: InputFile;
}

async function readEntry(folder: string, { name }: Dirent): Promise<EntryRead> {
  if (!tableFiles.includes(name) && name !== BASE_FILE) return { name, text: '' };
  const path = join(folder, name);
  try {
    const stat = await fs.stat(path);
    if (!stat.isFile()) return notAFile(name);
    if (stat.size > tableLimits.bytesPerTable) return tooLarge(name, stat.size);
    const bytes = await fs.readFile(path);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    return {
      name,
      text: new TextDecoder().decode(bytes),
      input: { file: name, sha256, bytes: bytes.length },
    };
  } catch (error) {
    const said = `the table cannot be read: ${systemReason(error).text}`;
    return { name, text: null, complaint: complain('FIL03', name, said, RIGHTS) };
  }
}

function notAFile(name: string): EntryRead {
  const help = 'Put the table itself in its place.';
  return { name, text: null, complaint: complain('FIL06', name, 'the table is not an ordinary file', help) };
}

function tooLarge(name: string, bytes: number): EntryRead {
  const { code, text, help } = sizeFault('FIL05', bytes);
  return { name, text: null, complaint: complain(code, name, text, help) };
}
