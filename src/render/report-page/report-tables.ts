/** The tables of a report: those of every question that it answers. */
import type { ReportResults } from '../../core/report/report-results.js';
import {
  COMPARISON_TABLES,
  comparisonTables,
  type FolderChanges,
} from '../result-tables/comparison-tables.js';
import { COST_TABLES, costTables } from '../result-tables/cost-tables.js';
import { JOB_TABLES, jobTables } from '../result-tables/job-tables.js';
import { MIX_TABLES, mixTables } from '../result-tables/mix-tables.js';
import { POINT_TABLES, pointTables } from '../result-tables/point-tables.js';
import type { ResultTable } from '../result-tables/result-table.js';
import { SCHEDULE_TABLES, scheduleTables } from '../result-tables/schedule-tables.js';
import { SHIFT_TABLES, shiftTables } from '../result-tables/shift-tables.js';
import { SIMULATION_TABLES, simulationTables } from '../result-tables/simulation-tables.js';
import { SIZE_TABLES, sizeTables } from '../result-tables/size-tables.js';

/** Names of all tables that a report may have. */
export const REPORT_TABLES = [
  ...SCHEDULE_TABLES,
  ...SIZE_TABLES,
  ...SHIFT_TABLES,
  ...SIMULATION_TABLES,
  ...MIX_TABLES,
  ...COMPARISON_TABLES,
  ...COST_TABLES,
  ...POINT_TABLES,
  ...JOB_TABLES,
] as const;

/** A part that is not there has no table. */
export function resultTables(results: ReportResults, changes: readonly FolderChanges[]): ResultTable[] {
  const { schedule, shifts, size, simulation, costCase, points, comparison, mix, jobs } = results;
  return [
    ...scheduleTables(schedule),
    ...sizeTables(size),
    ...(shifts === null ? [] : shiftTables(shifts, results.performance, results.patterns)),
    ...simulationTables(simulation),
    ...(mix === null ? [] : mixTables(mix)),
    ...(comparison === null ? [] : comparisonTables(comparison, changes)),
    ...(costCase?.status === 'found' ? costTables(costCase) : []),
    ...(points === null ? [] : pointTables(points)),
    ...(jobs === null ? [] : jobTables(jobs)),
  ];
}
