/**
 * Programs with whole-number variables through the same engine. Its branch and bound raises no flag when it stops
 * early, so its answer is a candidate here: every row is checked, the objective recomputed, and the certified linear
 * relaxation gives the bound beside it. A proof of optimality has to come from elsewhere (`bestZeroOne`).
 */
import { type LinearProgram, largestBreach, programValue, requireProgram } from './linear-program.js';
import { runSimplex } from './simplex-engine.js';
import { plainForm, type SolveOptions, solveLinearProgram } from './solve-linear-program.js';

export interface WholeCandidate {
  readonly value: number;
  readonly x: readonly number[];
  /** No answer can be better than this; null where the relaxation could not be certified. */
  readonly bound: number | null;
}

/**
 * @returns a point that keeps every row and is whole where asked, or null where the engine gave none within its time
 * @throws RangeError where the program holds a number that is not finite, or bounds cross
 */
export function solveWholeProgram(program: LinearProgram, options: SolveOptions = {}): WholeCandidate | null {
  requireProgram(program);
  const answer = runSimplex(plainForm(program, true).plain, options.timeLimitMs ?? 5000);
  if (answer.status !== 'answered') return null;
  const x = answer.x.map((value, j) => {
    const { lower = 0, whole = false } = program.variables[j]!;
    return whole ? Math.round(value + lower) : value + lower;
  });
  const moved = answer.x.some(
    (value, j) => Math.abs(x[j]! - value - (program.variables[j]!.lower ?? 0)) > 1e-6,
  );
  if (moved || largestBreach(program, x) > 1e-7) return null;
  const relaxation = solveLinearProgram(program, options);
  const bound = relaxation.status === 'optimal' ? relaxation.value : null;
  return { value: programValue(program, x), x, bound };
}
