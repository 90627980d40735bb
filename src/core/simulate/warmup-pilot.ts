/**
 * How long the cell needs from empty to its steady way of running: MSER-5 on the output of a few pilot replications,
 * averaged interval by interval (Welch's averaging, then White's rule).
 */

import type { ReplicationResult } from '../floor/floor-run.js';
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
  const parts = [...trial.good, ...trial.scrap].reduce((sum, v) => sum + v, 0);
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

function meanOutput(pilots: readonly ReplicationResult[], interval: number): number {
  const routes = pilots[0]!.good.length;
  let sum = 0;
  for (const pilot of pilots)
    for (let r = 0; r < routes; r++) sum += pilot.goodByShift[interval * routes + r]!;
  return sum / pilots.length;
}

/**
 * Where the warm-up of a simulated series ends: the marginal standard error rule (K. P. White, Simulation 69, 1997) on
 * means of five (White, M. J. Cobb, S. C. Spratt, Winter Simulation Conference 2000). The cut is the one that makes (sum
 * of squares about the mean of what is left) / (number left)^2 least, looked for in the first half of the series.
 */
interface WarmupCut {
  /** Observations to leave out. */
  readonly observations: number;
  /** Mean of the batches that are left. */
  readonly mean: number;
  /** False where the best cut lies at the end of the search: the series has not settled, run longer. */
  readonly settled: boolean;
}

/**
 * @param series observations in order, ten or more
 * @param batch observations to a batch mean
 * @throws RangeError for a series of less than two batches
 */
export function mser5(series: readonly number[], batch = 5): WarmupCut {
  const means = batchMeans(series, batch);
  if (means.length < 2) throw new RangeError(`the warm-up rule needs at least ${2 * batch} observations`);
  const half = Math.floor(means.length / 2);
  const scores = mserScores(means).slice(0, half);
  const best = scores.indexOf(Math.min(...scores));
  const left = means.slice(best);
  return {
    observations: best * batch,
    mean: left.reduce((sum, v) => sum + v, 0) / left.length,
    settled: half < 2 || best < half - 1 || scores[best] === 0,
  };
}

/** Score of each cut, 0 batches left out, 1, 2, ... */
export function mserScores(means: readonly number[]): number[] {
  return means.map((_, d) => {
    const left = means.slice(d);
    const mean = left.reduce((sum, v) => sum + v, 0) / left.length;
    return left.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (left.length * left.length);
  });
}

/** Means of successive batches; an unfinished batch at the end is left out. */
export function batchMeans(series: readonly number[], batch: number): number[] {
  return Array.from(
    { length: Math.floor(series.length / batch) },
    (_, b) => series.slice(b * batch, (b + 1) * batch).reduce((sum, v) => sum + v, 0) / batch,
  );
}
