/** A run of the simulation written as a log, on a thread of its own. */
import { Tinypool } from 'tinypool';
import type { RunLogResult, RunLogTask } from './run-log-worker.js';
import { workerFile } from './worker-file.js';

export async function runLog(task: RunLogTask): Promise<RunLogResult> {
  const filename = workerFile('run-log-worker.js');
  const pool = new Tinypool({ filename, minThreads: 1, maxThreads: 1, isolateWorkers: false });
  try {
    return await pool.run(task);
  } finally {
    await pool.destroy();
  }
}
