/**
 * Runs on a worker thread: writes one run of the simulation as a log of signals. On a thread, so that Ctrl-C is heard
 * by the main one, which takes the unfinished file away.
 */
import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import type { Moment } from '../core/log/log-clock.js';
import { writeSimulatedLog } from '../core/log/simulated-log.js';
import type { CsvForm } from '../core/model/csv-form.js';
import type { ReplicationJob } from '../core/simulate/replication-job.js';
import { sealLine } from '../tables/seal.js';

export interface RunLogTask {
  readonly job: ReplicationJob;
  readonly start: Moment | null;
  readonly form: CsvForm;
  /** Where to write; there must be no file yet. */
  readonly path: string;
}

/** The system's code goes as data: it would be lost from an error on the way between threads. */
export type RunLogResult = { readonly records: number } | { readonly failed: string };

export default function writeLog({ job, start, form, path }: RunLogTask): RunLogResult {
  const hash = createHash('sha256');
  let file = -1;
  try {
    file = openSync(path, 'wx');
    const write = (text: string): void => {
      hash.update(text);
      writeWhole(file, Buffer.from(text));
    };
    const { records } = writeSimulatedLog(job, 0, start, write, form);
    writeWhole(file, Buffer.from(sealLine(hash.digest('hex'))));
    fsyncSync(file);
    return { records };
  } catch (error) {
    if (error instanceof Error && 'code' in error && 'syscall' in error)
      return { failed: String(error.code) };
    throw error;
  } finally {
    if (file >= 0) closeSync(file);
  }
}

/** A write may take only a part. */
function writeWhole(file: number, bytes: Buffer): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
}
