/** Reads the tables of a workbook from disk; whatever stands in the way becomes a complaint. */
import { createHash } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { basename } from 'node:path';
import type { ComplaintCode } from '../tables/complaint-codes.js';
import { complain } from '../tables/complaint-list.js';
import { WorkbookFault } from '../workbook/grid.js';
import { readGrids, workbookLimits } from '../workbook/read-grids.js';
import { tableOfSheet } from '../workbook/sheet-tables.js';
import type { WorkbookKind } from '../workbook/workbook.js';
import { workbookTables } from '../workbook/workbook-tables.js';
import { type FolderRead, nothingRead, RIGHTS, type TableFileRead } from './read-table-file.js';
import { systemReason } from './system-reason.js';

/** @param wanted tables to read, by file name, out of those that a workbook may hold */
export async function readBook(
  path: string,
  kind: WorkbookKind,
  wanted: (file: string) => boolean,
): Promise<FolderRead> {
  const file = basename(path);
  const refused = (code: ComplaintCode, text: string, help: string): FolderRead =>
    nothingRead(complain(code, file, text, help));
  try {
    const { size } = await fs.stat(path);
    if (size > workbookLimits.bytes)
      return refused('BOK07', `the workbook has ${size} bytes, at most 32 MB are read`, SMALLER);
    const bytes = await fs.readFile(path);
    const isWanted = (name: string): boolean => {
      const table = tableOfSheet(name);
      return table !== null && wanted(table);
    };
    const read = workbookTables(await readGrids(bytes, kind, isWanted), file);
    if (Object.keys(read.tables).length === 0)
      return refused('BOK08', `the workbook holds no sheet that is named as a table`, SHEETS);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    return { ...read, inputs: [{ file, sha256, bytes: bytes.length }], unread: [], isThere: true };
  } catch (error) {
    if (error instanceof WorkbookFault)
      return refused('BOK07', `the workbook cannot be read: ${error.message}`, error.help);
    return refused('FIL03', `the workbook cannot be read: ${systemReason(error).text}`, RIGHTS);
  }
}

const SMALLER = 'Copy the tables into a new workbook without pictures and old sheets.';
const SHEETS =
  'Name the sheets as the tables: stations, routes and robot are needed; `roundsman init my-cell.xlsx` writes an example.';

/** One table of a workbook, such as its sheet of readings, as a file of its own is read. */
export async function readBookTable(path: string, kind: WorkbookKind, table: string): Promise<TableFileRead> {
  const { tables, places, complaints, inputs } = await readBook(path, kind, (file) => file === table);
  const [input] = inputs;
  return {
    name: table,
    text: tables[table] ?? null,
    places,
    complaints,
    ...(input === undefined ? {} : { input }),
  };
}
