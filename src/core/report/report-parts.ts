/**
 * The parts of a report that can be worked out apart from one another, so that each may run on a thread of its own. All
 * start from the cell and its best schedule; none looks at the clock, so the same cell gives the same figures.
 */

import { patternNames } from '../calendar/week-calendar.js';
import type { PatternComparison } from '../compare/compare-patterns.js';
import type { CostCaseOutcome } from '../cost/result.js';
import type { WeeklyJobs } from '../jobs/weekly-jobs.js';
import type { ProductMix } from '../mix/product-mix.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import type { ShiftYield } from '../shifts/shift-yield.js';
import type { SimulateStudy } from '../simulate/study-programs.js';
import { type GrownCell, grownCell, type SizeOptions } from '../size/grown-cell.js';
import { MOVED_INPUTS, type MovedInput, type SizeMoves, sizeMoves } from '../size/size-moves.js';
import { sizeSearch } from '../size/size-search.js';
import { type SimulatedRows, simulatedRows } from '../size/size-study.js';
import { runStudy, studies } from '../studies/studies.js';
import type { StudyContext, StudyInputs } from '../studies/study-inputs.js';

export interface PartInputs {
  readonly cell: Cell;
  /** The best order of the cell. */
  readonly schedule: ScheduleFound;
}

/** For the parts that go on from the rows of the sizing table. */
export interface SizePartInputs extends PartInputs {
  readonly grown: GrownCell;
}

/** What each part gives. */
export interface PartResults {
  /** The same search again, with what one second less and what a change of the cell would bring. */
  readonly schedule: ScheduleOutcome;
  /** One for each pattern of shifts.csv. */
  readonly shifts: ShiftYield;
  readonly patterns: PatternComparison;
  readonly simulation: SimulateStudy;
  readonly costCase: CostCaseOutcome;
  readonly weeklyJobs: WeeklyJobs;
  /** The rows of the sizing table simulated. */
  readonly sizeRows: SimulatedRows;
  /** One for each kind of input that can move the size. */
  readonly sizeMoves: SizeMoves;
}

export type PartName = keyof PartResults;

/** One part to work out. */
export interface PartJob<Name extends PartName = PartName> {
  readonly part: Name;
  /** Shift pattern, or kind of input, for the parts that take one. */
  readonly of: string | null;
}

/** How a report sizes a cell. */
export function reportSizing(cell: Cell): SizeOptions {
  return { cell, order: 'best' };
}

/** The rows of the sizing table; other parts go on from them. */
export function reportRows(cell: Cell): GrownCell {
  return grownCell(reportSizing(cell), sizeSearch(cell));
}

const work: {
  readonly [Name in PartName]: (inputs: SizePartInputs, of: string | null, context: StudyContext) => unknown;
} = {
  schedule: (inputs, _, context) => runStudy('schedule', inputs, {}, context),
  shifts: async (inputs, pattern, context) =>
    (await runStudy('shifts', inputs, { pattern: pattern! }, context)).patterns[0],
  patterns: (inputs, _, context) => runStudy('patterns', inputs, {}, context),
  simulation: (inputs, _, context) => runStudy('simulate', inputs, {}, context),
  costCase: (inputs, _, context) => runStudy('costcase', inputs, {}, context),
  weeklyJobs: jobsInReport,
  sizeRows: ({ grown }) => simulatedRows(grown, {}),
  sizeMoves: ({ cell, grown }, input) => sizeMoves(grown, input as MovedInput, sizeSearch(cell)),
};

/**
 * Works out one part; a cell with a schedule never lets it fail.
 *
 * @param inputs with the grown cell for the parts of `laterJobs`
 * @param context with the solver for the parts that plan jobs
 */
export async function reportPart(
  inputs: PartInputs | SizePartInputs,
  { part, of }: PartJob,
  context: StudyContext,
): Promise<PartResults[PartName]> {
  return (await work[part](inputs as SizePartInputs, of, context)) as PartResults[PartName];
}

/** The mix of a report; null for a cell without parts.csv. @param context with the solver */
export async function reportMix(
  { cell, schedule }: PartInputs,
  context: StudyContext,
): Promise<ProductMix | null> {
  return cell.parts.length > 0 ? runStudy('mix', { cell, schedule }, {}, context) : null;
}

/** The jobs that threads may begin while the cell is grown: the plan of jobs and the simulations that need nothing of it. */
export function earlyJobs(cell: Cell): PartJob[] {
  const patterns = patternNames(cell.shifts);
  return [
    ...(cell.jobs.length > 0 ? [{ part: 'weeklyJobs' as const, of: null }] : []),
    { part: 'simulation', of: patterns[0] ?? null },
    ...(patterns.length > 1 ? [{ part: 'patterns' as const, of: null }] : []),
  ];
}

/**
 * All other jobs that the tables of a cell allow: simulation first, searches last, for threads that begin at either end
 * so that each stays with one kind of work; short ones between, so that they end together.
 */
export function laterJobs(cell: Cell): PartJob[] {
  const hasCase = cell.changeovers.length > 0 && cell.costs.length > 0;
  return [
    { part: 'sizeRows', of: null },
    ...patternNames(cell.shifts).map((pattern) => ({ part: 'shifts' as const, of: pattern })),
    ...(hasCase ? [{ part: 'costCase' as const, of: null }] : []),
    { part: 'schedule', of: null },
    ...MOVED_INPUTS.map((input) => ({ part: 'sizeMoves' as const, of: input })),
  ];
}

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
