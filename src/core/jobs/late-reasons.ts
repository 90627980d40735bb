/** Why parts of a job are late: what is full until it is due, and whether it would be late on its own. */
import { goodShare } from '../mix/mix-program.js';
import { dueText } from '../model/week-time-text.js';
import type { HourRow, JobFrame } from './job-frame.js';
import type { PlannedJob } from './job-plan.js';
import { type JobProblem, leastMinutesOnto } from './job-problem.js';
import type { At } from './made-amounts.js';
import { ROUNDING, usedHours } from './read-plan.js';
import type { WeekLayout } from './week-layout.js';

/** A resource that is used to this share counts as full. */
const FULL = 0.995;

/** A week's set-ups and what is made between them. */
export interface WeekAmounts {
  readonly frame: JobFrame;
  readonly layout: WeekLayout;
  readonly at: At;
}

/** @param lateAlone parts of a job that would be late if it were the only one; null = not found out */
export function lateReasons(
  problem: JobProblem,
  plan: WeekAmounts,
  jobs: readonly PlannedJob[],
  lateAlone: (job: number) => number | null,
): PlannedJob[] {
  const usedH = new Map<HourRow, number>();
  const usedIn = (row: HourRow): number => {
    const known = usedH.get(row) ?? usedHours(problem, plan.layout, row, plan.at);
    usedH.set(row, known);
    return known;
  };
  return jobs.map((job, j) => {
    if (job.lateParts === 0) return job;
    const alone = lateAlone(j);
    const inTimeAlone = alone === null ? null : Math.floor(job.quantity - alone + ROUNDING);
    return { ...job, inTimeAlone, reason: reasonOf(problem, plan.frame, usedIn, job, inTimeAlone) };
  });
}

/** Hours of a resource that are used in a window. */
type UsedIn = (row: HourRow) => number;

function reasonOf(
  problem: JobProblem,
  frame: JobFrame,
  usedIn: UsedIn,
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
  const lacking = setupLacking(problem, job, slots);
  if (lacking !== null) return lacking;
  const full = fullResources(problem, frame, usedIn, job, slots);
  const hours = full.length === 0 ? null : `${full.join(', ')} ${full.length === 1 ? 'is' : 'are'} full`;
  if (inTimeAlone !== null && inTimeAlone < job.quantity)
    return `even as the only job, ${inTimeAlone} of ${job.quantity} could be made by ${by}${hours === null ? '' : `; ${hours} until then`}`;
  return hours === null
    ? `${problem.jobs.length > 1 ? 'other jobs and ' : ''}the changeovers, which need somebody there, leave too few hours until ${by}`
    : `${problem.jobs.length > 1 ? 'with the other jobs ' : ''}${hours} until ${by}`;
}

/** Where no set-up onto the part fits into any window: for how many people, or for how long. */
function setupLacking(problem: JobProblem, { part }: PlannedJob, slots: readonly number[]): string | null {
  const { steps } = problem.cell.routes.find((r) => r.part === part)!;
  const until = problem.slots.slice(0, Math.max(...slots) + 1);
  for (const step of steps) {
    const machines = step.stations.map((name) => problem.machines.find((m) => m.station === name));
    const lacks = machines.map((machine) => {
      if (machine === undefined || machine.parts[machine.first] === part) return null;
      const minutes = leastMinutesOnto(machine, machine.parts.indexOf(part));
      const most = Math.max(0, ...until.map((slot) => slot.people));
      if (most < machine.people)
        return most === 0
          ? `nobody is there to set ${machine.station} up for it`
          : `the changeover of ${machine.station} needs ${machine.people} people, and no more than ${most} are there at once`;
      const longestMin = Math.max(...until.map((slot) => slot.presentH * 60));
      return machine.people > 0 && longestMin < minutes
        ? `the changeover of ${machine.station} takes ${minutes.toFixed(0)} min, and no time window has more than ${longestMin.toFixed(0)} min with somebody there`
        : null;
    });
    if (lacks.length > 0 && lacks.every((text) => text !== null)) return lacks[0]!;
  }
  return null;
}

function fullResources(
  problem: JobProblem,
  frame: JobFrame,
  usedIn: UsedIn,
  job: PlannedJob,
  slots: readonly number[],
): string[] {
  const route = problem.cell.routes.find((r) => r.part === job.part)!;
  const used = new Set(['robot', ...route.steps.flatMap((step) => step.stations)]);
  return [...used].filter((resource) => {
    const rows = frame.hours.filter((row) => row.resource === resource && slots.includes(row.slot));
    const most = rows.reduce((sum, row) => sum + row.most, 0);
    return rows.length > 0 && rows.reduce((sum, row) => sum + usedIn(row), 0) >= FULL * most;
  });
}
