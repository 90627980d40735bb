/**
 * Replications as plain jobs, so that they can run here or on worker threads: the job is data, the result is data, and
 * which thread runs which replication changes nothing.
 */
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { type OpenSpan, openCalendar } from './calendar.js';
import { compileCell } from './compile-cell.js';
import type { DispatchRule } from './dispatch-robot.js';
import { orderPlan } from './order-plan.js';
import { type ReplicationResult, type ReplicationSetup, runReplication } from './run-replication.js';
import type { TraceEvent } from './shop-floor.js';

/** The fixed order, as far as the simulation needs it. */
export type FixedOrder = Pick<ScheduleFound, 'order' | 'events' | 'holds' | 'periodS'>;

export interface ReplicationJob {
  readonly cell: Cell;
  readonly dispatch: DispatchRule | 'order';
  /** Needed where dispatch is `order`. */
  readonly order: FixedOrder | null;
  readonly openSpans: readonly OpenSpan[] | null;
  readonly operators: number;
  readonly seed: number;
  readonly warmupS: number;
  readonly shiftsS: readonly number[];
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
  const cell = compileCell(job.cell);
  const setup = replicationSetup(job, cell);
  const results: ReplicationResult[] = [];
  for (const replication of replications) {
    if (watch.signal?.aborted === true) break;
    results.push(runReplication(cell, setup, replication));
    watch.onDone?.(results.length);
  }
  return results;
}

/** Runs one replication and tells of everything that happens in it. */
export function runTraced(job: ReplicationJob, replication: number, trace: TraceEvent): ReplicationResult {
  const cell = compileCell(job.cell);
  return runReplication(cell, { ...replicationSetup(job, cell), trace }, replication);
}

/** A runner for where there are no threads. */
export const runHere: ReplicationRunner = async (job, replications, watch) =>
  runJob(job, replications, watch);

function replicationSetup(job: ReplicationJob, cell: ReturnType<typeof compileCell>): ReplicationSetup {
  return {
    dispatch: job.dispatch === 'order' ? orderPlan(neededOrder(job.order), cell) : job.dispatch,
    calendar: job.openSpans === null ? null : openCalendar(job.openSpans),
    operators: job.operators,
    seed: job.seed,
    warmupS: job.warmupS,
    shiftsS: job.shiftsS,
  };
}

function neededOrder(order: FixedOrder | null): FixedOrder {
  if (order === null) throw new RangeError('to follow a fixed order, the simulation needs a schedule');
  return order;
}
