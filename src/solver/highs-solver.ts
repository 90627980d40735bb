/** The solver of mixed-integer programs, loaded when it is wanted: every other command starts without it. */
import type { MixedSolver } from '../core/lp/mixed-solver.js';
import { type Highs, solverOn } from './solver-on-highs.js';

let loaded: Promise<MixedSolver> | null = null;

/** @returns the same solver each time: it is loaded once on a thread */
export function highsSolver(): Promise<MixedSolver> {
  loaded ??= loadSolver();
  return loaded;
}

async function loadSolver(): Promise<MixedSolver> {
  const { default: load } = await import('highs');
  return solverOn(await (load as unknown as () => Promise<Highs>)());
}
