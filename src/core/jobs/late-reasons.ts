/** Why parts of a job are late: what is full until it is due, and whether it would be late on its own. */
import { goodShare } from '../mix/mix-program.js';
import { dueText } from '../model/week-time-text.js';
import type { PlannedJob } from './job-plan.js';
import type { JobProblem } from './job-problem.js';
import type { JobProgram } from './job-program.js';
import { ROUNDING, useOf } from './read-plan.js';

/** A resource that is used to this share counts as full. */
const FULL = 0.995;

/** @param lateAlone parts of a job that would be late if it were the only one; null = not found out */
export function lateReasons(
  problem: JobProblem,
  program: JobProgram,
  at: Readonly<Record<string, number>>,
  jobs: readonly PlannedJob[],
  lateAlone: (job: number) => number | null,
): PlannedJob[] {
  return jobs.map((job, j) => {
    if (job.lateParts === 0) return job;
    const alone = lateAlone(j);
    const inTimeAlone = alone === null ? null : Math.floor(job.quantity - alone + ROUNDING);
    return { ...job, inTimeAlone, reason: reasonOf(problem, program, at, job, inTimeAlone) };
  });
}

function reasonOf(
  problem: JobProblem,
  program: JobProgram,
  at: Readonly<Record<string, number>>,
  job: PlannedJob,
  inTimeAlone: number | null,
): string {
  if (goodShare(problem.cell, job.part) === 0)
    return `yield_pct of parts.csv says that no ${job.part} is good`;
  const by = dueText(job.dueMin);
  const slots = problem.slots.flatMap((slot, t) =>
    slot.startS >= job.notBeforeMin * 60 && slot.endS <= job.dueMin * 60 ? [t] : [],
  );
  if (slots.length === 0) return `the cell is not open between its material and ${by}`;
  const full = fullResources(problem, program, at, job, slots);
  const hours = full.length === 0 ? null : `${full.join(', ')} ${full.length === 1 ? 'is' : 'are'} full`;
  if (inTimeAlone !== null && inTimeAlone < job.quantity)
    return `even as the only job, ${inTimeAlone} of ${job.quantity} could be made by ${by}${hours === null ? '' : `; ${hours} until then`}`;
  return hours === null
    ? `other jobs and the set-ups, which need somebody there, leave too few hours until ${by}`
    : `with the other jobs ${hours} until ${by}`;
}

function fullResources(
  problem: JobProblem,
  program: JobProgram,
  at: Readonly<Record<string, number>>,
  job: PlannedJob,
  slots: readonly number[],
): string[] {
  const route = problem.cell.routes.find((r) => r.part === job.part)!;
  const used = new Set(['robot', ...route.steps.flatMap((step) => step.stations)]);
  return [...used].filter((resource) => {
    const rows = program.hours.filter((row) => row.resource === resource && slots.includes(row.slot));
    const most = rows.reduce((sum, row) => sum + row.most!, 0);
    return rows.length > 0 && rows.reduce((sum, row) => sum + useOf(row.terms, at), 0) >= FULL * most;
  });
}
