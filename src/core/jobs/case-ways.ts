/** The job plan of a cell as it stands: the ways of the signals by its cost case, where there is one. */
import type { WayMinutes } from '../cost/way-minutes.js';
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { cellCase } from '../standing/cell-case.js';
import { type AskedWay, setupWays } from './setup-ways.js';
import { type WeeklyJobOptions, type WeeklyJobs, weeklyJobs } from './weekly-jobs.js';

export interface CaseWays {
  /** By machine; none where there is no cost case. */
  readonly ways: Readonly<Record<string, WayMinutes>>;
  /** What the cost case lacks, in words; null where it stands. */
  readonly lacking: string | null;
}

/**
 * @param schedule the best sequence of the cell; null where there is none
 * @param asked by machine, where something else than the cost case decides
 * @param otherwise for the machines that are not named
 */
export function caseWays(
  cell: Cell,
  schedule: ScheduleFound | null,
  asked: Readonly<Record<string, AskedWay>> = {},
  otherwise: AskedWay = 'case',
): CaseWays {
  const outcome = cellCase(cell, schedule, true);
  return outcome.status === 'found'
    ? { ways: setupWays(cell, outcome, asked, otherwise), lacking: null }
    : { ways: {}, lacking: outcome.recommendation };
}

/**
 * What stands between a cell and a plan of its jobs, in words; null where nothing does.
 *
 * @param files names of the tables that the folder has; a table that is not among them is said to be missing
 */
export function jobsLacking(cell: Cell, files?: readonly string[]): string | null {
  const lack = (file: string, empty: string): string =>
    files === undefined || files.includes(file) ? empty : `the folder has no ${file}`;
  const lacking = [
    ...(cell.jobs.length === 0 ? [lack('jobs.csv', 'jobs.csv has no job')] : []),
    ...(cell.shifts.length === 0 ? [lack('shifts.csv', 'shifts.csv has no shift to make them in')] : []),
  ];
  return lacking.length === 0 ? null : `${lacking.join(', and ')}.`;
}

/** Where jobs or shifts are lacking, as `--json` prints it. */
export interface NothingToPlan {
  readonly status: 'nothing to plan';
  readonly plans: readonly [];
  readonly best: null;
  readonly timeUp: false;
  readonly recommendation: string;
}

/** @param files names of the tables that the folder has; null where jobs can be planned */
export function nothingToPlan(cell: Cell, files: readonly string[]): NothingToPlan | null {
  const recommendation = jobsLacking(cell, files);
  if (recommendation === null) return null;
  return { status: 'nothing to plan', plans: [], best: null, timeUp: false, recommendation };
}

/** @param lacking of `caseWays` */
export function leftOutWarning(lacking: string): string {
  return `No minutes for harness or box are counted, since there is no cost case. ${lacking}`;
}

/**
 * @param cell a cell for which `jobsLacking` has nothing to say
 * @param more with `ways`, these in place of the cost case's
 * @param onProgress called after each pattern
 * @returns the plan that `jobs` makes
 */
export function jobsByCase(
  cell: Cell,
  schedule: ScheduleFound | null,
  solve: MixedSolver,
  more: Partial<WeeklyJobOptions> = {},
  onProgress: (done: number, planned: number) => void = () => undefined,
): WeeklyJobs {
  const { ways, lacking } =
    more.ways !== undefined || cell.costs.length === 0
      ? { ways: more.ways ?? {}, lacking: null }
      : caseWays(cell, schedule);
  const result = weeklyJobs(cell, { ...more, setUpFor: more.setUpFor ?? {}, ways }, solve, onProgress);
  return lacking === null ? result : { ...result, warnings: [leftOutWarning(lacking), ...result.warnings] };
}
