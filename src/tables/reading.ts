/** The outcome of reading one cell: its value, or what is wrong with it. */
import type { Fault } from './complaint-list.js';

export type Reading<T> =
  /** `taken` where the cell is read as something else than it says, such as `yes` for `TRUE`. */
  | { readonly ok: true; readonly value: T; readonly taken?: string }
  | { readonly ok: false; readonly fault: Fault };

/**
 * How numbers are written in a table. With semicolons between the cells every comma is a decimal one; elsewhere a comma is
 * where it can be nothing else, and `1,234` is asked about.
 */
export interface NumberStyle {
  readonly decimalComma: boolean;
}

export function read<T>(value: T): Reading<T> {
  return { ok: true, value };
}

/** A value that is written otherwise than the column's own form: the two are named to the user. */
export function readAs<T>(value: T, taken: string): Reading<T> {
  return { ok: true, value, taken };
}

export function refuse<T>(fault: Fault): Reading<T> {
  return { ok: false, fault };
}
