/**
 * The tables of a workbook as texts that the readers of tables take, row by row at the same number, with the way back from a
 * line and a column to the cell of the sheet.
 */

import type { Complaint } from '../core/model/complaint.js';
import { firstFew } from '../core/model/first-few.js';
import type { Columns } from '../tables/column.js';
import { columnNamed } from '../tables/column-named.js';
import type { ComplaintCode } from '../tables/complaint-codes.js';
import { complain, type ReadAs } from '../tables/complaint-list.js';
import { headerLine } from '../tables/header-line.js';
import { inBackticks } from '../tables/in-backticks.js';
import { columnsOf } from '../tables/table-columns.js';
import { tableFormats } from '../tables/table-formats.js';
import { quotedCell } from '../tables/table-text.js';
import { type CellUse, cellWords } from './cell-words.js';
import type { Grid, GridArea, GridBook, GridCell } from './grid.js';
import { isGuideSheet, nearTable, tableOfSheet } from './sheet-tables.js';
import { columnLetters } from './workbook.js';

/** Where a table stands in its workbook. */
export interface SheetPlace {
  /** The workbook, as it is shown. */
  readonly file: string;
  readonly sheet: string;
  /** Index of each column that is known by its name. */
  readonly columns: ReadonlyMap<string, number>;
}

export interface WorkbookTables {
  readonly tables: Readonly<Record<string, string>>;
  readonly places: ReadonlyMap<string, SheetPlace>;
  readonly complaints: readonly Complaint[];
  readonly readAs: readonly ReadAs[];
}

/** @param file name of the workbook, for the complaints */
export function workbookTables(book: GridBook, file: string): WorkbookTables {
  const tables: Record<string, string> = {};
  const places = new Map<string, SheetPlace>();
  const complaints: Complaint[] = [];
  const readAs: ReadAs[] = [...bookNotes(book, file)];
  for (const grid of book.grids) {
    const table = tableOfSheet(grid.name);
    if (table === null) continue;
    const before = places.get(table);
    if (before !== undefined) {
      complaints.push(twice(file, grid.name, before.sheet));
      continue;
    }
    const read = sheetTable(grid, table);
    tables[table] = read.text;
    places.set(table, { file, sheet: grid.name, columns: read.columns });
    complaints.push(...read.faults.map((fault) => bookComplaint(fault, read.nameOf)));
    readAs.push(...read.readAs);
  }
  complaints.push(...otherSheets(book, file));
  return { tables, places, complaints, readAs };
}

function twice(file: string, name: string, other: string): Complaint {
  const text = `the sheets ${inBackticks(other)} and ${inBackticks(name)} are named as one table`;
  return complain('BOK05', file, text, 'Rename the one that is not to be read.');
}

/** A sheet that may be a table under another name is worth a warning; all others are somebody's own. */
function otherSheets({ names }: GridBook, file: string): Complaint[] {
  const there = names.map(tableOfSheet);
  const lacking = tableFormats.filter(({ file: table, needed }) => needed && !there.includes(table));
  const wanted = lacking.map(({ file: table }) => inBackticks(table.replace(/\.csv$/, '')));
  return names.flatMap((name) => {
    if (tableOfSheet(name) !== null || isGuideSheet(name)) return [];
    const near = nearTable(name);
    if (near === null && wanted.length === 0) return [];
    const text = `the sheet ${inBackticks(name)} is not a table of a cell and is not read`;
    const help =
      near === null
        ? `Tables go by the names of their sheets; lacking: ${wanted.join(', ')}.`
        : `Did you mean \`${near}\`?`;
    return [complain('TAB02', file, text, help, { severity: 'warning' })];
  });
}

function bookNotes(book: GridBook, file: string): ReadAs[] {
  const note = (found: string, taken: string): ReadAs => ({ file, line: null, column: null, found, taken });
  const others = book.names.filter((name) => tableOfSheet(name) === null && !isGuideSheet(name));
  return [
    ...others.map((name) => note(`sheet ${name}`, 'no table of a cell; it is left alone')),
    ...(book.hasMacros ? [note('macros', 'nothing; no macro of the file is run')] : []),
    ...(book.hasLinks
      ? [note('links to other workbooks', 'the values that are stored in this file; nothing is fetched')]
      : []),
  ];
}

interface SheetRead {
  readonly text: string;
  readonly columns: ReadonlyMap<string, number>;
  readonly nameOf: (column: number) => string | null;
  readonly faults: readonly BookFault[];
  readonly readAs: readonly ReadAs[];
}

function sheetTable(grid: Grid, file: string): SheetRead {
  const known = columnsOf(file) ?? {};
  const bare = linesOf(grid, () => 'other');
  const header = headerRow(bare, known);
  const columns = new Map<string, number>();
  for (const [c, cell] of grid.rows.get(header) ?? []) {
    const words = cellWords(cell, 'other');
    const name = Object.hasOwn(known, words) ? words : columnNamed(words, known);
    if (name !== null && !columns.has(name)) columns.set(name, c);
  }
  const names = new Map([...columns].map(([name, c]) => [c, name]));
  const useOf = (column: number): CellUse => cellUse(known, names.get(column));
  const filled = filledMerges(grid, file, header, useOf);
  const faults = [...cellFaults(grid, file, header, useOf), ...filled.faults, ...hiddenFaults(grid, file)];
  const text = `${linesOf({ ...grid, rows: filled.rows }, useOf).join('\n')}\n`;
  return { text, columns, nameOf: (c) => names.get(c) ?? null, faults, readAs: filled.readAs };
}

/** Row of the headers, from 0. */
function headerRow(lines: readonly string[], columns: Columns): number {
  const filled = lines.flatMap((line, i) => (line === '' || /^"?#/.test(line) ? [] : [i]));
  return headerLine(lines, filled, columns)?.at ?? 0;
}

function cellUse(columns: Columns, name: string | undefined): CellUse {
  const column = name === undefined ? undefined : columns[name];
  if (column === undefined) return 'other';
  if (column.unit.startsWith('HH:MM')) return 'clock';
  if (column.unit === 's' || name === 'value' || name === 'low' || name === 'high') return 'seconds';
  return column.allowed.startsWith('text of') ? 'text' : 'other';
}

/** One line a row; rows without anything give an empty one, so that lines and rows have the same numbers. */
function linesOf({ rows }: Pick<Grid, 'rows'>, useOf: (column: number) => CellUse): string[] {
  let last = -1;
  for (const r of rows.keys()) if (r > last) last = r;
  const lines = new Array<string>(last + 1).fill('');
  for (const [r, row] of rows) {
    const width = Math.max(0, ...[...row.keys()].map((c) => c + 1));
    const cells = Array.from({ length: width }, (_, c) => {
      const cell = row.get(c);
      return cell === undefined ? '' : quotedCell(cellWords(cell, useOf(c)), ',');
    });
    lines[r] = cells.join(',');
  }
  return lines;
}

function cellFaults(
  grid: Grid,
  file: string,
  header: number,
  useOf: (column: number) => CellUse,
): BookFault[] {
  const faults: BookFault[] = [];
  for (const [r, row] of grid.rows) {
    const first = row.get(0);
    if (r < header || (first?.kind === 'text' && first.text.startsWith('#'))) continue;
    for (const [c, cell] of row) {
      const said = cellFault(cell, useOf(c));
      if (said !== null) faults.push({ ...said, severity: 'error', file, line: r + 1, column: c });
    }
  }
  return faults;
}

function cellFault(cell: GridCell, use: CellUse): Pick<BookFault, 'code' | 'text' | 'help'> | null {
  if (cell.kind === 'no result')
    return {
      code: 'BOK01',
      text: `the formula ${inBackticks(`=${cell.formula}`)} has no result in the file`,
      help: 'Formulas are not worked out here: open the workbook in the office program, save it there, or write the value.',
    };
  if (cell.kind === 'error')
    return {
      code: 'BOK02',
      text: `the cell shows ${inBackticks(cell.text)}`,
      help: 'Fix the formula, or write the value.',
    };
  if (cell.kind === 'date' && use !== 'text')
    return {
      code: 'BOK03',
      text: `found a date, ${cell.text}, where the table has none`,
      help: 'Office programs take texts such as 3-4 for a date: set the format of the cell to text and type it anew.',
    };
  return null;
}

/** Names in cells merged down a column hold for each row; of other merged cells only the first has the value. */
function filledMerges(
  grid: Grid,
  file: string,
  header: number,
  useOf: (column: number) => CellUse,
): { readonly rows: Grid['rows']; readonly faults: BookFault[]; readonly readAs: ReadAs[] } {
  const rows = new Map(grid.rows);
  const faults: BookFault[] = [];
  const readAs: ReadAs[] = [];
  for (const merge of grid.merges) {
    const cell = grid.rows.get(merge.fromRow)?.get(merge.fromColumn);
    if (cell === undefined || merge.toRow === merge.fromRow || merge.fromRow <= header) continue;
    const at = { file, line: merge.fromRow + 1, column: merge.fromColumn };
    if (cell.kind !== 'text' || merge.toColumn !== merge.fromColumn) {
      faults.push({ ...at, code: 'BOK04', severity: 'warning', ...mergedFault(merge) });
      continue;
    }
    for (let r = merge.fromRow + 1; r <= Math.min(merge.toRow, merge.fromRow + MOST_MERGED); r += 1)
      if (rows.has(r)) rows.set(r, new Map(rows.get(r)).set(merge.fromColumn, cell));
    const taken = `the same in each row down to ${areaEnd(merge)}`;
    readAs.push({
      file,
      line: at.line,
      column: null,
      found: cellWords(cell, useOf(merge.fromColumn)),
      taken,
    });
  }
  return { rows, faults, readAs };
}

/** Rows that one merged cell fills at most. */
const MOST_MERGED = 10_000;

function areaEnd({ toRow, toColumn }: GridArea): string {
  return `${columnLetters(toColumn)}${toRow + 1}`;
}

function mergedFault(merge: GridArea): Pick<BookFault, 'text' | 'help'> {
  return {
    text: `the cells down to ${areaEnd(merge)} are merged, so that only the first has the value and the others are read as empty`,
    help: 'Split the merged cells and write a value in each row that has one.',
  };
}

const HIDDEN_NAMED = 5;

function hiddenFaults(grid: Grid, file: string): BookFault[] {
  const hidden = grid.hiddenRows.filter((r) => grid.rows.has(r)).map((r) => r + 1);
  const at = { code: 'BOK06', severity: 'warning', file, line: null, column: null } as const;
  return [
    ...(grid.isHidden
      ? [
          {
            ...at,
            text: 'the sheet is hidden and is read all the same',
            help: 'Show it, or rename it to leave it out.',
          },
        ]
      : []),
    ...(hidden.length > 0
      ? [
          {
            ...at,
            text: `${hidden.length === 1 ? 'the hidden row' : 'the hidden rows'} ${firstFew(hidden, HIDDEN_NAMED)} ${hidden.length === 1 ? 'is' : 'are'} read like the others`,
            help: 'Show them, or take out those that do not count.',
          },
        ]
      : []),
  ];
}

interface BookFault {
  readonly code: ComplaintCode;
  readonly severity: Complaint['severity'];
  readonly file: string;
  /** From 1; null for the whole sheet. */
  readonly line: number | null;
  /** From 0; null for the whole row. */
  readonly column: number | null;
  readonly text: string;
  readonly help: string | null;
}

/** What is wrong with a workbook itself, told of the table and the line that its sheet and row stand for. */
function bookComplaint(fault: BookFault, nameOf: (column: number) => string | null): Complaint {
  const { column, ...rest } = fault;
  return { ...rest, column: column === null ? null : nameOf(column), excerpt: null };
}
