/**
 * Replications on the threads of a pool. The numbers of the replications say what each one draws, and they are returned
 * in the order of their numbers.
 */
import type { ReplicationRunner } from '../core/simulate/replication-job.js';
import type { WorkPool } from './work-pool.js';

/** Shares per thread, so that threads end at about the same time. */
const SHARES_PER_WORKER = 4;
/** Replications in a share at most, so that little is lost when the work is stopped and progress is seen. */
const MOST_IN_A_SHARE = 8;

export function replicationsOn(pool: WorkPool): ReplicationRunner {
  return async (job, replications, { signal, onDone } = {}) => {
    let done = 0;
    const results = await pool.runAll(
      'replications',
      shares(replications, pool.workers * SHARES_PER_WORKER).map((share) => ({ job, replications: share })),
      {
        signal: signal instanceof AbortSignal ? signal : undefined,
        onDone: (some) => {
          done += some.length;
          onDone?.(done);
        },
      },
    );
    return results.flat().sort((a, b) => a.replication - b.replication);
  };
}

/** Splits a list into runs of neighbours of like length: at most so many, unless they would be too long. */
function shares(numbers: readonly number[], most: number): number[][] {
  const size = Math.min(MOST_IN_A_SHARE, Math.max(1, Math.ceil(numbers.length / most)));
  const count = Math.ceil(numbers.length / size);
  return Array.from({ length: count }, (_, i) => numbers.slice(i * size, (i + 1) * size));
}
