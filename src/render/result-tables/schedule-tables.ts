/** A schedule as tables: its events, the robot's moves, who works and waits, the critical path, what changes bring. */
import type { ScheduleFound } from '../../core/schedule/result.js';
import { type Column, type DeclaredTable, declared, figures, readTable, words } from '../columns.js';
import { numberText, secondsText, signedText } from '../numbers.js';
import { movesOfRound, type RoundMove } from '../robot-round.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

const EVENTS: readonly Column<ScheduleFound['events'][number]>[] = [
  figures('start_s', undefined, 1, (e) => e.startS),
  figures('end_s', undefined, 1, (e) => e.endS),
  words('action', undefined, (e) => e.action),
  words('station', undefined, (e) => e.station),
  words('part', undefined, (e) => e.part),
  figures('step', undefined, 0, (e) => e.step),
  figures('hand', undefined, 0, (e) => e.hand),
];

const MOVES: readonly Column<RoundMove>[] = [
  figures('first_step', 'step', 0, (m) => m.first, {
    text: (m) => (m.first === m.last ? `${m.first}` : `${m.first}-${m.last}`),
  }),
  figures('last_step', undefined, 0, (m) => m.last),
  words('robot', 'robot move', (m) => m.text),
  figures('start_s', 'start s', 1, (m) => m.startS),
  figures('end_s', 'end s', 1, (m) => m.endS),
  words('waits_at', 'wait before, s', (m) => m.waitsAt, {
    text: (m) => (m.waitS > 0.05 ? `${numberText(m.waitS, 1)} at ${m.waitsAt}` : ''),
  }),
  figures('wait_s', undefined, 1, (m) => m.waitS),
];

export const roundTable = declared('robot-cycle.csv', MOVES, movesOfRound);

const STATIONS: readonly Column<ScheduleFound['stations'][number]>[] = [
  words('station', 'station', (s) => s.station),
  words('kind', undefined, (s) => s.kind),
  figures('processing_s', 'working s', 1, (s) => s.processingS),
  figures('handling_s', 'load, unload,\ndoors s', 1, (s) => s.handlingS),
  figures('wait_robot_s', 'blocked s', 1, (s) => s.waitRobotS),
  figures('empty_s', 'starved s', 1, (s) => s.emptyS),
  figures('utilization_pct', 'working %', 1, (s) => s.utilizationPct),
];

export const stationShareTable = declared(
  'station-times.csv',
  STATIONS,
  (schedule: ScheduleFound) => schedule.stations,
  drawn('stacked bar', 'Seconds of one robot cycle by station', 'station', [
    'processing_s',
    'handling_s',
    'wait_robot_s',
    'empty_s',
  ]),
);

interface RobotShare {
  readonly what: string;
  readonly seconds: number;
  readonly pct: number;
}

const ROBOT: readonly Column<RobotShare>[] = [
  words('robot', 'the robot', (r) => r.what),
  figures('time_s', 's', 1, (r) => r.seconds),
  figures('share_pct', '%', 1, (r) => r.pct),
];

export const robotShareTable = declared('robot-times.csv', ROBOT, robotShares);

/** What the robot does in one cycle; the last is all but idle. */
function robotShares({ robot, periodS }: ScheduleFound): RobotShare[] {
  const of = (what: string, seconds: number) => ({ what, seconds, pct: (100 * seconds) / periodS });
  return [
    of('picks, places, turns the gripper', robot.handlingS),
    of('travels with a part', robot.travelLoadedS),
    of('travels empty', robot.travelEmptyS),
    ...(robot.heldS > 0 ? [of('holds parts at a station', robot.heldS)] : []),
    of('idle', robot.waitS),
    { what: 'total busy', seconds: periodS - robot.waitS, pct: robot.utilizationPct },
  ];
}

/** The elements add up to as many robot cycles as the path spans. */
const PATH: readonly Column<ScheduleFound['bottleneck']['chain'][number]>[] = [
  words('element', 'element', (link) => link.what),
  figures('time_s', 's', 1, (link) => link.S),
];

export function paceTable({ bottleneck: { chain, periods }, periodS }: ScheduleFound): TableData {
  const over = periods > 1 ? ` (${periods} robot cycles of ${secondsText(periodS)})` : ' (one robot cycle)';
  const S = chain.reduce((total, link) => total + link.S, 0);
  return readTable(PATH, [...chain, { what: `total${over}`, S }]);
}

const GAINS: readonly Column<ScheduleFound['improvements'][number]>[] = [
  words('element', 'element', (item) => item.element),
  figures('parts_per_h_gained_by_1_s_less', 'parts/h\ngained', 3, (item) => item.partsPerHPerSecond),
];

const GAINS_SHOWN = 5;

export function improvementTable(schedule: ScheduleFound): TableData {
  return readTable(GAINS, schedule.improvements.slice(0, GAINS_SHOWN));
}

const CHANGES: readonly Column<ScheduleFound['whatIf'][number]>[] = [
  words('change', 'change', (w) => w.change),
  figures('parts_per_h', 'parts\nan hour', 1, (w) => w.partsPerH),
  figures('gain_per_h', 'vs.\nnow', 1, (w) => w.gainPerH, { text: (w) => signedText(w.gainPerH, 1) }),
  figures('gain_vs_target_pct', 'vs.\ntarget %', 1, (w) => w.goalGainPct, {
    text: (w) => signedText(w.goalGainPct, 1),
  }),
  words('proven', 'proven', (w) => w.proven),
  words('no_gain_because', undefined, (w) => w.noGain),
];

/** Changes that bring something; the others are named with their reason by `noGainTexts`. */
export function changeTable({ whatIf }: ScheduleFound): TableData {
  return readTable(
    CHANGES,
    whatIf.filter((w) => w.noGain === null),
  );
}

const TABLES: readonly DeclaredTable<ScheduleFound>[] = [
  declared('events.csv', EVENTS, (schedule) => schedule.events),
  roundTable,
  stationShareTable,
  robotShareTable,
  declared('critical-path.csv', PATH, (schedule) => schedule.bottleneck.chain),
  declared('gain-per-second.csv', GAINS, (schedule) => schedule.improvements),
  declared(
    'what-if.csv',
    CHANGES,
    (schedule) => schedule.whatIf,
    drawn('bar', 'Parts an hour with each change', 'change', ['parts_per_h']),
  ),
];

export const SCHEDULE_TABLES = TABLES.map(({ file }) => file);

export function scheduleTables(schedule: ScheduleFound): ResultTable[] {
  return TABLES.flatMap((table) => table.inFile(schedule));
}
