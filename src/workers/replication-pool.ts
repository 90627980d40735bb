/**
 * Replications on worker threads. The numbers of the replications say what each one draws, so any number of threads
 * gives the same results; they are returned in the order of their numbers. After a stop signal the replications that
 * are done are returned, the others are dropped.
 */
import { setMaxListeners } from 'node:events';
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Tinypool } from 'tinypool';
import type { ReplicationResult } from '../core/floor/floor-run.js';
import type { ReplicationJob, ReplicationRunner, RunnerWatch } from '../core/simulate/replication-job.js';
import { compileMore } from './compiler-limits.js';
import type { WorkerTask } from './replication-worker.js';
import { workerFile } from './worker-file.js';

export interface PoolOptions {
  /** Threads; default: as many as the machine has cores. */
  readonly workers?: number;
  /** Compiled worker file; default: the one beside this file. */
  readonly workerFile?: string;
}

export interface ReplicationPool {
  readonly workers: number;
  readonly run: ReplicationRunner;
  /** Ends the threads. */
  close(): Promise<void>;
}

/** Tasks per thread, so that threads end at about the same time. */
const TASKS_PER_WORKER = 4;
/** Replications in a task at most, so that little is lost when the work is stopped and progress is seen. */
const MOST_IN_A_TASK = 8;

export function replicationPool(options: PoolOptions = {}): ReplicationPool {
  const workers = options.workers ?? availableParallelism();
  if (!Number.isInteger(workers) || workers < 1 || workers > 256)
    throw new RangeError(`worker threads must be a whole number from 1 to 256, found ${workers}`);
  const filename = options.workerFile ?? workerFile('replication-worker.js');
  // Without this the pool would wait for its threads for ever.
  if (!existsSync(filename)) throw new Error(`a file of the program is missing: ${filename}`);
  compileMore();
  const pool = new Tinypool({
    filename,
    minThreads: workers,
    maxThreads: workers,
    isolateWorkers: false,
  });
  return {
    workers,
    run: (job, replications, watch = {}) => runOnPool(pool, workers, job, replications, watch),
    close: () => pool.destroy(),
  };
}

async function runOnPool(
  pool: Tinypool,
  workers: number,
  job: ReplicationJob,
  replications: readonly number[],
  watch: RunnerWatch,
): Promise<ReplicationResult[]> {
  if (watch.signal?.aborted === true) return [];
  const signal = watch.signal instanceof AbortSignal ? watch.signal : null;
  // Every task that waits listens to the signal; that many are no leak.
  if (signal !== null) setMaxListeners(0, signal);
  let done = 0;
  const tasks = shares(replications, workers * TASKS_PER_WORKER).map(async (share) => {
    const task: WorkerTask = { job, replications: share };
    const results: ReplicationResult[] = await pool.run(task, signal === null ? {} : { signal });
    done += results.length;
    watch.onDone?.(done);
    return results;
  });
  const settled = await Promise.allSettled(tasks);
  const failed = settled.find((s) => s.status === 'rejected');
  if (failed !== undefined && signal?.aborted !== true) throw failed.reason;
  return settled
    .flatMap((s) => (s.status === 'fulfilled' ? s.value : []))
    .sort((a, b) => a.replication - b.replication);
}

/** Splits a list into runs of neighbours of like length: at most so many, unless they would be too long. */
function shares(numbers: readonly number[], most: number): number[][] {
  const size = Math.min(MOST_IN_A_TASK, Math.max(1, Math.ceil(numbers.length / most)));
  const count = Math.ceil(numbers.length / size);
  return Array.from({ length: count }, (_, i) => numbers.slice(i * size, (i + 1) * size));
}
