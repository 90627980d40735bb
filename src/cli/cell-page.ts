/** The page of a cell, as the last build made it, with a cell in it. */
import { readFileSync } from 'node:fs';
import type { Tables } from '../tables/inspect-tables.js';
import { packagePath } from './package-path.js';

const EMPTY = '<script type="application/json" id="carried-cell"></script>';

/** @param cell none for an empty page */
export function cellPage(cell: { readonly name: string; readonly tables: Tables } | null): string {
  const page = readFileSync(packagePath('dist/page/cell.html'), 'utf8');
  if (cell === null) return page;
  const json = JSON.stringify(cell).replaceAll('<', '\\u003c');
  return page.replace(EMPTY, () => EMPTY.replace('></', () => `>${json}</`));
}
