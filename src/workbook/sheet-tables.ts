/** Which sheets of a workbook are tables of a cell: those named as one, in any case, with blanks or hyphens. */
import { nearestName } from '../tables/nearest-name.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { plainWords } from '../tables/plain-words.js';
import { besideFormats, tableFiles } from '../tables/table-formats.js';
import { LISTS_SHEET } from './workbook.js';

/** Sheet of a starter workbook that explains the others. */
export const GUIDE_SHEET = 'read me';

const files = [...tableFiles, ...besideFormats.map((format) => format.file), BASE_FILE];

/** @returns the file name of the table, such as `routes.csv`; null where the sheet is none */
export function tableOfSheet(name: string): string | null {
  const word = plainWords(name.replace(/\.csv$/i, '')).join('_');
  return files.find((file) => file === `${word}.csv`) ?? null;
}

/** Sheets of the program's own that hold no table. */
export function isGuideSheet(name: string): boolean {
  return name === GUIDE_SHEET || name === LISTS_SHEET;
}

/** The table that a sheet's name is near to, without its ending. */
export function nearTable(name: string): string | null {
  return nearestName(
    name,
    files.map((file) => file.replace(/\.csv$/, '')),
  );
}
