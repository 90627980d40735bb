/** The best plan of the jobs, and its time windows in words. */
import type { JobPlan } from '../core/jobs/job-plan.js';
import type { WeeklyJobs } from '../core/jobs/weekly-jobs.js';
import { weekClock } from '../core/model/week-time-text.js';

/** @returns null where there is no plan */
export function bestJobPlan({ plans, best }: WeeklyJobs): JobPlan | null {
  return plans.find((plan) => plan.pattern === best) ?? null;
}

/** A time window in words. @example 'Mon night, 14:00 to Tue 06:00' */
export function stretchText(plan: JobPlan, stretch: number): string {
  const { day, shift, startS, endS } = plan.stretches[stretch]!;
  const clock = (seconds: number): string => weekClock(seconds / 60).replace(`${day} `, '');
  return `${day} ${shift}, ${clock(startS)} to ${clock(endS)}`;
}
