/** The week's jobs in a report: planned within limits that keep the report short, and the same on every machine. */
import { jobsByCase, jobsLacking } from '../jobs/case-ways.js';
import type { WeeklyJobs } from '../jobs/weekly-jobs.js';
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';

/** Steps of the search for one goal in a report. */
const REPORT_JOB_NODES = 200;

/** @returns no plans where something is lacking; the text says what */
export async function jobsInReport(
  cell: Cell,
  schedule: ScheduleFound,
  mixedSolver: () => Promise<MixedSolver>,
): Promise<WeeklyJobs> {
  const lacking = jobsLacking(cell);
  if (lacking !== null) return noPlans(`The jobs are not planned: ${lacking}`);
  const result = jobsByCase(cell, schedule, await mixedSolver(), { nodes: REPORT_JOB_NODES });
  const limit = `Within a report the search for each goal of the job plan takes at most ${REPORT_JOB_NODES} steps; the command \`jobs\` may take more.`;
  return { ...result, assumptions: [...result.assumptions, limit] };
}

function noPlans(recommendation: string): WeeklyJobs {
  return { plans: [], best: null, recommendation, assumptions: [], warnings: [] };
}
