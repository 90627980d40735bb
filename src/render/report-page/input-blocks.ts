/** The tables as they were read, cell by cell, so that the page can be checked without the folder. */

import type { ShownTable } from '../../tables/shown-tables.js';
import { tableFormats } from '../../tables/table-formats.js';
import {
  type BlockColumn,
  type FoldBlock,
  type InnerBlock,
  left,
  right,
  type TableBlock,
} from '../document/blocks.js';
import type { ReportView } from './report-view.js';

export function inputBlock({ facts }: ReportView): FoldBlock {
  return {
    kind: 'fold',
    title: 'Inputs, cell by cell',
    blocks: [
      {
        kind: 'paragraph',
        text: 'The tables of the cell as they count here, each row with its line in the file. An empty cell means the default, which roundsman help with the name of the table lists; columns that are empty throughout are left out.',
      },
      ...facts.notes.map((text): InnerBlock => ({ kind: 'paragraph', tone: 'note', text })),
      { kind: 'beside', pieces: facts.tables.map((table) => [inputTable(table)]) },
    ],
  };
}

/** From so many columns on a table scrolls on a small screen. */
const MANY_COLUMNS = 7;

function inputTable({ file, columns, rows }: ShownTable): TableBlock {
  const cellsOf = (k: number) => rows.map(({ cells }) => cells[k]!);
  return {
    kind: 'table',
    quoted: true,
    wide: columns.length > MANY_COLUMNS,
    caption: `${file}: ${meaningOf(file)}`,
    columns: [left('line'), ...columns.map((name, k) => columnOf(name, cellsOf(k)))],
    rows: rows.map(({ place, cells }) => [place, ...cells]),
  };
}

function meaningOf(file: string): string {
  return tableFormats.find((format) => format.file === file)?.meaning ?? 'a table of the cell';
}

/** Columns of figures stand to the right. */
function columnOf(name: string, cells: readonly string[]): BlockColumn {
  const isFigures = cells.every((cell) => /^[-+\d.,\s]*$/.test(cell));
  return isFigures ? right(name) : left(name);
}
