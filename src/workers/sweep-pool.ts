/** A sweep on worker threads; any number of them gives the same results, in the order of the points. */
import { setMaxListeners } from 'node:events';
import { availableParallelism } from 'node:os';
import { Tinypool } from 'tinypool';
import { isSlowFigure } from '../core/sweep/cell-figures.js';
import type { PointResult } from '../tables/overrides/point-figures.js';
import runPoints, { type SweepTask } from './sweep-worker.js';
import { workerFile } from './worker-file.js';

export interface SweepPoolOptions {
  /** Threads; default: as many as the machine has cores. With 1 the work is done on this thread. */
  readonly workers?: number;
  readonly onDone?: (done: number) => void;
  /** Ends the work early: the points of the tasks that are done are returned. Then there is always a thread beside this. */
  readonly signal?: AbortSignal;
}

/**
 * Few enough points that a failure ends soon and little is lost by a stop, many enough that the tables travel seldom;
 * slow points go one by one.
 */
const LEAST_POINTS_A_TASK = 4;
const MOST_POINTS_A_TASK = 16;
const TASKS_PER_WORKER = 8;

export async function runSweep(task: SweepTask, options: SweepPoolOptions = {}): Promise<PointResult[]> {
  const least = task.figures.some(isSlowFigure) ? 1 : LEAST_POINTS_A_TASK;
  const workers = Math.min(options.workers ?? availableParallelism(), Math.ceil(task.points.length / least));
  if (task.points.length === 0 || (workers <= 1 && options.signal === undefined)) return runPoints(task);
  const pool = new Tinypool({
    filename: workerFile('sweep-worker.js'),
    minThreads: workers,
    maxThreads: workers,
    isolateWorkers: false,
  });
  try {
    return await onPool(pool, { workers, least }, task, options);
  } finally {
    await pool.destroy();
  }
}

async function onPool(
  pool: Tinypool,
  { workers, least }: { readonly workers: number; readonly least: number },
  task: SweepTask,
  options: SweepPoolOptions,
): Promise<PointResult[]> {
  const share = Math.ceil(task.points.length / (workers * TASKS_PER_WORKER));
  const size = Math.max(least, Math.min(share, MOST_POINTS_A_TASK));
  const tasks = Array.from({ length: Math.ceil(task.points.length / size) }, (_, i) => ({
    ...task,
    points: task.points.slice(i * size, (i + 1) * size),
  }));
  const { signal, onDone } = options;
  // Every task that waits listens to the signal; that many are no leak.
  if (signal !== undefined) setMaxListeners(0, signal);
  let done = 0;
  const settled = await Promise.allSettled(
    tasks.map(async (part) => {
      const points: PointResult[] = await pool.run(part, signal === undefined ? {} : { signal });
      done += points.length;
      onDone?.(done);
      return points;
    }),
  );
  const failed = settled.find((s) => s.status === 'rejected');
  if (failed !== undefined && signal?.aborted !== true) throw failed.reason;
  return settled.flatMap((s) => (s.status === 'fulfilled' ? s.value : []));
}
