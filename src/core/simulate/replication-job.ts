/**
 * Replications as plain jobs, so that they can run here or on worker threads: the job is data, the result is data, and
 * which thread runs which replication changes nothing.
 */
import type { CompiledCell } from '../floor/compiled-cell.js';
import { type FloorJob, floorSetup } from '../floor/floor-job.js';
import { type ReplicationResult, type ReplicationSetup, runReplication } from '../floor/floor-run.js';
import type { TraceEvent } from '../floor/shop-floor.js';

export interface ReplicationJob extends FloorJob {
  /** Tell why stations wait. */
  readonly causes: boolean;
  readonly warmupS: number;
  readonly shiftsS: readonly number[];
  /** Name of each, where the calendar has names. */
  readonly shiftNames: readonly string[];
}

/** Set from outside to end the work early; an AbortSignal is one. */
export interface StopSignal {
  readonly aborted: boolean;
}

export interface RunnerWatch {
  readonly signal?: StopSignal;
  /** Called after each replication with the number done in this call. */
  readonly onDone?: (done: number) => void;
}

/** Runs replications of a job; after a stop signal, returns those that were done. Results rise by replication. */
export type ReplicationRunner = (
  job: ReplicationJob,
  replications: readonly number[],
  watch?: RunnerWatch,
) => Promise<ReplicationResult[]>;

/** Runs some replications of a job on this thread, one after the other. */
export function runJob(
  job: ReplicationJob,
  replications: readonly number[],
  watch: RunnerWatch = {},
): ReplicationResult[] {
  const { compiled, setup } = replicationSetup(job);
  const results: ReplicationResult[] = [];
  for (const replication of replications) {
    if (watch.signal?.aborted === true) break;
    results.push(runReplication(compiled, withChangeovers(setup, job, replication), replication));
    watch.onDone?.(results.length);
  }
  return results;
}

/** Runs one replication and tells of everything that happens in it. */
export function runTraced(job: ReplicationJob, replication: number, trace: TraceEvent): ReplicationResult {
  const { compiled, setup } = replicationSetup(job);
  return runReplication(compiled, { ...withChangeovers(setup, job, replication), trace }, replication);
}

/** A runner for where there are no threads. */
export const runHere: ReplicationRunner = async (job, replications, watch) =>
  runJob(job, replications, watch);

function replicationSetup(job: ReplicationJob): { compiled: CompiledCell; setup: ReplicationSetup } {
  const { compiled, setup } = floorSetup(job);
  const { causes, warmupS, shiftsS } = job;
  return { compiled, setup: { ...setup, causes, warmupS, shiftsS } };
}

/** Share of the weeks by which each replication starts after the one before: the golden section spreads them evenly. */
const SPREAD = (Math.sqrt(5) - 1) / 2;

/** The changeovers as a replication meets them: its first week is another one of the year. */
function withChangeovers(
  setup: ReplicationSetup,
  job: ReplicationJob,
  replication: number,
): ReplicationSetup {
  if (job.changeovers === null || setup.calendar === null) return setup;
  const { weeks, rows } = job.changeovers;
  const { weekS } = setup.calendar;
  const first = Math.floor(((replication * SPREAD) % 1) * weeks);
  const lastS = setup.calendar.clock.openEnd(0, job.warmupS + job.shiftsS.reduce((a, b) => a + b, 0));
  const turns = Math.ceil(lastS / (weeks * weekS)) + 1;
  return {
    ...setup,
    changeovers: rows.map((row) => ({
      ...row,
      dueS: Array.from({ length: turns }, (_, turn) =>
        row.dueS.map((dueS) => dueS + (turn * weeks - first) * weekS),
      )
        .flat()
        .filter((dueS) => dueS >= 0 && dueS < lastS),
    })),
  };
}
