/** The jobs of a week in each shift pattern, and the pattern that serves them best. */

import { patternNames } from '../calendar/week-calendar.js';
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import { wayBackText } from '../model/setup-minutes.js';
import type { JobPlan, PlannedJob } from './job-plan.js';
import { type JobOptions, type JobProblem, jobProblem } from './job-problem.js';
import { type PlanLimits, planJobs } from './plan-jobs.js';
import { ROUNDING } from './read-plan.js';
import { unattendedTexts } from './unattended-rows.js';

export interface WeeklyJobOptions extends Omit<JobOptions, 'pattern'> {
  /** The only pattern to plan; all of shifts.csv when not given. */
  readonly pattern?: string;
  /** Most steps of the search for one goal of one pattern. */
  readonly nodes?: number;
  /** Seconds for all patterns together; without it the work is limited by counts alone. */
  readonly timeLimitS?: number;
}

export interface WeeklyJobs {
  readonly plans: readonly JobPlan[];
  /** Fewest late parts, then fewest not made, least labour, fewest set-up minutes. */
  readonly best: string | null;
  /** True where the time that the user gave ended the work on a plan, or came before the plan of a pattern. */
  readonly timeUp: boolean;
  readonly recommendation: string;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/**
 * @param cell a cell with jobs and shifts
 * @param solve a solver of mixed-integer programs
 * @param onProgress called after each pattern
 * @throws RangeError where there are no jobs, no shifts, or no such pattern
 */
export function weeklyJobs(
  cell: Cell,
  options: WeeklyJobOptions,
  solve: MixedSolver,
  onProgress: (done: number, planned: number) => void = () => undefined,
): WeeklyJobs {
  const names = patternNames(cell.shifts).filter((n) => n === (options.pattern ?? n));
  if (cell.jobs.length === 0) throw new RangeError('there are no jobs');
  if (names.length === 0) throw new RangeError('there is no such shift pattern');
  const startMs = Date.now();
  const endMs = startMs + 1000 * (options.timeLimitS ?? Number.POSITIVE_INFINITY);
  const problem = jobProblem(cell, { ...options, pattern: names[0]! });
  const plans = [planJobs(problem, solve, limitsOf(options, startMs, names.length))];
  onProgress(plans.length, names.length);
  for (const [k, pattern] of names.entries()) {
    if (k === 0 || Date.now() >= endMs) continue;
    const limits = limitsOf(options, startMs, names.length - k);
    plans.push(planJobs(jobProblem(cell, { ...options, pattern }), solve, limits));
    onProgress(plans.length, names.length);
  }
  const best = bestPlan(plans);
  const notPlanned = names.slice(plans.length);
  return {
    plans,
    best: best.pattern,
    timeUp: notPlanned.length > 0 || plans.some((plan) => plan.timeUp),
    recommendation: recommend(best, plans.length),
    assumptions: assumptionsOf(problem, options),
    warnings: [...timeWarnings(plans, notPlanned), ...warningsOf(best)],
  };
}

/** What the time that the user gave has left undone. */
function timeWarnings(plans: readonly JobPlan[], notPlanned: readonly string[]): string[] {
  const cut = plans.filter((plan) => plan.timeUp).map((plan) => `"${plan.pattern}"`);
  const left = notPlanned.map((name) => `"${name}"`);
  return [
    ...(cut.length > 0
      ? [`The time limit ended the work on ${cut.join(', ')}: a better plan may exist.`]
      : []),
    ...(left.length > 0 ? [`The time limit came before the plan of ${left.join(', ')}.`] : []),
  ];
}

/** What is left of the time is shared by the patterns to come. */
function limitsOf({ nodes, timeLimitS }: WeeklyJobOptions, startMs: number, patterns: number): PlanLimits {
  return {
    ...(nodes === undefined ? {} : { nodes }),
    ...(timeLimitS === undefined
      ? {}
      : { seconds: Math.max(0, timeLimitS - (Date.now() - startMs) / 1000) / patterns }),
  };
}

function bestPlan(plans: readonly JobPlan[]): JobPlan {
  const rank = (p: JobPlan): number[] => [p.lateParts, p.notMade, p.labourPerWeek, p.setupMin];
  const isBetter = (a: JobPlan, b: JobPlan): boolean => {
    const [of, than] = [rank(a), rank(b)];
    const first = of.findIndex((value, i) => Math.abs(value - than[i]!) > 1e-6);
    return first >= 0 && of[first]! < than[first]!;
  };
  return plans.reduce((best, p) => (isBetter(p, best) ? p : best));
}

function recommend(plan: JobPlan, count: number): string {
  const jobs = plan.jobs.length;
  const late = plan.jobs.filter((job) => job.lateParts > 0);
  const onTime =
    late.length === 0
      ? jobs === 1
        ? 'The one job on time'
        : `${jobs === 2 ? 'Both' : `All ${jobs}`} jobs on time`
      : `${jobs - late.length} of ${jobs} jobs on time`;
  const setups = `${plan.setups.length} ${plan.setups.length === 1 ? 'changeover' : 'changeovers'}, ${plan.setupMin.toFixed(0)} min`;
  const where = count > 1 ? `Best pattern: "${plan.pattern}". ` : '';
  return `${where}${onTime}, ${setups}.${lateText(plan, late)} ${proofText(plan)}`;
}

/** Jobs that are named one by one as late. */
const LATE_NAMED = 5;

function lateText({ lateParts, notMade }: JobPlan, late: readonly PlannedJob[]): string {
  if (late.length === 0) return '';
  const named = late
    .slice(0, LATE_NAMED)
    .map((job) => `${job.lateParts} of ${job.quantity} of job ${job.job}`)
    .join(', ');
  const more = late.length > LATE_NAMED ? ` and parts of ${late.length - LATE_NAMED} more jobs` : '';
  const missing = notMade > 0 ? `; ${notMade} of these ${lateParts} are not made this week` : '';
  return ` Late: ${named}${more}${missing}.`;
}

/** What is proven, or how far from the bound each goal may be. */
function proofText(plan: JobPlan): string {
  if (plan.proven) return 'Proven optimal.';
  // The goals count parts to the hundredth; the plan makes whole ones, and says their number as elsewhere.
  const whole = { 'late parts': plan.lateParts, 'parts not made': plan.notMade };
  const open = plan.goals
    .filter((goal) => !goal.proven && goal.bound < goal.value)
    .map(({ goal, value, bound }) => {
      if (goal === 'set-up minutes') return `${goal} ${Math.round(value)}, at best ${Math.round(bound)}`;
      return `${goal} ${whole[goal]}, at best ${Math.min(whole[goal], Math.ceil(bound - ROUNDING))}`;
    });
  return `Not proven optimal${open.length === 0 ? '' : `: ${open.join('; ')}`}.`;
}

function warningsOf(plan: JobPlan): string[] {
  const late = plan.jobs.filter((job) => job.reason !== null);
  const named = late
    .slice(0, LATE_NAMED)
    .map(
      (job) =>
        `${plan.pattern}: ${job.lateParts} of ${job.quantity} parts of job ${job.job} are late: ${job.reason}.`,
    );
  const more = late.length - named.length;
  return more > 0
    ? [
        ...named,
        `${plan.pattern}: parts of ${more} more ${more === 1 ? 'job' : 'jobs'} are late; \`--json\` gives the reason of each.`,
      ]
    : named;
}

/** True where a part is machined in more than one step. */
function linesUp({ cell, machines }: JobProblem, part: string): boolean {
  const { steps } = cell.routes.find((route) => route.part === part)!;
  const stations = machines.map(({ station }) => station);
  return steps.filter((step) => step.stations.some((name) => stations.includes(name))).length > 1;
}

function assumptionsOf(problem: JobProblem, options: WeeklyJobOptions): string[] {
  const bare = problem.machines.filter((m) => m.way === 'left out').map((m) => m.station);
  const isLined = problem.cell.routes.some((route) => linesUp(problem, route.part));
  return [
    'What counts, in this order: fewest parts late, fewest not made this week, fewest set-up minutes, then early.',
    'A changeover starts and ends within one time window, with its people there from start to end; breaks interrupt it.',
    '"Proven optimal" covers this model: constant rates by machine, robot and people hours, mean downtime. Waiting for each other, random downtime and start-up are not in it: check with `shifts` and `simulate`, or plan on fewer hours (--hours-pct).',
    'Racks are refilled and emptied only while somebody is there. Parts count in the time window in which they are finished.',
    ...unattendedTexts(problem.cell),
    ...(problem.robotStands ? ['The robot is stopped while a machine is set up.'] : []),
    ...(isLined
      ? [
          'Where a part needs several machines, all of them work on it in the same time window; where parts wait between them is not planned.',
        ]
      : []),
    ...(problem.hoursShare < 1
      ? [`The plan counts on ${options.hoursPct}% of the hours of machines and robot.`]
      : []),
    ...(bare.length > 0 ? [`No minutes for harness or box are counted at ${bare.join(', ')}.`] : []),
    ...problem.machines.flatMap(({ station }) => wayBackText(problem.cell.setups, station) ?? []),
    ...Object.entries(options.setUpFor).map(
      ([station, part]) => `${station} is set up for ${part} when the week begins.`,
    ),
  ];
}
