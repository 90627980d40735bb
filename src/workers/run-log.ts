/** A run of the simulation written as a log, on a thread of its own. */
import type { RunLogResult, RunLogTask } from './run-log-share.js';
import { workPool } from './work-pool.js';

export async function runLog(task: RunLogTask): Promise<RunLogResult> {
  const pool = workPool({ workers: 1 });
  try {
    return await pool.run('log', task);
  } finally {
    await pool.close();
  }
}
