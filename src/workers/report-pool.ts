/** The parts of a report on worker threads; any number of them gives the same results, in the order of the jobs. */
import { availableParallelism } from 'node:os';
import { Tinypool } from 'tinypool';
import type { PartInputs, PartJob } from '../core/report/report-parts.js';
import type { PartDone } from '../core/report/report-results.js';
import runPart, { type ReportTask } from './report-worker.js';
import { workerFile } from './worker-file.js';

export interface ReportPoolOptions {
  /** Threads; default: as many as the machine has cores. With 1 the work is done on this thread. */
  readonly workers?: number;
  readonly onDone?: (done: number, of: number) => void;
}

export async function runReportJobs(
  inputs: PartInputs,
  jobs: readonly PartJob[],
  { workers = availableParallelism(), onDone }: ReportPoolOptions = {},
): Promise<PartDone[]> {
  const pool = workers <= 1 ? null : reportPool(Math.min(workers, jobs.length));
  let done = 0;
  const one = async (job: PartJob): Promise<PartDone> => {
    const task: ReportTask = { inputs, job };
    const result = await (pool === null ? runPart(task) : pool.run(task));
    onDone?.(++done, jobs.length);
    return { job, result };
  };
  try {
    return await Promise.all(jobs.map(one));
  } finally {
    await pool?.destroy();
  }
}

function reportPool(threads: number): Tinypool {
  return new Tinypool({
    filename: workerFile('report-worker.js'),
    minThreads: threads,
    maxThreads: threads,
    isolateWorkers: false,
  });
}
