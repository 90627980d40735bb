/** Runs a simulation on as many threads as the command line says; with 1 on this one. */
import type { SimulateContext } from '../core/simulate/simulation-options.js';
import { replicationPool } from '../workers/replication-pool.js';
import { numberOf, type OptionValues } from './command-spec.js';

export async function onPool<T>(
  values: OptionValues,
  work: (context: SimulateContext) => Promise<T>,
): Promise<T> {
  const workers = numberOf(values, 'workers');
  if (workers === 1) return work({});
  const pool = replicationPool(workers === undefined ? {} : { workers });
  try {
    return await work({ run: pool.run });
  } finally {
    await pool.close();
  }
}
