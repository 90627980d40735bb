/** The page of a cell, as the last build made it, with a cell in it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { deflateRawSync } from 'node:zlib';
import type { Tables } from '../tables/inspect-tables.js';
import { packagePath } from './package-path.js';

const EMPTY = '<script type="application/json" id="carried-cell"></script>';

const NO_SOLVER = '<script type="text/plain" id="carried-solver"></script>';
const SCRIPTS = '; script-src ';

export interface CarriedCell {
  readonly name: string;
  readonly tables: Tables;
}

/**
 * @param cell none for an empty page
 * @param withSolver the page also carries the solver of the mix and the jobs, and may compile it
 */
export function cellPage(cell: CarriedCell | null, withSolver: boolean): string {
  const page = readFileSync(packagePath('dist/page/cell.html'), 'utf8');
  const solving = withSolver ? solvingPage(page) : page;
  if (cell === null) return solving;
  const json = JSON.stringify(cell).replaceAll('<', '\\u003c');
  return solving.replace(EMPTY, () => EMPTY.replace('></', () => `>${json}</`));
}

function solvingPage(page: string): string {
  const find = createRequire(import.meta.url);
  const parts = ['highs', 'highs/runtime'].map((part) =>
    deflateRawSync(readFileSync(find.resolve(part)), { level: 9 }).toString('base64'),
  );
  return page
    .replace(SCRIPTS, () => `${SCRIPTS}'wasm-unsafe-eval' `)
    .replace(NO_SOLVER, () => NO_SOLVER.replace('></', () => `>${parts.join('\n')}</`));
}
