/**
 * How long the cell needs from empty to its steady way of running: MSER-5 on the output of a few pilot replications,
 * averaged interval by interval (Welch's averaging, then White's rule).
 */

import type { ReplicationResult } from '../floor/floor-run.js';
import { mser5 } from './mser5.js';
import { type ReplicationJob, runJob } from './replication-job.js';

const PILOTS = 5;
const INTERVALS = 600;
/** Replication numbers of pilots, far from those of the runs that count. */
const FIRST_PILOT = 1_000_000_000;
const TRIAL_S = 8 * 3600;

export interface WarmupFound {
  readonly warmupS: number;
  readonly settled: boolean;
}

/** @param job the job; its warm-up and shifts are replaced */
export function warmupPilot(job: ReplicationJob): WarmupFound {
  const trial = runJob({ ...job, warmupS: 0, shiftsS: [TRIAL_S] }, [FIRST_PILOT])[0]!;
  const parts = finishedParts(trial);
  if (parts === 0 || trial.deadlock !== null) return { warmupS: TRIAL_S, settled: parts > 0 };
  const intervalS = (2 * TRIAL_S) / parts;
  const pilots = runJob(
    { ...job, warmupS: 0, shiftsS: new Array<number>(INTERVALS).fill(intervalS) },
    Array.from({ length: PILOTS }, (_, i) => FIRST_PILOT + i),
  );
  const series = Array.from({ length: INTERVALS }, (_, i) => meanOutput(pilots, i));
  const cut = mser5(series);
  return { warmupS: cut.observations * intervalS, settled: cut.settled };
}

function finishedParts(result: ReplicationResult): number {
  return [...result.good, ...result.scrap].reduce((sum, v) => sum + v, 0);
}

function meanOutput(pilots: readonly ReplicationResult[], interval: number): number {
  const routes = pilots[0]!.good.length;
  let sum = 0;
  for (const pilot of pilots)
    for (let r = 0; r < routes; r++) sum += pilot.goodByShift[interval * routes + r]!;
  return sum / pilots.length;
}
