/** Results of a cell, each worked out only when a figure of it is asked. Nothing here depends on the clock. */
import { costCase } from '../cost/cost-case.js';
import { lostContribution } from '../cost/lost-contribution.js';
import type { CostCaseOutcome } from '../cost/result.js';
import { productMix } from '../mix/product-mix.js';
import type { Cell } from '../model/cell.js';
import type { Complaint } from '../model/complaint.js';
import { points } from '../points/points.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import { shiftPatterns } from '../shifts/shift-patterns.js';
import { simulateCell } from '../simulate/simulate-cell.js';
import { sizeCell } from '../size/size-cell.js';
import { type Figure, type FigurePick, pickFigure } from './result-figure.js';

/** Results that a figure can be of; the first piece of its path. */
export const FIGURE_RESULTS = [
  'schedule',
  'shifts',
  'size',
  'simulate',
  'mix',
  'costcase',
  'points',
] as const;
type ResultName = (typeof FIGURE_RESULTS)[number];

export const DEFAULT_FIGURES = [
  'schedule.partsPerH.total',
  'schedule.periodS',
  'schedule.gapPct',
  'schedule.robot.utilizationPct',
] as const;

/** Figures that differ from run to run or from machine to machine. */
const OF_THE_RUN = /^(schedule\.searched\.seconds|simulate\.eventsPerSecond)$/;

/** Figures of the cost case that its risk trials have a say in; for all others the trials are left out. */
const OF_THE_TRIALS = /^costcase\.(risk|riskOfChoice|recommendation|audit)\b/;

export interface FigureOptions {
  /** Nodes that the search of each schedule may look at. */
  readonly nodes: number;
}

export interface CellFigures {
  /** `proven` or `best found`; `infeasible` or `undecided`, where the figures are null. */
  readonly status: ScheduleOutcome['status'];
  readonly picks: readonly FigurePick[];
  /** Values that a result refuses though the tables hold them: the figures are then no answer. */
  readonly complaints: readonly Complaint[];
  /** What is missing before there is a cost case, in words; null where none is asked or nothing is missing. */
  readonly missing: string | null;
}

export function isFigurePath(path: string): boolean {
  return FIGURE_RESULTS.some((name) => path.startsWith(`${name}.`)) && !OF_THE_RUN.test(path);
}

/** @param figures paths such as `schedule.periodS`, for which `isFigurePath` holds */
export async function cellFigures(
  cell: Cell,
  figures: readonly string[],
  { nodes }: FigureOptions,
): Promise<CellFigures> {
  const search = { nodeLimit: nodes, timeLimitS: 1e9 };
  const solve = (c: Cell): ScheduleOutcome => bestSchedule(c, { ...search, improvements: false });
  const asksImprovements = figures.some((path) => path.startsWith('schedule.improvements'));
  const outcome = asksImprovements ? bestSchedule(cell, search) : solve(cell);
  if (!('order' in outcome))
    return {
      status: outcome.status,
      picks: figures.map(() => ({ ok: true, value: null })),
      complaints: [],
      missing: null,
    };
  const make: Record<ResultName, () => unknown> = {
    schedule: () => outcome,
    shifts: () => shiftPatterns(cell, outcome),
    size: () => sizeCell({ cell, order: 'best', sensitivity: false }, solve),
    simulate: () => simulateCell(cell, { losses: false }),
    mix: () => productMix(cell),
    costcase: () => caseOf(cell, outcome, figures),
    points: () => points(cell),
  };
  const results: Partial<Record<ResultName, unknown>> = {};
  const picks: FigurePick[] = [];
  for (const path of figures) {
    const name = FIGURE_RESULTS.find((r) => path.startsWith(`${r}.`))!;
    results[name] ??= await make[name]();
    picks.push(pickFigure({ [name]: results[name] }, path));
  }
  return { status: outcome.status, picks, ...caseFaults(results.costcase as CostCaseOutcome | undefined) };
}

function caseOf(cell: Cell, schedule: ScheduleFound, figures: readonly string[]): CostCaseOutcome {
  const needsTrials = figures.some((path) => OF_THE_TRIALS.test(path));
  return costCase(cell, lostContribution(cell, schedule), needsTrials ? {} : { trials: 1 });
}

function caseFaults(outcome: CostCaseOutcome | undefined): Pick<CellFigures, 'complaints' | 'missing'> {
  return {
    complaints: outcome?.status === 'wrong' ? outcome.complaints : [],
    missing: outcome?.status === 'too little data' ? outcome.recommendation : null,
  };
}

/** The figures of a point; one that this point does not have is null. */
export function figureValues(picks: readonly FigurePick[]): Figure[] {
  return picks.map((pick) => (pick.ok ? pick.value : null));
}
