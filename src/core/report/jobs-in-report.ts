/** The week's jobs in a report, planned as `jobs` does, or what is lacking for a plan. */
import type { WeeklyJobs } from '../jobs/weekly-jobs.js';
import { runStudy, studies } from '../studies/studies.js';
import type { StudyContext, StudyInputs } from '../studies/study-inputs.js';

/** @returns no plans where something is lacking; the text says what */
export async function jobsInReport(
  inputs: StudyInputs,
  _of: null | string,
  context: StudyContext,
): Promise<WeeklyJobs> {
  const lacking = studies.jobs.lacking(inputs.cell);
  if (lacking !== null) return noPlans(`The jobs are not planned: ${lacking}`);
  return runStudy('jobs', inputs, {}, context);
}

function noPlans(recommendation: string): WeeklyJobs {
  return { plans: [], best: null, timeUp: false, recommendation, assumptions: [], warnings: [] };
}
