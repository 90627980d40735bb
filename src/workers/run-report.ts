/**
 * The parts of a report on this thread and on worker threads at once: whoever is free takes the next job. Any number of
 * threads gives the same results, in the order of the jobs.
 */
import { availableParallelism } from 'node:os';
import {
  earlyJobs,
  laterJobs,
  type PartInputs,
  type PartJob,
  reportRows,
} from '../core/report/report-parts.js';
import type { PartDone } from '../core/report/report-results.js';
import type { GrownCell } from '../core/size/grown-cell.js';
import takeJobs, { type JobsTask } from './report-share.js';
import { workPool } from './work-pool.js';

/** Beside this one; with more, starting them takes longer than their share of the work. */
const MOST_THREADS = 3;

export interface ReportPoolOptions {
  /** Threads, this one among them; default: as many as the machine has cores. */
  readonly workers?: number;
  readonly onDone?: (done: number, of: number) => void;
}

export interface ReportRun {
  readonly grown: GrownCell;
  readonly done: readonly PartDone[];
}

export async function runReport(
  inputs: PartInputs,
  { workers = availableParallelism(), onDone }: ReportPoolOptions = {},
): Promise<ReportRun> {
  const { cell } = inputs;
  const first = sharedTask(inputs, earlyJobs(cell));
  const threads = Math.min(workers - 1, MOST_THREADS);
  // The second list of jobs waits on the thread itself, since this thread is too busy to hand it over.
  const pool = threads > 0 ? workPool({ workers: threads, heldByThread: 2 }) : null;
  const onThreads = (task: JobsTask) =>
    Array.from({ length: threads }, () => {
      const part = pool!.run('parts', task);
      // A fault on this thread ends the others before anybody waits for them; theirs is then nobody's.
      part.catch(() => undefined);
      return part;
    });
  try {
    const others = onThreads(first);
    // The threads begin while this one grows the cell for the jobs that go on from there.
    const grown = reportRows(cell);
    const second = sharedTask({ ...inputs, grown }, laterJobs(cell));
    others.push(...onThreads(second));
    const jobs = [...first.jobs, ...second.jobs];
    let ended = 0;
    const tell = () => onDone?.(++ended, jobs.length);
    const mine: PartDone[] = [];
    for (const task of [second, first]) mine.push(...(await takeJobs({ ...task, fromEnd: true }, tell)));
    const results = [...mine, ...(await Promise.all(others)).flat()];
    return { grown, done: jobs.map((job) => results.find((r) => isSame(r.job, job))!) };
  } finally {
    await pool?.close();
  }
}

function sharedTask(inputs: JobsTask['inputs'], jobs: readonly PartJob[]): JobsTask {
  const taken = new Int32Array(new SharedArrayBuffer(jobs.length * Int32Array.BYTES_PER_ELEMENT));
  return { inputs, jobs, taken, fromEnd: false };
}

function isSame(a: PartJob, b: PartJob): boolean {
  return a.part === b.part && a.of === b.of;
}
