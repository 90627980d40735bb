/** A simulation as tables: every figure with its interval, each station's time, and the robot programs side by side. */
import type { SimulationResult, StationEstimate } from '../../core/simulate/simulation-result.js';
import type { RuleYield, SimulationStudy } from '../../core/simulate/study-cell.js';
import type { CsvValue } from '../csv.js';
import { bounds, filledTable, type ResultTable } from './result-table.js';

export const SIMULATION_TABLES = [
  'simulation.csv',
  'simulated-stations.csv',
  'why-stations-wait.csv',
  'robot-programs.csv',
] as const;

export function simulationTables({ result, rules }: SimulationStudy): ResultTable[] {
  if (result.deadlock !== null) return [];
  return [
    { file: 'simulation.csv', rows: figureRows(result) },
    ...filledTable('simulated-stations.csv', shareRows(result), {
      chart: {
        kind: 'stacked bar',
        title: 'Share of the open hours by station, per cent',
        of: 'station',
        values: SHARES.map(([name]) => name),
      },
    }),
    ...filledTable('why-stations-wait.csv', waitRows(result)),
    ...filledTable('robot-programs.csv', programRows(rules)),
  ];
}

/** Shares of a station's open hours; together they are the whole. */
const SHARES = [
  ['working_pct', (s: StationEstimate) => s.processingPct.mean],
  ['load_and_doors_pct', (s: StationEstimate) => s.handlingPct.mean + s.partLoadedPct.mean],
  ['blocked_pct', (s: StationEstimate) => s.waitRobotPct.mean],
  ['starved_pct', (s: StationEstimate) => s.emptyPct.mean],
  ['waits_for_operator_pct', (s: StationEstimate) => s.downWaitPct.mean],
  ['repair_pct', (s: StationEstimate) => s.downRepairPct.mean],
  ['planned_stops_pct', (s: StationEstimate) => s.plannedStopWaitPct.mean + s.plannedStopPct.mean],
  ['changeovers_pct', (s: StationEstimate) => s.changeoverPct.mean],
] as const;

function shownStations({ stations }: SimulationResult): StationEstimate[] {
  return stations.filter((s) => s.kind === 'machine' || s.kind === 'bench');
}

function shareRows(result: SimulationResult): CsvValue[][] {
  return [
    ['station', ...SHARES.map(([name]) => name), 'random_stops_per_shift'],
    ...shownStations(result).map((s) => [
      s.station,
      ...SHARES.map(([, of]) => of(s)),
      s.randomStopsPerShift.mean,
    ]),
  ];
}

function waitRows(result: SimulationResult): CsvValue[][] {
  return [
    ['station', 'robot_busy_pct', 'next_full_or_down_pct', 'comes_later_in_cycle_pct', 'no_part_pct'],
    ...shownStations(result).flatMap(({ station, waits }) =>
      waits === null
        ? []
        : [
            [
              station,
              waits.robotBusyPct.mean,
              waits.nextFullPct.mean,
              waits.comesLaterPct.mean,
              waits.noPartPct.mean,
            ],
          ],
    ),
  ];
}

function programRows(rules: readonly RuleYield[]): CsvValue[][] {
  const head = ['robot_program', 'parts_per_shift', 'ci_low', 'ci_high', 'p10', 'p50', 'p90'];
  return [
    [...head, 'difference', 'difference_low', 'difference_high', 'clear', 'locks_up'],
    ...rules.map(({ dispatch, partsPerShift: made, difference, clear, deadlock }) => [
      dispatch,
      ...(made === null ? Array<null>(6).fill(null) : [...bounds(made), made.p10, made.p50, made.p90]),
      ...(difference === null ? [null, null, null, null] : [...bounds(difference), clear]),
      deadlock !== null,
    ]),
  ];
}

/** Shares are of the station's open hours. */
function figureRows({ stations, robot, partsPerShift, losses }: SimulationResult): CsvValue[][] {
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
