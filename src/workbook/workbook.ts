/**
 * A workbook to be written, as plain data: sheets of cells with number formats, formulas with their worked-out results,
 * notes, drop-downs, frozen rows, widths, names of cells and charts. `workbookBytes` of write-workbook.ts makes the bytes of
 * an .xlsx or .ods file of it: the same data give the same bytes on every machine and day.
 *
 * @example
 * const book: Workbook = {
 *   title: 'Cost case of cell A',
 *   names: { price: 'inputs!$B$2' },
 *   sheets: [
 *     {
 *       name: 'inputs',
 *       frozenRows: 1,
 *       widths: [20, 12],
 *       rows: [
 *         [{ value: 'item', look: 'heading' }, { value: 'value', look: 'heading' }],
 *         ['box_price', { value: 900, format: { digits: 2, unit: 'EUR' }, look: 'input', note: 'offer of May' }],
 *         // A formula is written as spreadsheets in English take it (commas, points); its value is the result that
 *         // programs show which do not calculate.
 *         ['two of them', { value: 1800, formula: 'price*2', format: { digits: 2, unit: 'EUR' } }],
 *       ],
 *       choices: [{ column: 0, fromRow: 1, toRow: 200, words: ['box_price', 'box_amps'] }],
 *     },
 *   ],
 * };
 * const bytes = await workbookBytes(book, 'xlsx');
 */

export type WorkbookKind = 'xlsx' | 'ods';

export interface Workbook {
  readonly title: string;
  /** Names of sheets are unlike each other in any case, at most 31 characters, without `[ ] : * ? / \`. */
  readonly sheets: readonly WorkbookSheet[];
  /** Names of cells, for formulas: `{ price: 'inputs!$B$2' }`. */
  readonly names?: Readonly<Record<string, string>>;
}

export interface WorkbookSheet {
  readonly name: string;
  readonly rows: readonly (readonly CellContent[])[];
  /** Rows at the top that stay in sight. */
  readonly frozenRows?: number;
  /** Widths of the columns in characters, from the first; a column without one gets 12. */
  readonly widths?: readonly number[];
  readonly choices?: readonly ChoiceRange[];
  /** Drawn in .xlsx only. */
  readonly charts?: readonly WorkbookChart[];
}

/** null is an empty cell. Texts are texts, whatever sign they begin with. */
export type CellContent = string | number | boolean | null | RichCell;

export interface RichCell {
  /** For a formula, its worked-out result. */
  readonly value: string | number | boolean | null;
  /** Without the equals sign, such as `SUM(B2:B9)`. */
  readonly formula?: string;
  readonly format?: NumberFormat;
  readonly look?: CellLook;
  /** Shown when the pointer is on the cell. */
  readonly note?: string;
}

export interface NumberFormat {
  /** Digits after the point. */
  readonly digits: number;
  /** The value is a fraction and is shown in per cent. */
  readonly percent?: boolean;
  /** Shown after the number; the cell still holds a number. */
  readonly unit?: string;
}

/** `input`: a cell to fill in; `wrapped`: text over several lines. */
export type CellLook = 'title' | 'heading' | 'input' | 'result' | 'comment' | 'wrapped';

/** Cells of one column that offer words to choose from; other texts are let in after a warning. Rows and columns from 0. */
export interface ChoiceRange {
  readonly column: number;
  readonly fromRow: number;
  readonly toRow: number;
  readonly words: readonly string[];
}

/** Ranges are of the chart's own sheet, such as `A2:A9`, or name another, such as `flows!A2:A9`. */
export interface WorkbookChart {
  readonly kind: 'column' | 'bar' | 'line' | 'stacked column' | 'stacked bar';
  readonly title: string;
  readonly categories: string;
  readonly series: readonly { readonly name: string; readonly values: string }[];
  /** The axis of the values begins at 0. */
  readonly fromZero?: boolean;
  /** Cell at its upper left corner, from 0. */
  readonly row: number;
  readonly column: number;
}

export function isRich(cell: CellContent): cell is RichCell {
  return typeof cell === 'object' && cell !== null;
}

/** Sheet that holds the words of long choices: .xlsx takes at most 255 characters of them in place. */
export const LISTS_SHEET = 'lists';

/** Letters of a column. @example columnLetters(27) // 'AB' */
export function columnLetters(column: number): string {
  const rest = Math.floor(column / 26);
  return `${rest > 0 ? columnLetters(rest - 1) : ''}${String.fromCharCode(65 + (column % 26))}`;
}

/** The kind of workbook that a file's name tells; null where it is none. */
export function workbookKind(name: string): WorkbookKind | null {
  const ending = /\.(xlsx|ods)$/i.exec(name)?.[1]?.toLowerCase();
  return ending === 'xlsx' || ending === 'ods' ? ending : null;
}
