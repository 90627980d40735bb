/** The outcome of reading one cell: its value, or what is wrong with it. */
import type { Fault } from './complaint-list.js';

export type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: Fault };

/** How numbers are written in a table; with semicolons between the cells a decimal comma is read as well. */
export interface NumberStyle {
  readonly decimalComma: boolean;
}

export function read<T>(value: T): Reading<T> {
  return { ok: true, value };
}

export function refuse<T>(fault: Fault): Reading<T> {
  return { ok: false, fault };
}
