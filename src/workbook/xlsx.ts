/**
 * Reads and writes .xlsx files (Office Open XML, ISO/IEC 29500). The only file that knows the library, which is loaded when
 * a workbook is at hand and not before. Formulas are never worked out: what the file holds as their result is taken.
 */
import type { Cell as LibraryCell, SheetChart, WriteSheet } from 'hucre/xlsx';
import { cellLooks } from './cell-looks.js';
import type { Grid, GridCell, WantedSheet } from './grid.js';
import type { NumberFormat } from './workbook.js';
import {
  type CellContent,
  columnLetters,
  isRich,
  LISTS_SHEET,
  type RichCell,
  type Workbook,
  type WorkbookChart,
  type WorkbookSheet,
} from './workbook.js';

/** The day that every file carries, so that the same data give the same bytes. */
const NO_DAY = new Date(Date.UTC(2000, 0, 1));
const DEFAULT_WIDTH = 12;
/** Characters of a choice that an .xlsx file takes in place; the rest of the 255 is left for marks. */
const LONGEST_CHOICE = 240;

export async function writeXlsxBook(book: Workbook): Promise<Uint8Array> {
  const { writeXlsx } = await import('hucre/xlsx');
  const lists: string[][] = [];
  const sheets = book.sheets.map((sheet) => librarySheet(sheet, lists));
  const names = Object.entries(book.names ?? {}).map(([name, range]) => ({ name, range }));
  return writeXlsx({
    sheets: lists.length === 0 ? sheets : [...sheets, listsSheet(lists)],
    properties: { title: book.title, created: NO_DAY, modified: NO_DAY },
    ...(names.length === 0 ? {} : { namedRanges: names }),
  });
}

function librarySheet(sheet: WorkbookSheet, lists: string[][]): WriteSheet {
  const cells = new Map<string, Partial<LibraryCell>>();
  sheet.rows.forEach((row, r) => {
    row.forEach((cell, c) => {
      if (isRich(cell)) cells.set(`${r},${c}`, libraryCell(cell));
    });
  });
  const columns = Math.max(1, ...sheet.rows.map((row) => row.length));
  const charts = (sheet.charts ?? []).map(libraryChart);
  return {
    name: sheet.name,
    rows: sheet.rows.map((row) => row.map(plainValue)),
    cells,
    rowDefs: rowHeights(sheet),
    columns: Array.from({ length: columns }, (_, c) => ({ width: sheet.widths?.[c] ?? DEFAULT_WIDTH })),
    ...(sheet.frozenRows === undefined ? {} : { freezePane: { rows: sheet.frozenRows } }),
    ...(charts.length === 0 ? {} : { charts }),
    dataValidations: (sheet.choices ?? []).map((choice) => {
      const letters = columnLetters(choice.column);
      const inPlace = choice.words.join(',').length <= LONGEST_CHOICE;
      return {
        type: 'list' as const,
        range: `${letters}${choice.fromRow + 1}:${letters}${choice.toRow + 1}`,
        allowBlank: true,
        showErrorMessage: true,
        errorStyle: 'warning' as const,
        ...(inPlace ? { values: [...choice.words] } : { formula1: listRange(choice.words, lists) }),
      };
    }),
  };
}

const LINE_POINTS = 15;

/** Rows of wrapped texts as high as their lines: not every program makes them so by itself. */
function rowHeights({ rows, widths }: WorkbookSheet): Map<number, { readonly height: number }> {
  const heights = new Map<number, { readonly height: number }>();
  rows.forEach((row, r) => {
    const lines = row.map((cell, c) =>
      isRich(cell) && cell.look === 'wrapped'
        ? Math.ceil(String(cell.value).length / (widths?.[c] ?? DEFAULT_WIDTH))
        : 1,
    );
    const most = Math.max(1, ...lines);
    if (most > 1) heights.set(r, { height: most * LINE_POINTS });
  });
  return heights;
}

/** Where the words of a long choice stand on the sheet of lists; alike ones share a column. */
function listRange(words: readonly string[], lists: string[][]): string {
  const known = lists.findIndex((list) => list.join('\n') === words.join('\n'));
  const column = known === -1 ? lists.push([...words]) - 1 : known;
  const letters = columnLetters(column);
  return `${LISTS_SHEET}!$${letters}$1:$${letters}$${words.length}`;
}

function listsSheet(lists: readonly (readonly string[])[]): WriteSheet {
  const height = Math.max(...lists.map((list) => list.length));
  return {
    name: LISTS_SHEET,
    rows: Array.from({ length: height }, (_, r) => lists.map((list) => list[r] ?? null)),
    columns: lists.map(() => ({ width: 24 })),
  };
}

function plainValue(cell: CellContent): string | number | boolean | null {
  return isRich(cell) ? cell.value : cell;
}

function libraryCell(cell: RichCell): Partial<LibraryCell> {
  const { value, formula, note } = cell;
  const style = libraryStyle(cell);
  return {
    value,
    ...(formula === undefined ? {} : { formula, formulaResult: value, type: 'formula' as const }),
    ...(style === undefined ? {} : { style }),
    ...(note === undefined ? {} : { comment: { text: note } }),
  };
}

function libraryStyle({ look, format }: RichCell): LibraryCell['style'] {
  const numFmt = format === undefined ? {} : { numFmt: numberFormatCode(format) };
  if (look === undefined) return format === undefined ? undefined : numFmt;
  const { bold, italic, size, fill, ink, isWrapped } = cellLooks[look];
  const font = {
    ...(bold ? { bold } : {}),
    ...(italic ? { italic } : {}),
    ...(size === undefined ? {} : { size }),
    ...(ink === undefined ? {} : { color: { rgb: ink } }),
  };
  return {
    ...numFmt,
    font,
    ...(fill === undefined ? {} : { fill: { type: 'pattern', pattern: 'solid', fgColor: { rgb: fill } } }),
    ...(isWrapped ? { alignment: { wrapText: true, vertical: 'top' } } : {}),
  };
}

const CHART_ROWS = 20;
const CHART_COLUMNS = 8;

function libraryChart(chart: WorkbookChart): SheetChart {
  const { kind, title, categories, series, fromZero, row, column } = chart;
  const isStacked = kind.startsWith('stacked');
  return {
    type: kind === 'line' ? 'line' : kind.endsWith('bar') ? 'bar' : 'column',
    title,
    series: series.map(({ name, values }) => ({ name, values, categories })),
    anchor: { from: { row, col: column }, to: { row: row + CHART_ROWS, col: column + CHART_COLUMNS } },
    legend: series.length === 1 ? (false as const) : ('bottom' as const),
    ...(isStacked ? { barGrouping: 'stacked' as const } : {}),
    ...(fromZero ? { axes: { y: { scale: { min: 0 } } } } : {}),
  };
}

/** @param wanted sheets to read; the others are only named */
export async function readXlsxGrids(
  bytes: Uint8Array,
  wanted: WantedSheet,
): Promise<{ readonly grids: readonly Grid[]; readonly names: readonly string[] }> {
  const { readXlsx } = await import('hucre/xlsx');
  const names: string[] = [];
  const book = await readXlsx(bytes, {
    readStyles: true,
    sheets: ({ name }) => {
      names.push(name);
      return wanted(name);
    },
  });
  const is1904 = book.dateSystem === '1904';
  const grids = book.sheets.map((sheet) => ({
    name: sheet.name,
    isHidden: sheet.hidden === true || sheet.veryHidden === true,
    rows: gridRows(sheet.rows, sheet.cells ?? new Map(), is1904),
    merges: (sheet.merges ?? []).map((m) => ({
      fromRow: m.startRow,
      fromColumn: m.startCol,
      toRow: m.endRow,
      toColumn: m.endCol,
    })),
    hiddenRows: [...(sheet.rowDefs ?? [])].flatMap(([row, def]) => (def.hidden ? [row] : [])),
  }));
  return { grids, names };
}

type LibraryValue = string | number | boolean | Date | null;

function gridRows(
  rows: readonly (readonly LibraryValue[])[],
  cells: ReadonlyMap<string, LibraryCell>,
  is1904: boolean,
): Map<number, Map<number, GridCell>> {
  const grid = new Map<number, Map<number, GridCell>>();
  const put = (r: number, c: number, cell: GridCell): void => {
    const row = grid.get(r) ?? new Map<number, GridCell>();
    row.set(c, cell);
    grid.set(r, row);
  };
  rows.forEach((row, r) => {
    row.forEach((value, c) => {
      if (value === null || value === undefined || value === '') return;
      const found = gridCell(value, cells.get(`${r},${c}`), is1904);
      if (found !== null) put(r, c, found);
    });
  });
  for (const [key, cell] of cells) {
    if (cell.formula === undefined) continue;
    const [r, c] = key.split(',').map(Number) as [number, number];
    const result = cell.formulaResult ?? cell.value;
    if (result === null || result === undefined) put(r, c, { kind: 'no result', formula: cell.formula });
  }
  return grid;
}

function gridCell(value: LibraryValue, cell: LibraryCell | undefined, is1904: boolean): GridCell | null {
  const format = cell?.style?.numFmt ?? '';
  if (value instanceof Date) return dateCell(value, format, is1904);
  if (typeof value === 'boolean') return { kind: 'boolean', value };
  if (typeof value === 'number') {
    const bare = format.replace(/"[^"]*"|\\./g, '');
    return { kind: 'number', value, isPercent: bare.includes('%') };
  }
  if (value === null) return null;
  const isError = cell?.type === 'error' || (cell?.type === 'formula' && /^#[A-Z/0!?]+$/.test(value));
  return { kind: isError ? 'error' : 'text', text: value };
}

const DAY_MS = 86_400_000;

/** A moment within the first day of the file's calendar, or under a format without a day, is a time. */
function dateCell(date: Date, format: string, is1904: boolean): GridCell {
  const epoch = is1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, 31);
  // Before 1 March 1900 the calendar of 1900 counts a day too many, so that day 0 is 31 December 1899.
  const ms = date.getTime() - epoch;
  const bare = format.replace(/"[^"]*"|\\.|\[\$[^\]]*\]/g, '');
  const showsDay = /[yd]/i.test(bare);
  if (!showsDay || (ms >= 0 && ms < DAY_MS)) {
    const counted = /\[[hms]+\]/i.test(bare) ? ms : ((ms % DAY_MS) + DAY_MS) % DAY_MS;
    return { kind: 'time', seconds: Math.round(counted / 1000), hasSeconds: /s/i.test(bare) };
  }
  return { kind: 'date', text: date.toISOString().slice(0, 10) };
}

/** A number format as the code that .xlsx files carry. @example numberFormatCode({ digits: 2, unit: 'EUR' }) // '#,##0.00 "EUR"' */
export function numberFormatCode({ digits, percent = false, unit = '' }: NumberFormat): string {
  const number = `#,##0${digits > 0 ? `.${'0'.repeat(digits)}` : ''}`;
  const after = unit === '' ? '' : ` "${unit.replaceAll('"', "''")}"`;
  return percent ? `${number}%` : `${number}${after}`;
}
