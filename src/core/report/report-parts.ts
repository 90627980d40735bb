/**
 * The parts of a report that can be worked out apart from one another, so that each may run on a thread of its own. All
 * start from the cell and its best schedule; none looks at the clock, so the same cell gives the same figures.
 */
import { comparePatterns, type PatternComparison } from '../compare/compare-patterns.js';
import { costCase } from '../cost/cost-case.js';
import { lostContribution } from '../cost/lost-contribution.js';
import type { CostCaseOutcome } from '../cost/result.js';
import type { Cell } from '../model/cell.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import { type ShiftYield, shiftYield } from '../shifts/shift-yield.js';
import { patternNames, weekCalendar } from '../shifts/week-calendar.js';
import { openSpans } from '../simulate/open-spans.js';
import { type SimulationStudy, studyCell } from '../simulate/study-cell.js';
import { sizeSearch } from '../size/size-search.js';
import { type SizeStudy, sizeStudy } from '../size/size-study.js';

/** Replications of every simulation in a report: enough for intervals, few enough to be there at once. */
export const REPORT_REPLICATIONS = 20;
/** Seed of all luck in a report. */
export const REPORT_SEED = 1;

export interface PartInputs {
  readonly cell: Cell;
  /** The best order of the cell. */
  readonly schedule: ScheduleFound;
}

/** What each part gives. */
export interface PartResults {
  /** The same search again, with what one second less and what a change of the cell would bring. */
  readonly schedule: ScheduleOutcome;
  readonly size: SizeStudy;
  /** One for each pattern of shifts.csv. */
  readonly shifts: ShiftYield;
  readonly patterns: PatternComparison;
  readonly simulation: SimulationStudy;
  readonly costCase: CostCaseOutcome;
}

export type PartName = keyof PartResults;

/** One part to work out. */
export interface PartJob<Name extends PartName = PartName> {
  readonly part: Name;
  /** Shift pattern, for the parts that run one. */
  readonly pattern: string | null;
}

const work: { readonly [Name in PartName]: (inputs: PartInputs, pattern: string | null) => unknown } = {
  schedule: ({ cell }) => bestSchedule(cell, { whatIf: true }),
  size: ({ cell }) =>
    sizeStudy({ cell, order: 'best' }, sizeSearch(cell), {
      replications: REPORT_REPLICATIONS,
      seed: REPORT_SEED,
    }),
  shifts: ({ cell, schedule }, pattern) => shiftYield(cell, schedule, pattern!),
  patterns: ({ cell }) => comparePatterns(cell, { replications: REPORT_REPLICATIONS, seed: REPORT_SEED }),
  simulation: ({ cell, schedule }, pattern) =>
    studyCell(cell, {
      replications: REPORT_REPLICATIONS,
      seed: REPORT_SEED,
      dispatch: 'order',
      order: schedule,
      against: ['first', 'nearest', 'longest'],
      ...(pattern === null ? {} : { openSpans: openSpans(weekCalendar(cell.shifts, pattern), cell.shifts) }),
    }),
  costCase: ({ cell, schedule }) => costCase(cell, lostContribution(cell, schedule), { seed: REPORT_SEED }),
};

/** Works out one part; a cell with a schedule never lets it fail. */
export async function reportPart<Name extends PartName>(
  inputs: PartInputs,
  { part, pattern }: PartJob<Name>,
): Promise<PartResults[Name]> {
  return (await work[part](inputs, pattern)) as PartResults[Name];
}

/** The jobs that the tables of a cell allow, the longest first, so that threads end at about the same time. */
export function reportJobs(cell: Cell): PartJob[] {
  const patterns = patternNames(cell.shifts);
  const hasCase = cell.changeovers.length > 0 && cell.costs.length > 0;
  return [
    { part: 'size', pattern: null },
    { part: 'schedule', pattern: null },
    { part: 'simulation', pattern: patterns[0] ?? null },
    ...(hasCase ? [{ part: 'costCase' as const, pattern: null }] : []),
    ...patterns.map((pattern) => ({ part: 'shifts' as const, pattern })),
    ...(patterns.length > 1 ? [{ part: 'patterns' as const, pattern: null }] : []),
  ];
}
