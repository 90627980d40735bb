/** One column of a table: what it holds, in words for people and as a reader for the program. */
import type { NumberStyle, Reading } from './reading.js';

export interface Column<T> {
  /** Unit as printed, such as `s`; empty for texts. */
  readonly unit: string;
  /** A cell of this column must not be empty. */
  readonly needed: boolean;
  /** What an empty cell means, in words; null for a needed column. */
  readonly default: string | null;
  /** What a cell may hold, in words. */
  readonly allowed: string;
  readonly meaning: string;
  /** The words that a cell may hold, where it is one of a few. */
  readonly choices?: readonly string[];
  /** The value of an empty cell; undefined for a needed column. */
  readonly blank: T | undefined;
  /** Reads a cell that is not empty. */
  readonly read: (text: string, style: NumberStyle) => Reading<T>;
}

/** The columns of a table by name, in the order in which they are listed. */
// biome-ignore lint/suspicious/noExplicitAny: the value's type differs from column to column and is inferred from each
export type Columns = Readonly<Record<string, Column<any>>>;

/** The typed row that a set of columns gives. */
export type RowOf<C extends Columns> = { readonly [K in keyof C]: C[K] extends Column<infer T> ? T : never };

/** A needed column: an empty cell is a fault. */
export function neededColumn<T>(
  column: Pick<Column<T>, 'unit' | 'allowed' | 'meaning' | 'read' | 'choices'>,
): Column<T> {
  return { ...column, needed: true, default: null, blank: undefined };
}

/** A column with a default. `words` says what an empty cell means where the value itself does not. */
export function optional<T, B>(column: Column<T>, blank: B, words = blankText(blank)): Column<T | B> {
  return { ...column, needed: false, default: words, blank };
}

function blankText(blank: unknown): string {
  if (typeof blank === 'boolean') return blank ? 'yes' : 'no';
  return blank === null ? 'not given' : String(blank);
}
