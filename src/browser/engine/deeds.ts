/** Opens and writes workbooks and documents, away from the page so that it never waits. */
import type { Cell } from '../../core/model/cell.js';
import { bestSchedule } from '../../core/schedule/best-schedule.js';
import { runStudy } from '../../core/studies/studies.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { costCaseFiles } from '../../render/cost-document/cost-case-files.js';
import { COST_CASE_BOOK, costCaseBook } from '../../render/cost-workbook/cost-case-book.js';
import { cellBook } from '../../render/starter-book.js';
import { WorkbookFault } from '../../workbook/grid.js';
import { readGrids } from '../../workbook/read-grids.js';
import { tableOfSheet } from '../../workbook/sheet-tables.js';
import { workbookKind } from '../../workbook/workbook.js';
import { workbookTables } from '../../workbook/workbook-tables.js';
import { workbookBytes } from '../../workbook/write-workbook.js';
import { CONTEXT } from './answers.js';
import type { Deed, DocumentFacts, Done } from './messages.js';
import { reportDeed } from './report-deed.js';

export async function doDeed(deed: Deed, progress: (done: number, of: number) => void): Promise<Done> {
  try {
    switch (deed.deed) {
      case 'open workbook':
        return await openedBook(deed.file, deed.bytes);
      case 'save workbook':
        return {
          files: { [`${deed.name}.xlsx`]: await workbookBytes(cellBook(deed.name, deed.tables), 'xlsx') },
        };
      case 'cost document':
        return await costDocument(deed.name, deed.cell, deed.facts);
      case 'report':
        return await reportDeed(deed, progress);
    }
  } catch (error) {
    return { refused: `The program failed: ${error instanceof Error ? error.message : String(error)}` };
  }
}

async function openedBook(file: string, bytes: Uint8Array): Promise<Done> {
  const kind = workbookKind(file);
  if (kind === null) return { refused: `${file} is no workbook.` };
  try {
    const book = await readGrids(bytes, kind, (sheet) => tableOfSheet(sheet) !== null);
    const { tables, complaints } = workbookTables(book, file);
    const errors = complaints.filter(({ severity }) => severity === 'error');
    if (errors.length > 0) return { refused: complaintLines(errors).join(' ') };
    if (Object.keys(tables).length === 0)
      return {
        refused: `${file} holds no sheet that is named as a table, such as stations, routes and robot.`,
      };
    return { tables, notes: complaintLines(complaints) };
  } catch (error) {
    if (error instanceof WorkbookFault)
      return { refused: `${file} cannot be read: ${error.message}. ${error.help}` };
    throw error;
  }
}

/** The same work and the same texts as `costcase --out`. */
async function costDocument(
  name: string,
  cell: Cell,
  { files, program, warnings }: DocumentFacts,
): Promise<Done> {
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) return { refused: 'No sequence can be repeated, so there is no cost case.' };
  const found = await runStudy('costcase', { cell, schedule }, {}, CONTEXT);
  if (found.status !== 'found')
    return { refused: 'There is no cost case yet; its section says what it lacks.' };
  const facts = {
    cell: name,
    locale: 'en',
    files,
    program,
    warnings: [...warnings, ...schedule.warnings],
    assumptions: [],
  };
  const book = await workbookBytes(costCaseBook(found, name), 'xlsx');
  return { files: { ...costCaseFiles(found, facts), [COST_CASE_BOOK]: book } };
}
