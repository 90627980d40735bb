/**
 * The plan of a week's jobs: fewest parts late, then fewest not made at all, then fewest set-up minutes, then early.
 *
 * A plan is there from the start: tasks laid out in time by a plain rule and improved by trials, their amounts worked out by
 * a linear program. Where the set-ups of the week are few enough, each goal is then a mixed-integer program of its own,
 * with the goals before it held at what was reached: it may find a better plan, and says what none can go below.
 * Otherwise the hours of machines, robot and people give that bound.
 */

import type { MixedAnswer, MixedSolver } from '../lp/mixed-solver.js';
import type { LinearRow } from '../lp/solve-linear-program.js';
import { type Terms, valueAt } from '../lp/terms.js';
import { labourCostPerWeek } from '../shifts/labour-cost.js';
import { hoursBound, hoursProgram } from './hours-bound.js';
import { improveTasks, leastSetupMin } from './improve-tasks.js';
import { type JobFrame, jobFrame } from './job-frame.js';
import type { JobPlan, PlanGoal } from './job-plan.js';
import { type JobProblem, onlyJob } from './job-problem.js';
import { apartRows, choicesOf, type JobProgram, jobProgram, walksOf } from './job-program.js';
import { jobShop } from './job-shop.js';
import { lateReasons, type WeekAmounts } from './late-reasons.js';
import { layOutWalks } from './lay-out-walks.js';
import { GIVE, heldRow, madeAmounts } from './made-amounts.js';
import { planFaults } from './plan-faults.js';
import { jobsMade, resourcesUsed, runsMade, setupsMade } from './read-plan.js';
import type { WeekLayout } from './week-layout.js';

export interface PlanLimits {
  /** Steps that the search for one goal may take. */
  readonly nodes?: number;
  /** Seconds for this plan; without it the work is limited by counts alone. */
  readonly seconds?: number;
}

/** Steps that the search for one goal may take when nothing else is said. */
export const DEFAULT_JOB_NODES = 300;
/** Yes-or-no choices of a week up to which all of its set-ups are looked at. */
const MOST_CHOICES = 400;
/** Work of the trials: lists tried times tasks in them, and the most lists; a few tasks need only few. */
const TRIAL_WORK = 800_000;
const MOST_TRIALS = 5000;
/** Steps of the search for what could be made of one job alone. */
const NODES_ALONE = 30;
/** Cuts of rounds apart from a walk, one after another; more than any sound answer needs. */
const MOST_CUTS = 50;
/** Late jobs for which it is found out what could be made of them alone. */
const MOST_ALONE = 20;
/** Goals closer than this are equal: the solver's gap. */
const SAME = 1e-3;

/**
 * @param problem from `jobProblem`; its cell has the shifts of the pattern
 * @param solve a solver of mixed-integer programs
 */
export function planJobs(problem: JobProblem, solve: MixedSolver, limits: PlanLimits = {}): JobPlan {
  const clock = clockOf(limits.seconds);
  const limited = within(clock, solve);
  const frame = jobFrame(problem);
  const shop = jobShop(problem, frame);
  const count = problem.jobs.length;
  const trials = Math.min(MOST_TRIALS, 100 + 200 * count * count, Math.ceil(TRIAL_WORK / count));
  const { layout } = improveTasks(shop, trials, () => clock.isOver(0.5));
  // The amounts are what makes it a plan, so they are worked out whatever the time.
  const first = weekOf(problem, frame, layout, solve);
  const isSmall = choicesOf(problem) <= MOST_CHOICES;
  const leastMin = leastSetupMin(shop);
  const found = isSmall
    ? byPrograms(problem, frame, first, leastMin, limited, limits.nodes ?? DEFAULT_JOB_NODES)
    : clock.isOver(1)
      ? { week: first, goals: goalsOf(first, [0, 0, 0]) }
      : byHours(problem, frame, first, leastMin, limited);
  const jobs = jobsMade(problem, found.week.at);
  const proven = found.goals.every((goal) => goal.proven);
  const plan: JobPlan = {
    pattern: problem.pattern,
    stretches: problem.slots,
    labourPerWeek: labourCostPerWeek(problem.cell.shifts.filter((s) => s.pattern === problem.pattern)),
    status: jobs.some((job) => job.lateParts > 0) ? 'late' : 'in time',
    jobs,
    setups: setupsMade(problem, found.week.layout),
    runs: runsMade(problem, frame, found.week.layout, found.week.at),
    resources: resourcesUsed(problem, frame, found.week.layout, found.week.at),
    lateParts: jobs.reduce((sum, job) => sum + job.lateParts, 0),
    notMade: jobs.reduce((sum, job) => sum + job.notMade, 0),
    setupMin: setupMinOf(problem, found.week.layout),
    goals: found.goals,
    proven,
    timeUp: !proven && clock.hasEnded(),
    boundBy: isSmall ? 'set-ups' : 'hours',
  };
  const faults = planFaults(problem, plan);
  if (faults.length > 0) throw new Error(`the job plan did not hold when checked: ${faults[0]}`);
  const late = jobs.flatMap((job, j) => (job.lateParts > 0 ? [j] : [])).slice(0, MOST_ALONE);
  const alone = (j: number): number | null =>
    late.includes(j) && !clock.isOver(1) ? lateAlone(problem, j, limited) : null;
  return { ...plan, jobs: lateReasons(problem, found.week, jobs, alone) };
}

interface Clock {
  /** True where more than this share of the time is over; never without a limit. */
  readonly isOver: (share: number) => boolean;
  /** True where some work has been told that its time is over. */
  readonly hasEnded: () => boolean;
  readonly leftS: () => number | undefined;
}

function clockOf(seconds: number | undefined): Clock {
  if (seconds === undefined) return { isOver: () => false, hasEnded: () => false, leftS: () => undefined };
  const startMs = Date.now();
  const goneS = (): number => (Date.now() - startMs) / 1000;
  let ended = false;
  return {
    isOver: (share) => {
      const over = goneS() >= share * seconds;
      ended ||= over;
      return over;
    },
    hasEnded: () => ended,
    leftS: () => Math.max(0, seconds - goneS()),
  };
}

/** The solver with what is left of the time; nothing is given to it any more when that is over. */
function within(clock: Clock, solve: MixedSolver): MixedSolver {
  return (program, nodes) => {
    if (clock.isOver(1)) return { status: 'unsure', why: 'the time is over' };
    const answer = solve(program, nodes, clock.leftS());
    // Asked once more, so that a solve that was cut short counts as ended by the clock.
    if (answer.status !== 'optimal') clock.isOver(1);
    return answer;
  };
}

interface Week extends WeekAmounts {
  /** Late, not made, set-up minutes. */
  readonly values: readonly [number, number, number];
}

/** A week with its amounts; where the solver has none, nothing is made in it. */
function weekOf(problem: JobProblem, frame: JobFrame, layout: WeekLayout, solve: MixedSolver): Week {
  const made = madeAmounts(problem, frame, layout, solve);
  const wanted = problem.jobs.reduce((sum, job) => sum + job.quantity, 0);
  const setupMin = setupMinOf(problem, layout);
  if (made === null) return { frame, layout, at: {}, values: [wanted, wanted, setupMin] };
  const values = [valueAt(frame.late, made), valueAt(frame.missing, made), setupMin] as const;
  return { frame, layout, at: made, values: [clean(values[0]), clean(values[1]), setupMin] };
}

function clean(value: number): number {
  return Math.abs(value) < 10 * GIVE ? 0 : Math.max(0, value);
}

function setupMinOf({ machines }: JobProblem, layout: WeekLayout): number {
  return layout.reduce((sum, { m, from, to }) => sum + machines[m]!.minutes[from + 1]![to]!, 0);
}

interface FoundWeek {
  readonly week: Week;
  readonly goals: readonly PlanGoal[];
}

const GOALS: readonly PlanGoal['goal'][] = ['late parts', 'parts not made', 'set-up minutes'];

/** True where a is better in the first goal in which they differ. */
function isBetter(a: Week, b: Week): boolean {
  const k = a.values.findIndex((value, i) => Math.abs(value - b.values[i]!) > SAME / 10);
  return k >= 0 && a.values[k]! < b.values[k]!;
}

/** Goals with what bounds them; one is proven only where those before it are. */
function goalsOf({ values }: Week, bounds: readonly number[]): PlanGoal[] {
  let isProven = true;
  return GOALS.map((goal, k) => {
    const value = values[k]!;
    const isReached = value <= bounds[k]! + SAME * Math.max(1, value / 1000);
    isProven = isProven && isReached;
    return { goal, value, bound: isReached ? value : Math.max(0, bounds[k]!), proven: isProven };
  });
}

/** What a goal is never below: nothing, and where all parts are made, one set-up for each of a part's steps. */
function leastKnown({ values }: Week, k: number, leastMin: number): number {
  return k === 2 && values[1] < GIVE ? leastMin : 0;
}

function byPrograms(
  problem: JobProblem,
  frame: JobFrame,
  first: Week,
  leastMin: number,
  solve: MixedSolver,
  nodes: number,
): FoundWeek {
  const program = jobProgram(problem, frame);
  const cuts: LinearRow[] = [];
  const held: LinearRow[] = [];
  const bounds: number[] = [];
  let week = first;
  for (const [k, terms] of [frame.late, frame.missing, program.setupMin].entries()) {
    const least = leastKnown(week, k, leastMin);
    if (week.values[k]! < least + GIVE) bounds.push(least);
    else {
      const found = better(problem, frame, program, terms, week, [...held], cuts, solve, nodes);
      week = found.week;
      bounds.push(Math.max(found.bound, least));
    }
    held.push(heldRow(GOALS[k]!, terms, week.values[k]!));
  }
  return { week, goals: goalsOf(week, bounds) };
}

/** The better of a week and those that the program's answer can be laid out to, and what no week goes below. */
function better(
  problem: JobProblem,
  frame: JobFrame,
  program: JobProgram,
  terms: Readonly<Terms>,
  week: Week,
  held: readonly LinearRow[],
  cuts: LinearRow[],
  solve: MixedSolver,
  nodes: number,
): { readonly week: Week; readonly bound: number } {
  const answer = inOnePiece(problem, program, terms, held, cuts, solve, nodes);
  if (answer.status === 'unsure' || answer.status === 'infeasible') return { week, bound: 0 };
  const laidOut = (['ready first', 'most work first'] as const).map((rule) => {
    const layout = layOutWalks(problem, frame, walksOf(problem, program, answer.at), answer.at, rule);
    return weekOf(problem, frame, layout, solve);
  });
  return {
    week: laidOut.reduce((best, other) => (isBetter(other, best) ? other : best), week),
    bound: answer.bound,
  };
}

/** Solves until no machine has a round of set-ups apart from its walk; the rows that forbid them are kept. */
function inOnePiece(
  problem: JobProblem,
  program: JobProgram,
  terms: Readonly<Terms>,
  held: readonly LinearRow[],
  cuts: LinearRow[],
  solve: MixedSolver,
  nodes: number,
): MixedAnswer {
  let bound = 0;
  for (let round = 0; round < MOST_CUTS; round++) {
    const { rows, whole } = program;
    const least = { sense: 'least', objective: terms, rows: [...rows, ...held, ...cuts], whole } as const;
    const answer = solve(least, nodes);
    if (answer.status === 'unsure' || answer.status === 'infeasible') break;
    bound = Math.max(bound, answer.bound);
    const apart = apartRows(problem, program, answer.at);
    if (apart.length === 0) return answer;
    cuts.push(...apart);
  }
  return { status: 'limit', value: Number.POSITIVE_INFINITY, bound, at: {} };
}

function byHours(
  problem: JobProblem,
  frame: JobFrame,
  week: Week,
  leastMin: number,
  solve: MixedSolver,
): FoundWeek {
  const program = hoursProgram(problem, frame);
  const held: LinearRow[] = [];
  const bounds = [program.late, program.missing, program.setupMin].map((terms, k) => {
    const least = leastKnown(week, k, leastMin);
    const isSettled = week.values[k]! < least + GIVE;
    const bound = isSettled ? least : Math.max(least, hoursBound(program, terms, held, solve));
    held.push(heldRow(GOALS[k]!, terms, week.values[k]!));
    return bound;
  });
  return { week, goals: goalsOf(week, bounds) };
}

/** Parts of a job that would be late if it were the only one; null where that was not found out. */
function lateAlone(problem: JobProblem, j: number, solve: MixedSolver): number | null {
  const only = onlyJob(problem, j);
  const frame = jobFrame(only);
  const shop = jobShop(only, frame);
  const { layout } = improveTasks(shop, 50, () => false);
  const first = weekOf(only, frame, layout, solve);
  if (first.values[0] < GIVE) return 0;
  const isSmall = choicesOf(only) <= MOST_CHOICES;
  const { week, bound } = isSmall
    ? better(only, frame, jobProgram(only, frame), frame.late, first, [], [], solve, NODES_ALONE)
    : { week: first, bound: lateByHours(only, frame, solve) };
  const late = week.values[0];
  return Math.ceil(late - SAME) <= Math.ceil(bound - SAME) ? late : null;
}

function lateByHours(problem: JobProblem, frame: JobFrame, solve: MixedSolver): number {
  const program = hoursProgram(problem, frame);
  return hoursBound(program, program.late, [], solve, true);
}
