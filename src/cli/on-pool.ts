/** Runs studies with the solver that they ask for, and simulations on as many threads as the command line says. */
import type { StudyContext } from '../core/studies/study-inputs.js';
import { highsSolver } from '../solver/highs-solver.js';
import { replicationsOn } from '../workers/replications.js';
import { workPool } from '../workers/work-pool.js';
import { numbersOf, type OptionValues } from './command-spec.js';

/** On this thread alone. */
export const ON_THIS_THREAD: StudyContext = { mixedSolver: highsSolver };

/** With 1 thread on this one. */
export async function onPool<T>(
  values: OptionValues,
  work: (context: StudyContext) => Promise<T>,
): Promise<T> {
  if (values.workers === 1) return work(ON_THIS_THREAD);
  const pool = workPool(numbersOf(values, { workers: 'workers' }));
  try {
    return await work({ ...ON_THIS_THREAD, run: replicationsOn(pool) });
  } finally {
    await pool.close();
  }
}
