/** The jobs of a week in each shift pattern, and the pattern that serves them best. */
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import { wayBackText } from '../model/setup-minutes.js';
import { patternNames } from '../shifts/week-calendar.js';
import type { JobPlan } from './job-plan.js';
import { type JobOptions, type JobProblem, jobProblem } from './job-problem.js';
import { jobProgram } from './job-program.js';
import { planJobs } from './plan-jobs.js';

export interface WeeklyJobOptions extends Omit<JobOptions, 'pattern'> {
  /** The only pattern to plan; all of shifts.csv when not given. */
  readonly pattern?: string;
  /** Most steps of the search for one goal of one pattern. */
  readonly nodes?: number;
}

export interface WeeklyJobs {
  readonly plans: readonly JobPlan[];
  /** Fewest late parts, then fewest not made, least labour, fewest set-up minutes; null = no plan was found. */
  readonly best: string | null;
  readonly recommendation: string;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/**
 * @param cell a cell with jobs and shifts
 * @param solve a solver of mixed-integer programs
 * @throws RangeError where there are no jobs, no shifts, or no such pattern
 */
export function weeklyJobs(cell: Cell, options: WeeklyJobOptions, solve: MixedSolver): WeeklyJobs {
  const names = patternNames(cell.shifts).filter((n) => n === (options.pattern ?? n));
  if (cell.jobs.length === 0) throw new RangeError('there are no jobs');
  if (names.length === 0) throw new RangeError('there is no such shift pattern');
  const problems = names.map((pattern) => jobProblem(cell, { ...options, pattern }));
  const plans = problems.map((problem) => planJobs(problem, solve, options.nodes));
  const best = bestPlan(plans);
  return {
    plans,
    best: best?.pattern ?? null,
    recommendation: best === null ? 'No plan was found.' : recommend(best, plans.length),
    assumptions: assumptionsOf(problems[0]!, options),
    warnings: plans.flatMap(warningsOf),
  };
}

/** Yes-or-no choices of the largest of the plans that `weeklyJobs` would make: what its time goes by. */
export function jobChoices(cell: Cell): number {
  const options = { ways: {}, setUpFor: {} };
  return Math.max(
    0,
    ...patternNames(cell.shifts).map(
      (pattern) => jobProgram(jobProblem(cell, { ...options, pattern })).whole.length,
    ),
  );
}

function bestPlan(plans: readonly JobPlan[]): JobPlan | null {
  const rank = (p: JobPlan): number[] => [p.lateParts, p.notMade, p.labourPerWeek, p.setupMin];
  const isBetter = (a: JobPlan, b: JobPlan): boolean => {
    const [of, than] = [rank(a), rank(b)];
    const first = of.findIndex((value, i) => Math.abs(value - than[i]!) > 1e-6);
    return first >= 0 && of[first]! < than[first]!;
  };
  return plans
    .filter((p) => p.status !== 'unsure')
    .reduce<JobPlan | null>((best, p) => (best === null || isBetter(p, best) ? p : best), null);
}

function recommend(plan: JobPlan, count: number): string {
  const late = plan.jobs.filter((job) => job.lateParts > 0);
  const lateText = late.map((job) => `${job.lateParts} of ${job.quantity} of ${job.job}`).join(', ');
  const said =
    late.length === 0
      ? plan.jobs.length === 1
        ? 'The one job is made in time'
        : `All ${plan.jobs.length} jobs are made in time`
      : `${plan.jobs.length - late.length} of ${plan.jobs.length} jobs are made in time; late: ${lateText}`;
  const missing = plan.notMade > 0 ? `, of which ${plan.notMade} parts cannot be made this week at all` : '';
  const made = plan.setups.length;
  const setups = `${made} ${made === 1 ? 'set-up takes' : 'set-ups take'} ${plan.setupMin.toFixed(0)} minutes.`;
  const proof = plan.proven
    ? 'It is proven that no plan does better.'
    : `The search stopped at its limit: ${gapText(plan)}.`;
  const where = count > 1 ? `${plan.pattern} serves the jobs best: ` : '';
  const text = where === '' ? said : said.charAt(0).toLowerCase() + said.slice(1);
  return `${where}${text}${missing}. ${setups} ${proof}`;
}

function gapText(plan: JobPlan): string {
  return plan.goals
    .filter((goal) => !goal.proven)
    .map(
      (goal) =>
        `${goal.goal} could be as few as ${goal.bound.toFixed(1)} in place of ${goal.value.toFixed(1)}`,
    )
    .join('; ');
}

function warningsOf(plan: JobPlan): string[] {
  if (plan.why !== null) return [`No plan was found for ${plan.pattern}: ${plan.why}.`];
  return plan.jobs.flatMap((job) =>
    job.reason === null
      ? []
      : [`${plan.pattern}: ${job.lateParts} of ${job.quantity} parts of ${job.job} are late: ${job.reason}.`],
  );
}

function assumptionsOf(problem: JobProblem, options: WeeklyJobOptions): string[] {
  const bare = problem.machines.filter((m) => m.way === 'left out').map((m) => m.station);
  return [
    'What counts, in this order: fewest parts late, fewest parts not made in the week, fewest set-up minutes, then early.',
    'A set-up is begun and ended within one stretch of a shift, with somebody there; jobs of one part share it.',
    'The plan counts hours of machines, robot and people by stretch; waiting for each other within a round and random stops beyond their mean are not in it: hold it against `shifts` and `simulate`, or count on fewer hours.',
    'Stops that need somebody wait for attended hours; over the week people have the time for them and for the set-ups.',
    'Racks are refilled and emptied while somebody is there; in stretches without anybody no more parts are made than they hold.',
    problem.robotStands
      ? 'The robot stands while a machine is set up.'
      : 'The robot goes on serving the other machines while one is set up.',
    'Parts are counted in fractions in the search; a job’s parts are whole in the plan, each in the stretch in which it is finished.',
    ...(problem.hoursShare < 1
      ? [`The plan counts on ${options.hoursPct} % of the hours of machines and robot.`]
      : []),
    ...(bare.length > 0 ? [`No minutes for harness or box are counted at ${bare.join(', ')}.`] : []),
    ...problem.machines.flatMap(({ station }) => wayBackText(problem.cell.setups, station) ?? []),
    ...Object.entries(options.setUpFor).map(
      ([station, part]) => `${station} is set up for ${part} when the week begins.`,
    ),
  ];
}
