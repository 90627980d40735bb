/**
 * The library: the program's pure functions with their types. Nothing here reads a disk, a clock's zone or a terminal,
 * so it runs in Node and in a page alike. Rates of the money functions are fractions, flows are by year from 0.
 */

export { type WeekCalendar, weekCalendar } from './core/calendar/week-calendar.js';
export {
  type ChangeoverOrder,
  type ChangeoverOrderOptions,
  changeoverOrder,
} from './core/cost/changeover/changeover-order.js';
export type { CostCaseOptions } from './core/cost/cost-case.js';
export { costCase } from './core/cost/cost-case.js';
export { annualEquivalent } from './core/cost/finance/annual-equivalent.js';
export { type DepreciationMethod, depreciation } from './core/cost/finance/depreciation.js';
export { internalRatesOfReturn } from './core/cost/finance/internal-rates-of-return.js';
export { modifiedRateOfReturn } from './core/cost/finance/modified-rate-of-return.js';
export { netPresentValue } from './core/cost/finance/net-present-value.js';
export { discountedPaybackYears, paybackYears } from './core/cost/finance/payback-years.js';
export type { CostCaseFound, CostCaseOutcome, CostCaseTooLittle, CostCaseWrong } from './core/cost/result.js';
export type { StandingFacts } from './core/cost/standing/standing-facts.js';
export type { OpenSpan } from './core/floor/open-calendar.js';
export { openSpans } from './core/floor/open-spans.js';
export {
  constantServiceInterference,
  type ServiceInterference,
} from './core/interference/constant-service-interference.js';
export {
  type FiniteSource,
  type FiniteSourceResult,
  finiteSourceQueue,
} from './core/interference/finite-source-queue.js';
export { type RandomServicing, randomServicing } from './core/interference/random-servicing.js';
export { type SynchronousTimes, synchronousServicing } from './core/interference/synchronous-servicing.js';
export { wrightInterference } from './core/interference/wright-interference.js';
export type { PointsResult, StationPoints } from './core/io/points.js';
export { points } from './core/io/points.js';
export type { JobPlan } from './core/jobs/job-plan.js';
export { type WeeklyJobOptions, type WeeklyJobs, weeklyJobs } from './core/jobs/weekly-jobs.js';
export { compareLog } from './core/log/against/compare-log.js';
export type * from './core/log/against/compared.js';
export { LogAnalysis, type LogContext, type LogOptions } from './core/log/log-analysis.js';
export type { LogClock, Moment } from './core/log/log-clock.js';
export { type LogFacts, logFacts } from './core/log/log-facts.js';
export type * from './core/log/log-result.js';
export { summarizeLog } from './core/log/summarize-log.js';
export type { MixedAnswer, MixedSolver } from './core/lp/mixed-solver.js';
export type { Caution } from './core/model/cautions.js';
export { cautionsFor } from './core/model/cautions.js';
export type * from './core/model/cell.js';
export type { Complaint } from './core/model/complaint.js';
export { type CostItemFormat, costItems } from './core/model/cost-items.js';
export { moveTime } from './core/model/move-time.js';
export type { Place } from './core/model/place.js';
export type { StopwatchReading } from './core/readings/reading.js';
export {
  type ElementStudy,
  type ReadingsOptions,
  type ReadingsStudy,
  studyReadings,
} from './core/readings/study-readings.js';
export { bestSchedule, type ScheduleOptions } from './core/schedule/best-schedule.js';
export { type RateBoundFound, type RateBoundUnsure, rateBound } from './core/schedule/bound/rate-bound.js';
export { type CheckedSchedule, checkSchedule } from './core/schedule/evaluate/check-schedule.js';
export { type LeastPeriod, leastPeriod, type PeriodArc } from './core/schedule/evaluate/least-period.js';
export type * from './core/schedule/result.js';
export { bestPattern, type ShiftPatterns, shiftPatterns } from './core/shifts/shift-patterns.js';
export { type ShiftYield, type ShiftYieldOptions, shiftYield } from './core/shifts/shift-yield.js';
export { simulateCell } from './core/simulate/simulate-cell.js';
export type { SimulateContext, SimulateOptions } from './core/simulate/simulation-options.js';
export type * from './core/simulate/simulation-result.js';
export {
  type RuleYield,
  type SimulationStudy,
  type StudyOptions,
  studyCell,
} from './core/simulate/study-cell.js';
export type { SizeOptions } from './core/size/grown-cell.js';
export { type IdenticalMachines, identicalCell } from './core/size/identical-machines.js';
export { type SizeResult, sizeCell } from './core/size/size-cell.js';
export { type RowSimulation, type SizeStudy, sizeStudy } from './core/size/size-study.js';
export { standingHours } from './core/standing/standing-hours.js';
export {
  type CellsStudy,
  type CellsStudyName,
  type CellsStudyTypes,
  cellsStudies,
} from './core/studies/cells-studies.js';
export { runStudy, type Study, type StudyName, type StudyTypes, studies } from './core/studies/studies.js';
export type { StudyContext, StudyInputs } from './core/studies/study-inputs.js';
export { type Inspection, inspectTables, type Tables } from './tables/inspect-tables.js';
export { type LogRead, LogReader, type LogReading } from './tables/log/log-reader.js';
export { readCell } from './tables/read-cell.js';
export { type ReadingsRead, readReadings } from './tables/readings-table.js';
export { type TableFormat, tableFormats } from './tables/table-formats.js';
export { TablesError } from './tables/tables-error.js';
export { WorkbookFault } from './workbook/grid.js';
export { inspectWorkbook } from './workbook/inspect-workbook.js';
export { type WorkbookKind, workbookKind } from './workbook/workbook.js';
