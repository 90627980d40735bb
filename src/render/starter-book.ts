/** The starter cell as a workbook: a sheet that explains, then a sheet for each table, filled in, with notes and drop-downs. */
import { costItems } from '../core/model/cost-items.js';
import type { Column, Columns } from '../tables/column.js';
import { complaintList } from '../tables/complaint-list.js';
import { readSheet } from '../tables/read-sheet.js';
import { robotSettings } from '../tables/robot-table.js';
import { stationKinds } from '../tables/station-kinds.js';
import { columnsOf } from '../tables/table-columns.js';
import { besideFormats, type TableFormat, tableFormats } from '../tables/table-formats.js';
import { GUIDE_SHEET } from '../workbook/sheet-tables.js';
import type { CellContent, ChoiceRange, Workbook, WorkbookSheet } from '../workbook/workbook.js';
import { upperFirst } from './first-letter.js';

/** Rows below the header in which a drop-down is offered. */
const CHOICE_ROWS = 300;
const READINGS = 'readings.csv';

/** Tables of the workbook: those of the cell, and the readings. A log of signals is too long for a sheet. */
const formats: readonly TableFormat[] = [
  ...tableFormats,
  ...besideFormats.filter((format) => format.file === READINGS),
];

/** @param tables texts of the starter tables by file name */
export function starterBook(tables: Readonly<Record<string, string>>): Workbook {
  const sheets = formats.map((format) => tableSheet(format, tables[format.file] ?? ''));
  return { title: 'Starter cell', sheets: [guideSheet(), ...sheets] };
}

/** The tables of a cell that are there, a sheet for each. @param tables texts by file name */
export function cellBook(title: string, tables: Readonly<Record<string, string>>): Workbook {
  const there = formats.filter(({ file }) => Object.hasOwn(tables, file));
  return { title, sheets: there.map((format) => tableSheet(format, tables[format.file]!)) };
}

function guideSheet(): WorkbookSheet {
  const line = (text: string): CellContent[] => [text];
  const headings = (...all: string[]) => all.map((value): CellContent => ({ value, look: 'heading' }));
  return {
    name: GUIDE_SHEET,
    widths: [16, 12, 90],
    rows: [
      [{ value: 'A cell of one robot and its machines', look: 'title' }],
      [],
      line('Each sheet is a table of the cell, filled in with an example. Change the figures to yours.'),
      line('A note on each heading says what the column holds, in which unit, and what an empty cell means.'),
      line('Columns of words offer the words to choose from. Formulas are welcome: their results are read.'),
      line('Sheets that you do not need may go; only stations, routes and robot must be there.'),
      line('Sheets with other names, such as this one, are left alone.'),
      [],
      headings('sheet', 'needed', 'what it holds'),
      ...formats.map(({ file, needed, meaning }) => [
        sheetName(file),
        needed ? 'yes' : 'no',
        upperFirst(meaning),
      ]),
      [],
      headings('kind of station', '', 'what it is'),
      ...Object.entries(stationKinds).map(([kind, meaning]) => [kind, null, upperFirst(meaning)]),
    ],
  };
}

function sheetName(file: string): string {
  return file.replace(/\.csv$/, '');
}

function tableSheet({ file, columns: format }: TableFormat, text: string): WorkbookSheet {
  const columns = columnsOf(file) ?? {};
  const names = format.map((column) => column.name);
  const sheet = readSheet(complaintList(), file, text, columns, 'none');
  const rows = (sheet?.rows ?? []).map((row) =>
    names.map((name): CellContent => {
      const at = sheet!.columns.get(name);
      return cellContent(file, name, columns[name]!, at === undefined ? '' : (row.cells[at] ?? ''));
    }),
  );
  const header = names.map((name): CellContent => {
    return { value: name, look: 'heading', note: columnNote(columns[name]!) };
  });
  return {
    name: sheetName(file),
    frozenRows: 1,
    widths: names.map((name, c) => widthOf([name, ...rows.map((row) => row[c] ?? null)])),
    rows: [header, ...rows],
    choices: choicesOf(names, columns),
  };
}

function columnNote({ unit, meaning, allowed, default: blank }: Column<unknown>): string {
  const inUnit = unit === '' || unit.startsWith('as ') ? '' : ` [${unit}]`;
  const text = `${upperFirst(meaning)}${inUnit}\nHolds ${allowed}.\nEmpty: ${blank ?? 'not allowed'}.`;
  return text.replaceAll('`', '');
}

/** Numbers as numbers, except in names; the meaning of a setting or an item as its note. */
function cellContent(file: string, name: string, column: Column<unknown>, text: string): CellContent {
  if (text === '') return null;
  const note = wordNote(file, name, text);
  if (note !== null) return { value: text, note };
  const isName = column.allowed.startsWith('a name') || column.allowed.startsWith('text of');
  return !isName && text === String(Number(text)) ? Number(text) : text;
}

function wordNote(file: string, name: string, text: string): string | null {
  if (file === 'robot.csv' && name === 'setting') {
    const setting = (robotSettings as Columns)[text];
    return setting === undefined ? null : columnNote(setting);
  }
  if (file === 'stations.csv' && name === 'kind')
    return upperFirst(stationKinds[text as keyof typeof stationKinds]);
  if (file !== 'costs.csv' || name !== 'item') return null;
  const item = costItems.find((format) => format.name === text);
  if (item === undefined) return null;
  return `${upperFirst(item.meaning)}${item.unit === '' ? '' : ` [${item.unit}]`}`;
}

function choicesOf(names: readonly string[], columns: Columns): ChoiceRange[] {
  return names.flatMap((name, column) => {
    const words = columns[name]!.choices;
    return words === undefined ? [] : [{ column, fromRow: 1, toRow: CHOICE_ROWS, words }];
  });
}

const LEAST_WIDTH = 9;
const MOST_WIDTH = 40;

function widthOf(cells: readonly CellContent[]): number {
  const lengths = cells.map((cell) => String((typeof cell === 'object' ? cell?.value : cell) ?? '').length);
  return Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, lengths[0]! + 2, ...lengths.map((n) => n + 1)));
}
