/** Makes the bytes of an .xlsx or .ods file of a workbook; how a workbook is described stands in workbook.ts. */
import { writeOdsBook } from './ods-writer.js';
import type { Workbook, WorkbookKind } from './workbook.js';
import { writeXlsxBook } from './xlsx.js';

/** @throws RangeError where a number is not finite */
export async function workbookBytes(book: Workbook, kind: WorkbookKind): Promise<Uint8Array> {
  for (const sheet of book.sheets)
    for (const cell of sheet.rows.flat()) {
      const value = typeof cell === 'object' && cell !== null ? cell.value : cell;
      if (typeof value === 'number' && !Number.isFinite(value))
        throw new RangeError(`a figure of the sheet ${sheet.name} is not finite`);
    }
  return kind === 'ods' ? writeOdsBook(book) : writeXlsxBook(book);
}
