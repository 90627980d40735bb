/** Runs on a worker thread and on the main one: takes parts of a report one after another until none is left. */
import {
  type PartInputs,
  type PartJob,
  reportPart,
  type SizePartInputs,
} from '../core/report/report-parts.js';
import type { PartDone } from '../core/report/report-results.js';

/** Places in a tally: jobs taken, jobs done. */
const TAKEN = 0;
export const DONE = 1;

export interface JobsTask {
  readonly inputs: PartInputs | SizePartInputs;
  readonly jobs: readonly PartJob[];
  /** Shared by all threads, so that no job is taken twice. */
  readonly tally: Int32Array<SharedArrayBuffer>;
}

export function newTally(): Int32Array<SharedArrayBuffer> {
  return new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT));
}

/** @param onDone called after each job of this thread */
export default async function takeJobs(
  { inputs, jobs, tally }: JobsTask,
  onDone?: () => void,
): Promise<PartDone[]> {
  const done: PartDone[] = [];
  for (;;) {
    const job = jobs[Atomics.add(tally, TAKEN, 1)];
    if (job === undefined) return done;
    done.push({ job, result: await reportPart(inputs, job) });
    Atomics.add(tally, DONE, 1);
    onDone?.();
  }
}
