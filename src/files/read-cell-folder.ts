/** Reads a cell from its folder: the files and all rules on them in one run. */
import type { Cell } from '../core/model/cell.js';
import type { Complaint } from '../core/model/complaint.js';
import { inspectTables } from '../tables/inspect-tables.js';
import { type InputFile, readFolder } from './read-folder.js';

export interface CellFolder {
  /** The cell; null when there is an error. */
  readonly cell: Cell | null;
  readonly complaints: readonly Complaint[];
  readonly inputs: readonly InputFile[];
}

export async function readCellFolder(path: string): Promise<CellFolder> {
  const { tables, complaints, inputs, unread, isThere } = await readFolder(path);
  if (!isThere) return { cell: null, complaints, inputs };
  const inspection = inspectTables(tables, unread);
  const all = [...complaints, ...inspection.complaints].sort(byFile);
  return { cell: inspection.cell, complaints: all, inputs };
}

/** A stable sort: the order within a file stays. */
function byFile(a: Complaint, b: Complaint): number {
  return a.file === b.file ? 0 : a.file < b.file ? -1 : 1;
}
