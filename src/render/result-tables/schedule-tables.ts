/** A schedule as tables: its events, the robot's moves, who works and waits, the critical path, what changes bring. */
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { CsvValue } from '../csv.js';
import { movesOfRound } from '../robot-round.js';
import { robotShares } from '../schedule.js';
import { filledTable, type ResultTable } from './result-table.js';

export const SCHEDULE_TABLES = [
  'events.csv',
  'round.csv',
  'station-times.csv',
  'robot-times.csv',
  'critical-path.csv',
  'gain-per-second.csv',
  'what-if.csv',
] as const;

export function scheduleTables(schedule: ScheduleFound): ResultTable[] {
  return [
    { file: 'events.csv', rows: eventRows(schedule) },
    { file: 'round.csv', rows: roundRows(schedule) },
    {
      file: 'station-times.csv',
      rows: stationRows(schedule),
      chart: {
        kind: 'stacked bar',
        title: 'Seconds of one robot cycle by station',
        of: 'station',
        values: ['processing_s', 'handling_s', 'wait_robot_s', 'empty_s'],
      },
    },
    { file: 'robot-times.csv', rows: robotRows(schedule) },
    { file: 'critical-path.csv', rows: pathRows(schedule) },
    ...filledTable('gain-per-second.csv', gainRows(schedule)),
    ...filledTable('what-if.csv', whatIfRows(schedule), {
      chart: { kind: 'bar', title: 'Parts an hour with each change', of: 'change', values: ['parts_per_h'] },
    }),
  ];
}

function eventRows({ events }: ScheduleFound): CsvValue[][] {
  return [
    ['start_s', 'end_s', 'action', 'station', 'part', 'step', 'hand'],
    ...events.map((e) => [e.startS, e.endS, e.action, e.station, e.part, e.step, e.hand]),
  ];
}

function roundRows(schedule: ScheduleFound): CsvValue[][] {
  return [
    ['first_act', 'last_act', 'start_s', 'end_s', 'robot', 'wait_s', 'waits_at'],
    ...movesOfRound(schedule).map((m) => [m.first, m.last, m.startS, m.endS, m.text, m.waitS, m.waitsAt]),
  ];
}

function stationRows({ stations }: ScheduleFound): CsvValue[][] {
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

function robotRows(schedule: ScheduleFound): CsvValue[][] {
  return [
    ['robot', 'time_s', 'share_pct'],
    ...robotShares(schedule).map(({ what, seconds, pct }) => [what, seconds, pct]),
  ];
}

/** The elements add up to as many robot cycles as the path spans. */
function pathRows({ bottleneck: { chain } }: ScheduleFound): CsvValue[][] {
  return [['element', 'time_s'], ...chain.map(({ what, S }) => [what, S])];
}

function gainRows({ improvements }: ScheduleFound): CsvValue[][] {
  return [
    ['element', 'parts_per_h_gained_by_1_s_less'],
    ...improvements.map(({ element, partsPerHPerSecond }) => [element, partsPerHPerSecond]),
  ];
}

function whatIfRows({ whatIf }: ScheduleFound): CsvValue[][] {
  return [
    ['change', 'parts_per_h', 'gain_per_h', 'gain_vs_target_pct', 'proven', 'no_gain_because'],
    ...whatIf.map((w) => [w.change, w.partsPerH, w.gainPerH, w.goalGainPct, w.proven, w.noGain]),
  ];
}
