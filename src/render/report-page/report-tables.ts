/** The figures of a report as tables for a spreadsheet; columns carry their units, texts that would run are neutralised. */
import type { CostCaseFound } from '../../core/cost/result.js';
import type { CsvForm } from '../../core/model/csv-form.js';
import type { ReportResults } from '../../core/report/report-results.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { ShiftPatterns } from '../../core/shifts/shift-patterns.js';
import type { SimulationResult } from '../../core/simulate/simulation-result.js';
import { type CsvValue, csvText } from '../csv.js';
import { JOB_FILES, jobTables } from '../jobs.js';
import { movesOfRound } from '../robot-round.js';
import type { ShownSize } from '../size.js';
import type { ResultTable } from '../tables-book.js';

type Rows = readonly (readonly CsvValue[])[];

/** Names of all tables that a report may have. */
export const REPORT_TABLES = [
  'events.csv',
  'round.csv',
  'station-times.csv',
  'size.csv',
  'patterns.csv',
  'shift-losses.csv',
  'changeover-times.csv',
  'simulation.csv',
  'mix.csv',
  'compare.csv',
  'cash-flow.csv',
  'points.csv',
  ...JOB_FILES,
] as const;

/** The tables as CSV, by file name. */
export function reportTables(results: ReportResults, form: CsvForm): Record<string, string> {
  return Object.fromEntries(resultTables(results).map(({ file, rows }) => [file, csvText(rows, 4, form)]));
}

/** A part that is not there has no table. */
export function resultTables(results: ReportResults): ResultTable[] {
  const { schedule, shifts, size, simulation, costCase, points, comparison, mix, jobs } = results;
  const tables: readonly (readonly [name: (typeof REPORT_TABLES)[number], rows: Rows | null])[] = [
    ['events.csv', eventRows(schedule)],
    ['round.csv', roundRows(schedule)],
    ['station-times.csv', stationRows(schedule)],
    ['size.csv', sizeRows(size)],
    ['patterns.csv', shifts && patternRows(shifts)],
    ['shift-losses.csv', shifts && lossRows(shifts)],
    ['changeover-times.csv', shifts && changeoverRows(shifts)],
    ['simulation.csv', simulationRows(simulation.result)],
    ['mix.csv', mix && mixRows(mix)],
    ['compare.csv', comparison && comparisonRows(comparison)],
    ['cash-flow.csv', costCase?.status === 'found' ? flowRows(costCase) : null],
    ['points.csv', points && pointRows(points)],
  ];
  const found = tables.flatMap(([file, rows]) => (rows === null ? [] : [{ file, rows }]));
  return [...found, ...(jobs === null ? [] : jobTables(jobs))];
}

function eventRows({ events }: ScheduleFound): Rows {
  return [
    ['start_s', 'end_s', 'action', 'station', 'part', 'step', 'hand'],
    ...events.map((e) => [e.startS, e.endS, e.action, e.station, e.part, e.step, e.hand]),
  ];
}

function roundRows(schedule: ScheduleFound): Rows {
  return [
    ['first_act', 'last_act', 'start_s', 'end_s', 'robot', 'wait_s', 'waits_at'],
    ...movesOfRound(schedule).map((m) => [m.first, m.last, m.startS, m.endS, m.text, m.waitS, m.waitsAt]),
  ];
}

function stationRows({ stations }: ScheduleFound): Rows {
  return [
    ['station', 'kind', 'processing_s', 'handling_s', 'wait_robot_s', 'empty_s', 'utilization_pct'],
    ...stations.map((s) => [
      s.station,
      s.kind,
      s.processingS,
      s.handlingS,
      s.waitRobotS,
      s.emptyS,
      s.utilizationPct,
    ]),
  ];
}

function sizeRows({ rows, recommended }: ShownSize): Rows {
  return [
    [
      'machines',
      'parts_per_h',
      'parts_per_shift',
      'robot_pct',
      'machines_pct',
      'wait_robot_pct',
      'cost_per_part',
      'contribution_per_h',
      'proven',
      'recommended',
      'simulated_parts_per_shift',
      'simulated_low',
      'simulated_high',
      'simulated_wait_robot_pct',
      'simulated_stopped_pct',
    ],
    ...rows.map((r) => [
      r.machines,
      r.partsPerH,
      r.partsPerShift,
      r.robotUtilizationPct,
      r.machineUtilizationPct,
      r.waitRobotPct,
      r.costPerPart,
      r.contributionPerH,
      r.proven,
      r.machines === recommended?.machines,
      r.simulated?.partsPerShift.mean ?? null,
      r.simulated?.partsPerShift.ciLow ?? null,
      r.simulated?.partsPerShift.ciHigh ?? null,
      r.simulated?.waitRobotPct ?? null,
      r.simulated?.stoppedPct ?? null,
    ]),
  ];
}

function patternRows({ patterns }: ShiftPatterns): Rows {
  return [
    [
      'pattern',
      'hours_per_week',
      'attended_h',
      'unattended_h',
      'shifts_per_week',
      'good_parts_per_shift',
      'good_parts_per_week',
      'ceiling_per_week',
      'robot_pct',
      'labour_per_week',
      'labour_per_part',
      'contribution_per_week',
    ],
    ...patterns.map((p) => [
      p.pattern,
      p.hoursPerWeek,
      p.attendedH,
      p.unattendedH,
      p.shiftsPerWeek,
      p.partsPerShift.total!,
      p.partsPerWeek.total!,
      p.ceilingPerWeek.total!,
      p.robotUtilizationPct,
      p.labourCostPerWeek,
      p.labourCostPerPart,
      p.contributionPerWeek,
    ]),
  ];
}

function lossRows({ patterns }: ShiftPatterns): Rows {
  return [
    ['pattern', 'cause', 'parts_per_week'],
    ...patterns.flatMap((p) => [
      [p.pattern, 'maximum (steady rate x open hours)', p.ceilingPerWeek.total!],
      ...p.losses.map((loss) => [p.pattern, loss.cause, -loss.partsPerWeek]),
      [p.pattern, 'good parts', p.partsPerWeek.total!],
    ]),
  ];
}

/** The fullest week of each pattern; null where nothing is changed over. */
function changeoverRows({ patterns }: ShiftPatterns): Rows | null {
  const rows = patterns.flatMap((p) =>
    p.changeovers.map((c) => [
      p.pattern,
      c.station,
      c.from,
      c.standsUntil,
      c.until,
      c.standMin,
      c.minutes,
      c.way,
      c.wayMin,
      c.people,
    ]),
  );
  if (rows.length === 0) return null;
  const units = ['stand_min', 'work_min', 'way', 'way_min', 'people'];
  return [['pattern', 'station', 'begins', 'runs_again', 'people_done', ...units], ...rows];
}

/** Shares are of the station's open hours. */
function simulationRows({ stations, robot, partsPerShift, losses }: SimulationResult): Rows {
  const bounds = (e: { mean: number; ciLow: number | null; ciHigh: number | null }) => [
    e.mean,
    e.ciLow,
    e.ciHigh,
  ];
  return [
    ['of', 'figure', 'mean', 'ci_low', 'ci_high'],
    ...Object.entries(partsPerShift).map(([part, made]) => [part, 'good_parts_per_shift', ...bounds(made)]),
    ...losses.map((loss) => [loss.cause, 'lost_parts_per_shift', ...bounds(loss)]),
    ...stations.flatMap((s) => [
      [s.station, 'processing_pct', ...bounds(s.processingPct)],
      [s.station, 'handling_pct', ...bounds(s.handlingPct)],
      [s.station, 'part_loaded_pct', ...bounds(s.partLoadedPct)],
      [s.station, 'wait_robot_pct', ...bounds(s.waitRobotPct)],
      [s.station, 'empty_pct', ...bounds(s.emptyPct)],
      [s.station, 'down_wait_pct', ...bounds(s.downWaitPct)],
      [s.station, 'down_repair_pct', ...bounds(s.downRepairPct)],
      [s.station, 'planned_stop_wait_pct', ...bounds(s.plannedStopWaitPct)],
      [s.station, 'planned_stop_pct', ...bounds(s.plannedStopPct)],
    ]),
    ['robot', 'busy_pct', ...bounds(robot.utilizationPct)],
    ['robot', 'wait_pct', ...bounds(robot.waitPct)],
  ];
}

function mixRows({ patterns }: NonNullable<ReportResults['mix']>): Rows {
  return [
    ['pattern', 'part', 'good_parts_per_week', 'demand_per_week'],
    ...patterns.flatMap((p) =>
      p.parts.map((part) => [p.pattern ?? 'the week', part.part, part.goodPerWeek, part.demandPerWeek]),
    ),
  ];
}

function comparisonRows({ differences }: NonNullable<ReportResults['comparison']>): Rows {
  return [
    ['first', 'second', 'parts_per_shift', 'ci_low', 'ci_high', 'clear'],
    ...differences.map(({ a, b, partsPerShift: d, clear }) => [a, b, d.mean, d.ciLow, d.ciHigh, clear]),
  ];
}

/** Money out is negative. */
function flowRows({ alternatives, horizonYears }: CostCaseFound): Rows {
  return [
    [
      'year',
      ...alternatives.map((a) => a.name),
      ...alternatives.flatMap((a) => (a.increment ? [`${a.name} less the harness`] : [])),
    ],
    ...Array.from({ length: horizonYears + 1 }, (_, year) => [
      year,
      ...alternatives.map((a) => a.cashFlow[year]!),
      ...alternatives.flatMap((a) => (a.increment ? [a.increment.cashFlow[year]!] : [])),
    ]),
  ];
}

function pointRows({ stations }: NonNullable<ReportResults['points']>): Rows {
  return [
    [
      'station',
      'inputs',
      'outputs',
      'boxes',
      'spare_inputs',
      'spare_outputs',
      'amps',
      'amps_with_reserve',
      'voltage_drop_pct',
    ],
    ...stations.map((s) => [
      s.station,
      s.inputs,
      s.outputs,
      s.boxes,
      s.spareInputs,
      s.spareOutputs,
      s.amps,
      s.ampsWithReserve,
      s.voltageDropPct,
    ]),
  ];
}
