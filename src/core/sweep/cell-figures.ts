/** Results of a cell, each worked out only when a figure of it is asked. Nothing here depends on the clock. */

import { patternNames } from '../calendar/week-calendar.js';
import type { CostCaseOutcome } from '../cost/result.js';
import { jobsLacking } from '../jobs/case-ways.js';
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import type { Complaint } from '../model/complaint.js';
import { bestSchedule, type ScheduleOptions } from '../schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import { runStudy, type StudyName, type StudyTypes, studies } from '../studies/studies.js';
import { type Figure, type FigurePick, pickFigure } from './result-figure.js';

/** Results that a figure can be of; the first piece of its path. */
export const FIGURE_RESULTS = [
  'schedule',
  'shifts',
  'size',
  'simulate',
  'mix',
  'costcase',
  'io',
  'jobs',
  'setups',
] as const satisfies readonly StudyName[];
type ResultName = (typeof FIGURE_RESULTS)[number];

export const DEFAULT_FIGURES = [
  'schedule.partsPerH.total',
  'schedule.periodS',
  'schedule.gapPct',
  'schedule.robot.utilizationPct',
] as const;

/** Figures that differ from run to run or from machine to machine. */
const OF_THE_RUN = /^(schedule\.searched\.seconds|simulate\.eventsPerSecond)$/;

/** Figures of `shifts` and `size` that need every pattern or row simulated; for all others that is left out. */
const OF_SIMULATED_PATTERNS = /^shifts\.simulated\b/;
const OF_SIMULATED_ROWS = /^size\.(rows\.[^.]+\.simulated|simulation|withStops)\b/;

/** Figures of `simulate` that need the cell simulated once more for each cause. */
const OF_LOSSES = /^simulate\.(losses|ceilingPerShift|stations\.[^.]+\.waits)\b/;

/** Figures of `simulate` that need every other program simulated too. */
const OF_OTHER_PROGRAMS = /^simulate\.(rules|ruleToProgram)\b/;

/** Figures of `size` that need some hundred schedules more. */
const OF_CHANGED_INPUTS = /^size\.(sensitivity|breakPoints|tipping)\b/;

/** Figures of the cost case that its risk trials have a say in; for all others the trials are left out. */
const OF_THE_TRIALS = /^costcase\.(risk|riskOfChoice|recommendation|audit)\b/;

export interface FigureOptions {
  /** Nodes that the search of each schedule may look at; null = as many as the command of the figure takes. */
  readonly nodes: number | null;
  /** Loads the solver of mixed programs; called only where a job plan is asked. */
  readonly mixedSolver: () => Promise<MixedSolver>;
}

export interface CellFigures {
  /** `proven` or `best found`; `infeasible` or `undecided`, where the figures are null. */
  readonly status: ScheduleOutcome['status'];
  readonly picks: readonly FigurePick[];
  /** Values that a result refuses though the tables hold them: the figures are then no answer. */
  readonly complaints: readonly Complaint[];
  /** What is missing before there is a result that is asked, in words, by the result's name. */
  readonly missing: Readonly<Partial<Record<string, string>>>;
}

/** Seconds go by at each point, not milliseconds. */
const SLOW = [OF_SIMULATED_PATTERNS, OF_SIMULATED_ROWS, OF_CHANGED_INPUTS, /^(jobs|simulate)\./];

export function isSlowFigure(path: string): boolean {
  return SLOW.some((kind) => kind.test(path));
}

export function isFigurePath(path: string): boolean {
  return FIGURE_RESULTS.some((name) => path.startsWith(`${name}.`)) && !OF_THE_RUN.test(path);
}

/** @param figures paths such as `schedule.periodS`, for which `isFigurePath` holds */
export async function cellFigures(
  cell: Cell,
  figures: readonly string[],
  options: FigureOptions,
): Promise<CellFigures> {
  const search: ScheduleOptions = options.nodes === null ? {} : { nodeLimit: options.nodes };
  const asksImprovements = figures.some((path) => path.startsWith('schedule.improvements'));
  const outcome = bestSchedule(cell, asksImprovements ? search : { ...search, improvements: false });
  if (!('order' in outcome))
    return {
      status: outcome.status,
      picks: figures.map(() => ({ ok: true, value: null })),
      complaints: [],
      missing: {},
    };
  const asked: Asked = { cell, schedule: outcome, figures, options };
  const results: Partial<Record<ResultName, unknown>> = {};
  const picks: FigurePick[] = [];
  for (const path of figures) {
    const name = FIGURE_RESULTS.find((r) => path.startsWith(`${r}.`))!;
    results[name] ??= (await asFigures[name](asked)) ?? {};
    picks.push(pickFigure({ [name]: results[name] }, path));
  }
  return {
    status: outcome.status,
    picks,
    ...faultsOf(asked, results.costcase as CostCaseOutcome | undefined),
  };
}

interface Asked {
  readonly cell: Cell;
  readonly schedule: ScheduleFound;
  readonly figures: readonly string[];
  readonly options: FigureOptions;
}

/** The studies with the options that leave out what no figure asks for; the figures that are asked stay the same. */
const asFigures: Record<ResultName, (asked: Asked) => Promise<object | null>> = {
  schedule: async ({ schedule }) => studies.schedule.fields(schedule),
  shifts: weeksOf,
  size: (asked) =>
    fieldsOf('size', asked, {
      sensitivity: asks(asked.figures, OF_CHANGED_INPUTS),
      nodes: asked.options.nodes,
      ...(asks(asked.figures, OF_SIMULATED_ROWS) ? {} : { simulation: null }),
    }),
  simulate: (asked) =>
    fieldsOf('simulate', asked, {
      losses: asks(asked.figures, OF_LOSSES),
      ...(asks(asked.figures, OF_OTHER_PROGRAMS) ? {} : { against: [] }),
    }),
  mix: (asked) => fieldsOf('mix', asked, {}),
  costcase: (asked) => fieldsOf('costcase', asked, asks(asked.figures, OF_THE_TRIALS) ? {} : { trials: 1 }),
  io: (asked) => fieldsOf('io', asked, {}),
  jobs: (asked) =>
    jobsLacking(asked.cell) === null
      ? fieldsOf('jobs', asked, onlyPattern(asked.cell, asked.figures))
      : Promise.resolve(null),
  setups: (asked) => fieldsOf('setups', asked, {}),
};

async function fieldsOf<Name extends StudyName>(
  name: Name,
  { cell, schedule, options }: Asked,
  given: Partial<StudyTypes[Name][0]>,
): Promise<object> {
  const result = await runStudy(name, { cell, schedule }, given, options);
  return studies[name].fields(result);
}

async function weeksOf(asked: Asked): Promise<object> {
  const weeks = await fieldsOf('shifts', asked, {});
  if (!asks(asked.figures, OF_SIMULATED_PATTERNS) || asked.cell.shifts.length === 0) return weeks;
  return { ...weeks, simulated: await fieldsOf('patterns', asked, {}) };
}

/** The one pattern that all figures of the jobs are of: the others need no plan then. */
function onlyPattern(cell: Cell, figures: readonly string[]): { readonly pattern?: string } {
  const asked = figures.filter((path) => path.startsWith('jobs.'));
  const pattern = patternNames(cell.shifts).find((name) =>
    asked.every((path) => path.startsWith(`jobs.plans.${name}.`)),
  );
  return pattern === undefined ? {} : { pattern };
}

function asks(figures: readonly string[], kind: RegExp): boolean {
  return figures.some((path) => kind.test(path));
}

function faultsOf(
  { cell, figures }: Asked,
  outcome: CostCaseOutcome | undefined,
): Pick<CellFigures, 'complaints' | 'missing'> {
  const lacking = asks(figures, /^jobs\./) ? jobsLacking(cell) : null;
  return {
    complaints: outcome?.status === 'wrong' ? outcome.complaints : [],
    missing: {
      ...(outcome?.status === 'too little data' ? { costcase: outcome.recommendation } : {}),
      ...(lacking === null ? {} : { jobs: `There is nothing to plan: ${lacking}` }),
    },
  };
}

/** The figures of a point; one that this point does not have is null. */
export function figureValues(picks: readonly FigurePick[]): Figure[] {
  return picks.map((pick) => (pick.ok ? pick.value : null));
}
