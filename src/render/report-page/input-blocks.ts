/** The tables as they were read, cell by cell, so that the page can be checked without the folder. */

import type { ShownTable } from '../../tables/shown-tables.js';
import { tableFormats } from '../../tables/table-formats.js';
import {
  type BlockColumn,
  beside,
  type FoldBlock,
  fold,
  type InnerBlock,
  left,
  note,
  right,
  said,
  type TableBlock,
  tableOf,
} from '../document/blocks.js';
import type { ReportView } from './report-view.js';

export function inputBlock({ facts }: ReportView): FoldBlock {
  return fold('Inputs, cell by cell', [
    said(
      'The tables of the cell as they count here, each row with its line in the file. An empty cell means the default, which roundsman help with the name of the table lists; columns that are empty throughout are left out.',
    ),
    ...facts.notes.map((text): InnerBlock => note(text)),
    beside(facts.tables.map((table) => [inputTable(table)])),
  ]);
}

/** From so many columns on a table scrolls on a small screen. */
const MANY_COLUMNS = 7;

function inputTable({ file, columns, rows }: ShownTable): TableBlock {
  const cellsOf = (k: number) => rows.map(({ cells }) => cells[k]!);
  return tableOf(
    `${file}: ${meaningOf(file)}`,
    [left('line'), ...columns.map((name, k) => columnOf(name, cellsOf(k)))],
    rows.map(({ place, cells }) => [place, ...cells]),
    { wide: columns.length > MANY_COLUMNS, quoted: true },
  );
}

function meaningOf(file: string): string {
  return tableFormats.find((format) => format.file === file)?.meaning ?? 'a table of the cell';
}

/** Columns of figures stand to the right. */
function columnOf(name: string, cells: readonly string[]): BlockColumn {
  const isFigures = cells.every((cell) => /^[-+\d.,\s]*$/.test(cell));
  return isFigures ? right(name) : left(name);
}
