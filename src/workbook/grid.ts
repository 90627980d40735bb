/** A workbook as it was read: sheets of cells that say what they hold, before anybody asks what the tables want of them. */
import type { WorkbookKind } from './workbook.js';

export type GridCell =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'number'; readonly value: number; readonly isPercent: boolean }
  | { readonly kind: 'boolean'; readonly value: boolean }
  /** A time of day or a duration; `hasSeconds` where its format shows seconds. */
  | { readonly kind: 'time'; readonly seconds: number; readonly hasSeconds: boolean }
  /** As its file writes it, in the order year, month, day. */
  | { readonly kind: 'date'; readonly text: string }
  /** Such as `#DIV/0!`. */
  | { readonly kind: 'error'; readonly text: string }
  /** A formula whose result is not in the file. */
  | { readonly kind: 'no result'; readonly formula: string };

export interface Grid {
  readonly name: string;
  readonly isHidden: boolean;
  /** By row, then by column, both from 0; empty cells are not there. */
  readonly rows: ReadonlyMap<number, ReadonlyMap<number, GridCell>>;
  readonly merges: readonly GridArea[];
  readonly hiddenRows: readonly number[];
}

/** An area of cells; the last row and column belong to it. */
export interface GridArea {
  readonly fromRow: number;
  readonly fromColumn: number;
  readonly toRow: number;
  readonly toColumn: number;
}

export interface GridBook {
  readonly kind: WorkbookKind;
  /** The sheets that were wanted. */
  readonly grids: readonly Grid[];
  /** Names of all sheets, in their order. */
  readonly names: readonly string[];
  readonly hasMacros: boolean;
  readonly hasLinks: boolean;
}

export type WantedSheet = (name: string) => boolean;

/** What keeps a file from being read as a workbook, in words that end a sentence. */
export class WorkbookFault extends Error {
  override readonly name = 'WorkbookFault';

  constructor(
    readonly reason: 'too large' | 'locked' | 'damaged' | 'other kind',
    text: string,
    readonly help: string,
  ) {
    super(text);
  }
}
