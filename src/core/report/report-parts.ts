/**
 * The parts of a report that can be worked out apart from one another, so that each may run on a thread of its own. All
 * start from the cell and its best schedule; none looks at the clock, so the same cell gives the same figures.
 */
import { comparePatterns, type PatternComparison } from '../compare/compare-patterns.js';
import { costCase } from '../cost/cost-case.js';
import type { CostCaseOutcome } from '../cost/result.js';
import { standingHours } from '../cost/standing/standing-hours.js';
import type { WeeklyJobs } from '../jobs/weekly-jobs.js';
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { Cell } from '../model/cell.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import { type ShiftYield, shiftYield } from '../shifts/shift-yield.js';
import { patternNames, weekCalendar } from '../shifts/week-calendar.js';
import { openSpans } from '../simulate/open-spans.js';
import { type SimulationStudy, studyCell } from '../simulate/study-cell.js';
import { type GrownCell, grownCell, type SizeOptions } from '../size/grown-cell.js';
import { MOVED_INPUTS, type MovedInput, type SizeMoves, sizeMoves } from '../size/size-moves.js';
import { sizeSearch } from '../size/size-search.js';
import { type SimulatedRows, simulatedRows } from '../size/size-study.js';

/** Replications of every simulation in a report: enough for intervals, few enough to be there at once. */
export const REPORT_REPLICATIONS = 20;
/** Seed of all luck in a report. */
export const REPORT_SEED = 1;

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
  readonly simulation: SimulationStudy;
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

const LUCK = { replications: REPORT_REPLICATIONS, seed: REPORT_SEED };

/** Loads a solver of mixed programs; called only where there are jobs to plan. */
type LoadSolver = () => Promise<MixedSolver>;

const work: {
  readonly [Name in PartName]: (inputs: SizePartInputs, of: string | null, solver: LoadSolver) => unknown;
} = {
  schedule: ({ cell }) => bestSchedule(cell, { whatIf: true }),
  shifts: ({ cell, schedule }, pattern) => shiftYield(cell, schedule, pattern!),
  patterns: ({ cell }) => comparePatterns(cell, LUCK),
  simulation: ({ cell, schedule }, pattern) =>
    studyCell(cell, {
      ...LUCK,
      dispatch: 'order',
      order: schedule,
      against: ['first', 'nearest', 'longest'],
      ...(pattern === null ? {} : { openSpans: openSpans(weekCalendar(cell.shifts, pattern), cell.shifts) }),
    }),
  costCase: ({ cell, schedule }) => costCase(cell, standingHours(cell, schedule), { seed: REPORT_SEED }),
  weeklyJobs: async ({ cell, schedule }, _, solver) =>
    (await import('./jobs-in-report.js')).jobsInReport(cell, schedule, solver),
  sizeRows: ({ grown }) => simulatedRows(grown, LUCK),
  sizeMoves: ({ cell, grown }, input) => sizeMoves(grown, input as MovedInput, sizeSearch(cell)),
};

/**
 * Works out one part; a cell with a schedule never lets it fail.
 *
 * @param inputs with the grown cell for the parts of `laterJobs`
 * @param solver for the parts that plan jobs
 */
export async function reportPart(
  inputs: PartInputs | SizePartInputs,
  { part, of }: PartJob,
  solver: LoadSolver,
): Promise<PartResults[PartName]> {
  return (await work[part](inputs as SizePartInputs, of, solver)) as PartResults[PartName];
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
