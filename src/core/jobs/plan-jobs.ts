/**
 * The plan of a week's jobs: fewest parts late, then fewest not made at all, then fewest set-up minutes, then early.
 * Each goal is a mixed-integer program of its own, with the goals before it held at what they reached.
 */
import type { MixedAnswer, MixedSolver } from '../lp/mixed-solver.js';
import type { LinearRow } from '../lp/solve-linear-program.js';
import { labourCostPerWeek } from '../shifts/labour-cost.js';
import type { JobPlan, PlanGoal } from './job-plan.js';
import type { JobProblem } from './job-problem.js';
import { apartRows, type JobProgram, jobProgram, leastOf, type Terms } from './job-program.js';
import { lateReasons } from './late-reasons.js';
import { planFaults } from './plan-faults.js';
import { jobsMade, resourcesUsed, runsMade, setupsMade } from './read-plan.js';

/** Steps that the search for one goal may take when nothing else is said. */
export const DEFAULT_NODES = 2000;

/** Cuts of rounds apart from a walk, one after another; more than any sound answer needs. */
const MOST_CUTS = 50;

/** How far a goal that is held may give way: the solver's own rounding, far below what counts as a part. */
const GIVE = 1e-6;

/**
 * @param problem from `jobProblem`; its cell has the shifts of the pattern
 * @param solve a solver of mixed-integer programs
 * @param nodes most steps of the search for one goal
 */
export function planJobs(problem: JobProblem, solve: MixedSolver, nodes = DEFAULT_NODES): JobPlan {
  const program = jobProgram(problem);
  const found = bestAnswer(problem, program, solve, nodes);
  if (typeof found === 'string') return noPlan(problem, found);
  const jobs = jobsMade(problem, found.at);
  const alone = (j: number): number | null => lateAlone(problem, j, solve, nodes);
  const plan: JobPlan = {
    ...frame(problem),
    status: jobs.some((job) => job.lateParts > 0) ? 'late' : 'in time',
    jobs,
    setups: setupsMade(problem, found.at),
    runs: runsMade(problem, program, found.at),
    resources: resourcesUsed(program, found.at, problem),
    lateParts: jobs.reduce((sum, job) => sum + job.lateParts, 0),
    notMade: jobs.reduce((sum, job) => sum + job.notMade, 0),
    setupMin: dot(program.setupMin, found.at),
    goals: found.goals,
    proven: found.goals.every((goal) => goal.proven),
    why: null,
  };
  const faults = planFaults(problem, plan);
  if (faults.length > 0) return noPlan(problem, `the plan did not hold when checked: ${faults[0]}`);
  return { ...plan, jobs: lateReasons(problem, program, found.at, jobs, alone) };
}

function frame(problem: JobProblem): Pick<JobPlan, 'pattern' | 'stretches' | 'labourPerWeek'> {
  const rows = problem.cell.shifts.filter((s) => s.pattern === problem.pattern);
  return { pattern: problem.pattern, stretches: problem.slots, labourPerWeek: labourCostPerWeek(rows) };
}

function noPlan(problem: JobProblem, why: string): JobPlan {
  return {
    ...frame(problem),
    status: 'unsure',
    jobs: [],
    setups: [],
    runs: [],
    resources: [],
    lateParts: 0,
    notMade: 0,
    setupMin: 0,
    goals: [],
    proven: false,
    why,
  };
}

interface BestAnswer {
  readonly at: Readonly<Record<string, number>>;
  readonly goals: readonly PlanGoal[];
}

/** @returns the answer with its goals, or why there is none */
function bestAnswer(
  problem: JobProblem,
  program: JobProgram,
  solve: MixedSolver,
  nodes: number,
): BestAnswer | string {
  const held: LinearRow[] = [];
  const goals: PlanGoal[] = [];
  const steps: readonly (readonly [PlanGoal['goal'], Readonly<Terms>])[] = [
    ['late parts', program.late],
    ['parts not made', program.missing],
    ['set-up minutes', program.setupMin],
  ];
  let at: Readonly<Record<string, number>> = {};
  for (const [goal, terms] of steps) {
    // A part that is not made is late, so with nothing late there is nothing more to find out.
    const isSettled = goal === 'parts not made' && goals[0]!.value < GIVE;
    const answer = isSettled ? settled(at) : inOnePiece(problem, program, terms, held, solve, nodes);
    if (typeof answer === 'string') return answer;
    at = answer.at;
    goals.push(goalOf(goal, answer));
    held.push({ name: goal, terms, most: answer.value + GIVE * Math.max(1, answer.value / 100) });
  }
  const early = asEarlyAsCanBe(program, at, held, solve);
  return { at: early ?? at, goals };
}

type Settled = Extract<MixedAnswer, { readonly at: unknown }>;

function settled(at: Readonly<Record<string, number>>): Settled {
  return { status: 'optimal', value: 0, bound: 0, at };
}

function goalOf(goal: PlanGoal['goal'], answer: Settled): PlanGoal {
  const value = Math.max(0, answer.value);
  const proven = answer.status === 'optimal';
  return { goal, value, bound: proven ? value : Math.max(0, Math.min(value, answer.bound)), proven };
}

/** Solves until no machine has a round of set-ups apart from its walk; the rows that forbid them are kept. */
function inOnePiece(
  problem: JobProblem,
  program: JobProgram,
  terms: Readonly<Terms>,
  held: LinearRow[],
  solve: MixedSolver,
  nodes: number,
): Settled | string {
  for (let round = 0; round < MOST_CUTS; round++) {
    const answer = solve(leastOf(program, terms, held), nodes);
    if (answer.status === 'unsure') return answer.why;
    if (answer.status === 'infeasible') return 'the solver found no plan at all';
    const apart = apartRows(problem, answer.at);
    if (apart.length === 0) return answer;
    held.push(...apart);
  }
  return 'the set-ups of a machine could not be put into one order';
}

/** With the set-ups as they are, parts are made as early as can be; null where the solver has no answer. */
function asEarlyAsCanBe(
  program: JobProgram,
  at: Readonly<Record<string, number>>,
  held: readonly LinearRow[],
  solve: MixedSolver,
): Readonly<Record<string, number>> | null {
  const fixed = program.whole.map((name): LinearRow => {
    const value = Math.round(at[name] ?? 0);
    return { name: `as planned ${name}`, terms: { [name]: 1 }, least: value, most: value };
  });
  const answer = solve(
    { sense: 'least', objective: program.when, rows: [...program.rows, ...held, ...fixed] },
    1,
  );
  return answer.status === 'optimal' ? answer.at : null;
}

/** Parts of a job that would be late if it were the only one; null where that was not found out. */
function lateAlone(problem: JobProblem, j: number, solve: MixedSolver, nodes: number): number | null {
  const jobs = [problem.jobs[j]!];
  const only: JobProblem = { ...problem, jobs };
  const program = jobProgram(only);
  const answer = solve(leastOf(program, program.late, []), nodes);
  return answer.status === 'optimal' ? answer.value : null;
}

function dot(terms: Readonly<Terms>, at: Readonly<Record<string, number>>): number {
  return Object.entries(terms).reduce((sum, [name, by]) => sum + by * (at[name] ?? 0), 0);
}
