/** All that the user has made on the page, as one value: it is what undo takes back and what is saved. */
import type { Tables } from '../../tables/inspect-tables.js';
import { variantTables, withBase } from '../../tables/overrides/variant-tables.js';

export interface Desk {
  /** Name of the cell. */
  readonly name: string;
  /** Texts by file name, as they would stand in a folder; without any, the page asks for a first cell. */
  readonly tables: Tables;
  /** States that were pinned, to compare with and to go back to. */
  readonly variants: readonly Variant[];
}

export interface Variant {
  readonly name: string;
  readonly tables: Tables;
}

export const EMPTY_DESK: Desk = { name: 'my-cell', tables: {}, variants: [] };

export function isEmpty({ tables }: Desk): boolean {
  return Object.keys(tables).length === 0;
}

/** A desk as it is kept: each variant as its changes against the cell, in the form of a folder that builds on another. */
export function savedForm({ name, tables, variants }: Desk): Desk {
  const kept = variants.map((variant) => ({
    name: variant.name,
    tables: variantTables(tables, variant.tables, `../${name}`),
  }));
  return { name, tables, variants: kept };
}

/** A desk from its saved form; null for anything else. */
export function deskOf(saved: unknown): Desk | null {
  const cell = variantOf(saved);
  if (cell === null) return null;
  const { variants = [] } = saved as { variants?: unknown };
  if (!Array.isArray(variants)) return null;
  const whole = variants.map((variant) => wholeVariant(cell.tables, variantOf(variant)));
  return whole.includes(null) ? null : { ...cell, variants: whole.filter((variant) => variant !== null) };
}

function wholeVariant(base: Tables, kept: Variant | null): Variant | null {
  const tables = kept === null ? null : withBase(base, kept.tables);
  return kept === null || tables === null ? null : { name: kept.name, tables };
}

function variantOf(saved: unknown): Variant | null {
  if (typeof saved !== 'object' || saved === null) return null;
  const { name, tables } = saved as Partial<Variant>;
  if (typeof name !== 'string' || typeof tables !== 'object' || tables === null) return null;
  const isText = Object.values(tables).every((text) => typeof text === 'string');
  return isText ? { name, tables: { ...tables } } : null;
}
