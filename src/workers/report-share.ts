/** Runs on a worker thread and on the main one: takes parts of a report one after another until none is left. */
import {
  type PartInputs,
  type PartJob,
  reportPart,
  type SizePartInputs,
} from '../core/report/report-parts.js';
import type { PartDone } from '../core/report/report-results.js';
import { highsSolver } from '../solver/highs-solver.js';

export interface JobsTask {
  readonly inputs: PartInputs | SizePartInputs;
  readonly jobs: readonly PartJob[];
  /** One mark a job, shared by all threads, so that no job is taken twice; 0 = free. */
  readonly taken: Int32Array<SharedArrayBuffer>;
  /** Begin at the end of the list, so that two threads seldom warm up for the same kind of work. */
  readonly fromEnd: boolean;
}

/** @param onDone called after each job of this thread */
export default async function takeJobs(task: JobsTask, onDone?: () => void): Promise<PartDone[]> {
  const { inputs, jobs, taken, fromEnd } = task;
  const places = [...jobs.keys()];
  const done: PartDone[] = [];
  for (const place of fromEnd ? places.reverse() : places) {
    if (Atomics.exchange(taken, place, 1) === 1) continue;
    const job = jobs[place]!;
    done.push({ job, result: await reportPart(inputs, job, { mixedSolver: highsSolver }) });
    onDone?.();
  }
  return done;
}
