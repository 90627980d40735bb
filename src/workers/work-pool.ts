/**
 * Threads for work of every kind: replications, points of a sweep, parts of a report, studies, a log. Any number of threads gives
 * the same results, in the order of the shares.
 */
import { setMaxListeners } from 'node:events';
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Tinypool } from 'tinypool';
import type { Share, ShareKind, ShareTypes } from './study-worker.js';

export interface PoolOptions {
  /** Threads; default: as many as the machine has cores. */
  readonly workers?: number;
  /** Compiled worker file; default: the one beside this file. */
  readonly workerFile?: string;
  /** Shares that one thread may hold at a time, default 1. */
  readonly heldByThread?: number;
}

export interface Watch<Result> {
  /** After a stop signal the results of the shares that are done are returned, the others are dropped. */
  readonly signal?: AbortSignal | undefined;
  readonly onDone?: (result: Result) => void;
}

export interface WorkPool {
  readonly workers: number;
  run<Kind extends ShareKind>(kind: Kind, given: ShareTypes[Kind][0]): Promise<ShareTypes[Kind][1]>;
  runAll<Kind extends ShareKind>(
    kind: Kind,
    shares: readonly ShareTypes[Kind][0][],
    watch?: Watch<ShareTypes[Kind][1]>,
  ): Promise<ShareTypes[Kind][1][]>;
  /** Ends the threads. */
  close(): Promise<void>;
}

const MOST_WORKERS = 256;

/** @throws RangeError for a number of threads that is none */
export function workPool(options: PoolOptions = {}): WorkPool {
  const workers = options.workers ?? availableParallelism();
  if (!Number.isInteger(workers) || workers < 1 || workers > MOST_WORKERS)
    throw new RangeError(`worker threads must be a whole number from 1 to ${MOST_WORKERS}, found ${workers}`);
  const filename = options.workerFile ?? builtWorker();
  // Without this the pool would wait for its threads for ever.
  if (!existsSync(filename)) throw new Error(`a file of the program is missing: ${filename}`);
  const pool = new Tinypool({
    filename,
    minThreads: workers,
    maxThreads: workers,
    concurrentTasksPerWorker: options.heldByThread ?? 1,
    isolateWorkers: false,
    // A thread that sleeps on shared memory is not always woken by its end (Node 24), and would keep the process alive.
    useAtomics: false,
  });
  return {
    workers,
    run: (kind, given) => pool.run({ kind, given } satisfies Share),
    runAll: (kind, shares, watch = {}) => runAll(pool, kind, shares, watch),
    close: () => pool.destroy(),
  };
}

async function runAll<Kind extends ShareKind>(
  pool: Tinypool,
  kind: Kind,
  shares: readonly ShareTypes[Kind][0][],
  { signal, onDone }: Watch<ShareTypes[Kind][1]>,
): Promise<ShareTypes[Kind][1][]> {
  const isStopped = (): boolean => signal?.aborted === true;
  if (isStopped()) return [];
  // Every share that waits listens to the signal; that many are no leak.
  if (signal !== undefined) setMaxListeners(0, signal);
  const settled = await Promise.allSettled(
    shares.map(async (given) => {
      const share: Share = { kind, given };
      const result: ShareTypes[Kind][1] = await pool.run(share, signal === undefined ? {} : { signal });
      onDone?.(result);
      return result;
    }),
  );
  const failed = settled.find((s) => s.status === 'rejected');
  if (failed !== undefined && !isStopped()) throw failed.reason;
  return settled.flatMap((s) => (s.status === 'fulfilled' ? [s.value] : []));
}

/** Beside this file, or, where this runs from its source as in tests, in the last build. */
function builtWorker(): string {
  const beside = fileURLToPath(new URL('./study-worker.js', import.meta.url));
  if (existsSync(beside)) return beside;
  return fileURLToPath(new URL('../../dist/workers/study-worker.js', import.meta.url));
}
