/** A sweep on worker threads; any number of them gives the same results, in the order of the points. */
import { availableParallelism } from 'node:os';
import { isSlowFigure } from '../core/sweep/cell-figures.js';
import type { PointResult } from '../tables/overrides/point-figures.js';
import runPoints, { type SweepTask } from './sweep-share.js';
import { type WorkPool, workPool } from './work-pool.js';

export interface SweepPoolOptions {
  /** Threads; default: as many as the machine has cores. With 1 the work is done on this thread. */
  readonly workers?: number;
  readonly onDone?: (done: number) => void;
  /** Ends the work early: the points of the shares that are done are returned. Then there is always a thread beside this. */
  readonly signal?: AbortSignal;
}

/**
 * Few enough points that a failure ends soon and little is lost by a stop, many enough that the tables travel seldom;
 * slow points go one by one.
 */
const LEAST_POINTS_A_SHARE = 4;
const MOST_POINTS_A_SHARE = 16;
const SHARES_PER_WORKER = 8;

export async function runSweep(task: SweepTask, options: SweepPoolOptions = {}): Promise<PointResult[]> {
  const least = task.figures.some(isSlowFigure) ? 1 : LEAST_POINTS_A_SHARE;
  const workers = Math.min(options.workers ?? availableParallelism(), Math.ceil(task.points.length / least));
  if (task.points.length === 0 || (workers <= 1 && options.signal === undefined)) return runPoints(task);
  const pool = workPool({ workers });
  try {
    return await onPool(pool, least, task, options);
  } finally {
    await pool.close();
  }
}

async function onPool(
  pool: WorkPool,
  least: number,
  task: SweepTask,
  { signal, onDone }: SweepPoolOptions,
): Promise<PointResult[]> {
  const share = Math.ceil(task.points.length / (pool.workers * SHARES_PER_WORKER));
  const size = Math.max(least, Math.min(share, MOST_POINTS_A_SHARE));
  const shares = Array.from({ length: Math.ceil(task.points.length / size) }, (_, i) => ({
    ...task,
    points: task.points.slice(i * size, (i + 1) * size),
  }));
  let done = 0;
  const results = await pool.runAll('points', shares, {
    signal,
    onDone: (points) => {
      done += points.length;
      onDone?.(done);
    },
  });
  return results.flat();
}
