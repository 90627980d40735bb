/** Reads one file of text from disk within the limits; whatever stands in the way becomes a complaint. */
import { createHash } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { basename } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintCode } from '../tables/complaint-codes.js';
import { complain, type ReadAs } from '../tables/complaint-list.js';
import { decodedText } from '../tables/decoded-text.js';
import { tableLimits } from '../tables/limits.js';
import { sizeFault } from '../tables/readable-text.js';
import type { BookPlaces } from '../workbook/place-in-book.js';
import { systemReason } from './system-reason.js';

/** A file that a result was worked out from. */
export interface InputFile {
  readonly file: string;
  /** SHA-256 of its bytes, in hexadecimal digits. */
  readonly sha256: string;
  readonly bytes: number;
}

/** What a cell's folder holds, or a workbook in its place. */
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

export function nothingRead(why: Complaint): FolderRead {
  return {
    tables: {},
    complaints: [why],
    inputs: [],
    readAs: [],
    places: new Map(),
    unread: [],
    isThere: false,
  };
}

export interface TableFileRead {
  readonly name: string;
  /** null where it could not be read. */
  readonly text: string | null;
  /** How the bytes were read, where they are not UTF-8. */
  readonly form?: string;
  readonly complaint?: Complaint;
  /** Complaints about a workbook, and where its table stands in it. */
  readonly complaints?: readonly Complaint[];
  readonly places?: BookPlaces;
  readonly input?: InputFile;
}

/** @param name of the file, for the complaints */
export async function readTableFile(path: string, name: string): Promise<TableFileRead> {
  try {
    const stat = await fs.stat(path);
    if (!stat.isFile()) return refused(name, 'FIL06', 'the table is not an ordinary file', PUT);
    if (stat.size > tableLimits.bytesPerTable) return tooLarge(name, stat.size);
    const bytes = await fs.readFile(path);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const { text, form } = decodedText(bytes);
    return {
      name,
      text,
      ...(form === null ? {} : { form }),
      input: { file: name, sha256, bytes: bytes.length },
    };
  } catch (error) {
    return refused(name, 'FIL03', `the table cannot be read: ${systemReason(error).text}`, RIGHTS);
  }
}

/** A file that the user names, which may not be there. */
export async function readNamedFile(path: string): Promise<TableFileRead> {
  const name = basename(path);
  try {
    if ((await fs.stat(path)).isDirectory())
      return refused(name, 'FIL06', `\`${path}\` is a folder, expected a file`, FILE);
  } catch (error) {
    const { code, text } = systemReason(error);
    if (code === 'ENOENT' || code === 'ENOTDIR')
      return refused(name, 'FIL07', `there is no file \`${path}\``, PATH);
    return refused(name, 'FIL03', `the table cannot be read: ${text}`, RIGHTS);
  }
  return readTableFile(path, name);
}

export const RIGHTS = 'Check that you may read it.';
const FILE = 'Name the file itself, such as a file in this folder.';
const PUT = 'Put the table itself in its place.';
const PATH = 'Check the path; it is read from the folder in which the command runs.';

function refused(name: string, code: ComplaintCode, text: string, help: string): TableFileRead {
  return { name, text: null, complaint: complain(code, name, text, help) };
}

function tooLarge(name: string, size: number): TableFileRead {
  const { code, text, help } = sizeFault('FIL05', size);
  return { name, text: null, complaint: complain(code, name, text, help) };
}
