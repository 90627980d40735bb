/** Everything that a report shows, as one plain object put together from its parts. */

import type { PatternComparison } from '../compare/compare-patterns.js';
import type { CellComparison } from '../compare/comparison.js';
import type { CostCaseFound, CostCaseOutcome, CostCaseTooLittle } from '../cost/result.js';
import { type PointsResult, points } from '../io/points.js';
import type { WeeklyJobs } from '../jobs/weekly-jobs.js';
import type { ProductMix } from '../mix/product-mix.js';
import type { Cell } from '../model/cell.js';
import { type PatternPerformance, patternPerformance } from '../performance/pattern-performance.js';
import type { ScheduleFound } from '../schedule/result.js';
import { bestPattern, type ShiftPatterns } from '../shifts/shift-patterns.js';
import type { ShiftYield } from '../shifts/shift-yield.js';
import type { SimulateStudy } from '../simulate/study-programs.js';
import type { GrownCell } from '../size/grown-cell.js';
import { sizeResult } from '../size/size-cell.js';
import { type SizeStudy, withSimulation } from '../size/size-study.js';
import { type PartJob, type PartName, type PartResults, reportSizing } from './report-parts.js';
import { type WeekOptions, weekOptions } from './week-options.js';

/** A part is null where the tables that it needs are not there. */
export interface ReportResults {
  readonly cell: Cell;
  readonly schedule: ScheduleFound;
  readonly size: SizeStudy;
  readonly shifts: ShiftPatterns | null;
  readonly performance: readonly PatternPerformance[];
  /** The patterns simulated under the same luck; null with fewer than two. */
  readonly patterns: PatternComparison | null;
  readonly simulation: SimulateStudy;
  /** Pattern that was simulated; null = day and night. */
  readonly simulatedPattern: string | null;
  readonly mix: ProductMix | null;
  /** Items that are lacking are told in place of a case. */
  readonly costCase: CostCaseFound | CostCaseTooLittle | null;
  readonly points: PointsResult | null;
  /** null where no jobs are given; without plans where they are too many for a report, which its text says. */
  readonly jobs: WeeklyJobs | null;
  /** null where no further folders are given. */
  readonly comparison: CellComparison | null;
  /** The best week, and what a change adds to it; null where no shifts are given. */
  readonly week: WeekOptions | null;
}

/** A job with what came of it. */
export interface PartDone {
  readonly job: PartJob;
  readonly result: PartResults[PartName];
}

/** @throws RangeError where a part that every report has is not among those done */
export function assembleReport(
  cell: Cell,
  schedule: ScheduleFound,
  grown: GrownCell,
  done: readonly PartDone[],
  comparison: CellComparison | null,
  mix: ProductMix | null,
): ReportResults {
  const all = <Name extends PartName>(name: Name) =>
    done.filter(({ job }) => job.part === name).map(({ result }) => result as PartResults[Name]);
  const [searched] = all('schedule');
  const [rows] = all('sizeRows');
  const [simulation] = all('simulation');
  if (rows === undefined || simulation === undefined) throw new RangeError('a part of the report is missing');
  const weeks = all('shifts');
  const results = {
    cell,
    schedule: searched !== undefined && 'order' in searched ? searched : schedule,
    size: withSimulation(sizeResult(reportSizing(cell), grown, all('sizeMoves')), grown, rows),
    shifts: shiftsOf(weeks, schedule),
    performance: weeks.map((week) => patternPerformance(cell, week)),
    patterns: all('patterns')[0] ?? null,
    simulation,
    simulatedPattern: done.find(({ job }) => job.part === 'simulation')!.job.of,
    mix,
    costCase: caseOf(all('costCase')[0]),
    points: cell.signals.length > 0 ? points(cell) : null,
    jobs: all('weeklyJobs')[0] ?? null,
    comparison,
  };
  return { ...results, week: weekOptions(results) };
}

function shiftsOf(patterns: readonly ShiftYield[], { partsPerH }: ScheduleFound): ShiftPatterns | null {
  return patterns.length === 0 ? null : { patterns, best: bestPattern(patterns), partsPerH, warnings: [] };
}

/** Values out of their range are complaints about the tables, told before a report is begun. */
function caseOf(outcome: CostCaseOutcome | undefined): ReportResults['costCase'] {
  return outcome === undefined || outcome.status === 'wrong' ? null : outcome;
}
