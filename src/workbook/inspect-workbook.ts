/** Reads a cell from the bytes of a workbook, for programs that have no disk: all complaints, told of sheets and cells. */
import { type Inspection, inspectTables } from '../tables/inspect-tables.js';
import { notePlacedInBooks, placedInBooks } from './place-in-book.js';
import { readGrids } from './read-grids.js';
import { tableOfSheet } from './sheet-tables.js';
import type { WorkbookKind } from './workbook.js';
import { workbookTables } from './workbook-tables.js';

/**
 * @param file name of the workbook, for the complaints
 * @throws WorkbookFault where the bytes are no workbook that can be read
 */
export async function inspectWorkbook(
  bytes: Uint8Array,
  kind: WorkbookKind,
  file: string,
): Promise<Inspection> {
  const book = await readGrids(bytes, kind, (name) => tableOfSheet(name) !== null);
  const { tables, places, complaints, readAs } = workbookTables(book, file);
  const { cell, ...said } = inspectTables(tables);
  const isSound = complaints.every(({ severity }) => severity !== 'error');
  return {
    cell: isSound ? cell : null,
    complaints: placedInBooks(places, [...complaints, ...said.complaints]),
    readAs: [...readAs, ...said.readAs].map((note) => notePlacedInBooks(places, note)),
  };
}
