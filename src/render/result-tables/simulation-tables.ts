/** A simulation as tables: parts and losses with their intervals, each station's time, the robot and its programs. */
import type {
  Estimate,
  ShiftParts,
  SimulationResult,
  StationEstimate,
} from '../../core/simulate/simulation-result.js';
import type { RuleYield, SimulationStudy } from '../../core/simulate/study-cell.js';
import {
  type Column,
  type DeclaredTable,
  declared,
  estimated,
  figures,
  interval,
  words,
} from '../columns.js';
import { signedText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

interface PartRow {
  readonly shift: string | null;
  readonly part: string;
  readonly made: Estimate & Partial<Pick<ShiftParts, 'p10' | 'p50' | 'p90'>>;
}

const PARTS: readonly Column<PartRow>[] = [
  words('shift', undefined, (row) => row.shift),
  words('part', 'part', (row) => row.part, {
    text: (row) => (row.shift === null ? row.part : `${row.shift}, ${row.part}`),
  }),
  figures('good_parts_per_shift', 'mean', 1, (row) => row.made.mean),
  ...interval<PartRow>('good_parts_per_shift', (row) => row.made),
  figures('p10', 'P10', 0, (row) => row.made.p10 ?? null, { none: '' }),
  figures('p50', 'P50', 0, (row) => row.made.p50 ?? null, { none: '' }),
  figures('p90', 'P90', 0, (row) => row.made.p90 ?? null, { none: '' }),
];

/** Each part, and the total where there are several; the same by the name of the shift; scrap. */
function partRows({ partsPerShift, byShift, scrapPerShift }: SimulationResult): PartRow[] {
  const names = Object.keys(partsPerShift);
  const shown = names.length === 2 ? names.filter((name) => name !== 'total') : names;
  const rows = (shift: string | null, of: SimulationResult['partsPerShift']) =>
    shown.map((part) => ({ shift, part, made: of[part]! }));
  return [
    ...rows(null, partsPerShift),
    ...(byShift.length < 2 ? [] : byShift.flatMap(({ shift, partsPerShift: of }) => rows(shift, of))),
    ...(scrapPerShift.mean > 0 ? [{ shift: null, part: 'scrap', made: scrapPerShift }] : []),
  ];
}

export const simulatedPartTable = declared('simulated-parts.csv', PARTS, partRows);

interface LossRow {
  readonly cause: string;
  readonly parts: number;
  /** null for the maximum and what is left. */
  readonly bounds: Estimate | null;
}

const LOSSES: readonly Column<LossRow>[] = [
  words('cause', 'loss', (row) => row.cause),
  figures('parts_per_shift', 'parts', 1, (row) => row.parts),
  ...interval<LossRow>('parts_per_shift', (row) => row.bounds, { none: '' }),
];

/** From the maximum down to the good parts; what is lost is less than nothing. */
function lossRows({ losses, ceilingPerShift, ceilingIsMaximum, partsPerShift }: SimulationResult): LossRow[] {
  if (losses.length === 0) return [];
  return [
    {
      cause: ceilingIsMaximum ? 'maximum: machines never wait or stop' : 'without the losses below',
      parts: ceilingPerShift!,
      bounds: null,
    },
    ...losses.map((loss) => ({ cause: loss.cause, parts: -loss.partsPerShift, bounds: turned(loss) })),
    { cause: 'good parts', parts: partsPerShift.total!.mean, bounds: null },
  ];
}

function turned({ mean, ciLow, ciHigh }: Estimate): Estimate {
  return {
    mean: -mean,
    ciLow: ciHigh === null ? null : -ciHigh,
    ciHigh: ciLow === null ? null : -ciLow,
  };
}

export const simulatedLossTable = declared('simulated-losses.csv', LOSSES, lossRows);

/** A share that is left out where people read and no station has any. */
function share(
  name: string,
  heading: string,
  of: (s: StationEstimate) => number,
  isShown?: (rows: readonly StationEstimate[]) => boolean,
): Column<StationEstimate> {
  return figures(name, heading, 1, of, isShown === undefined ? {} : { isShown });
}

const hasAny = (of: (s: StationEstimate) => number) => (rows: readonly StationEstimate[]) =>
  rows.some((s) => of(s) > 0);

const down = hasAny((s) => s.downWaitPct.mean + s.downRepairPct.mean);
const planned = (s: StationEstimate) => s.plannedStopWaitPct.mean + s.plannedStopPct.mean;
const changed = (s: StationEstimate) => s.changeoverPct.mean;

/** Shares of a station's open hours; together they are the whole. */
const STATIONS: readonly Column<StationEstimate>[] = [
  words('station', 'station', (s) => s.station),
  share('working_pct', 'working', (s) => s.processingPct.mean),
  share('load_and_doors_pct', 'load,\ndoors', (s) => s.handlingPct.mean + s.partLoadedPct.mean),
  share('blocked_pct', 'blocked', (s) => s.waitRobotPct.mean),
  share('starved_pct', 'starved', (s) => s.emptyPct.mean),
  share('waits_for_operator_pct', 'waits for\noperator', (s) => s.downWaitPct.mean, down),
  share('repair_pct', 'repair', (s) => s.downRepairPct.mean, down),
  share('planned_stops_pct', 'planned\nstops', planned, hasAny(planned)),
  share('changeovers_pct', 'change-\novers', changed, hasAny(changed)),
  figures('random_stops_per_shift', 'stops\na shift', 2, (s) => s.randomStopsPerShift.mean, {
    isShown: down,
  }),
];

function shownStations({ stations }: SimulationResult): StationEstimate[] {
  return stations.filter((s) => s.kind === 'machine' || s.kind === 'bench');
}

export const simulatedStationTable = declared(
  'simulated-stations.csv',
  STATIONS,
  shownStations,
  drawn(
    'stacked bar',
    'Share of the open hours by station, per cent',
    'station',
    STATIONS.map(({ name }) => name).filter((name) => name.endsWith('_pct')),
  ),
);

interface StationInterval {
  readonly station: string;
  readonly figure: string;
  readonly share: Estimate;
}

/** For those who need the intervals of the shares: every station, racks too, in files alone. */
const STATION_INTERVALS: readonly Column<StationInterval>[] = [
  words('station', undefined, (row) => row.station),
  words('figure', undefined, (row) => row.figure),
  ...estimated<StationInterval>('share_pct', undefined, 1, (row) => row.share),
];

function stationIntervals(s: StationEstimate): StationInterval[] {
  const of = (figure: string, estimate: Estimate) => ({ station: s.station, figure, share: estimate });
  return [
    of('working', s.processingPct),
    of('robot at the door, doors', s.handlingPct),
    of('loaded, waits until the fixture is full', s.partLoadedPct),
    of('blocked', s.waitRobotPct),
    of('starved', s.emptyPct),
    of('waits for operator', s.downWaitPct),
    of('repair', s.downRepairPct),
    of('planned stop due, waits for operator', s.plannedStopWaitPct),
    of('planned stop', s.plannedStopPct),
    of('changeover', s.changeoverPct),
  ];
}

type Waiting = NonNullable<StationEstimate['waits']> & { readonly station: string };

const WAITS: readonly Column<Waiting>[] = [
  words('station', 'station', (w) => w.station),
  figures('waits_total_pct', 'waits\ntotal', 1, (w) =>
    [w.robotBusyPct, w.nextFullPct, w.comesLaterPct, w.noPartPct].reduce((sum, e) => sum + e.mean, 0),
  ),
  figures('robot_busy_pct', 'robot busy\nelsewhere', 1, (w) => w.robotBusyPct.mean),
  figures('next_full_or_down_pct', 'next station\nfull or down', 1, (w) => w.nextFullPct.mean),
  figures('comes_later_in_cycle_pct', 'comes later\nin the cycle', 1, (w) => w.comesLaterPct.mean),
  figures('no_part_pct', 'no part', 1, (w) => w.noPartPct.mean),
];

function waitRows(result: SimulationResult): Waiting[] {
  return shownStations(result).flatMap(({ station, waits }) =>
    waits === null ? [] : [{ station, ...waits }],
  );
}

/** Why stations wait, blocked or starved; null where that is not known. */
export function stationWaitTable(result: SimulationResult): TableData | null {
  return waitRows(result).length === 0 ? null : waitTable(result);
}

const waitTable = declared('why-stations-wait.csv', WAITS, waitRows);

interface RobotRow {
  readonly what: string;
  readonly pct: Estimate;
}

const ROBOT: readonly Column<RobotRow>[] = [
  words('robot', 'the robot', (row) => row.what),
  figures('share_pct', '%', 1, (row) => row.pct.mean),
  ...interval<RobotRow>('share_pct', (row) => row.pct),
];

function robotRows({ robot, operatorBusyPct }: SimulationResult): RobotRow[] {
  const of = (what: string, pct: Estimate): RobotRow => ({ what, pct });
  return [
    of('picks, places, turns the gripper', robot.handlingPct),
    of('travels with a part', robot.travelLoadedPct),
    of('travels empty', robot.travelEmptyPct),
    ...(robot.heldPct.mean > 0 ? [of('holds parts at a station', robot.heldPct)] : []),
    of('idle', robot.waitPct),
    of('total busy', robot.utilizationPct),
    ...(operatorBusyPct === null ? [] : [of('operators, busy with calls', operatorBusyPct)]),
  ];
}

export const simulatedRobotTable = declared('simulated-robot.csv', ROBOT, robotRows);

const PROGRAMS: Readonly<Record<string, string>> = {
  order: 'order: best sequence, passing over',
  strict: 'strict: best sequence, waiting',
  first: 'first: first come, first served',
  nearest: 'nearest: shortest trip',
  longest: 'longest: longest cycle',
};

/** The first is the one that was simulated: the others are held against it. */
function programColumns(rules: readonly RuleYield[]): Column<RuleYield>[] {
  return [
    words('robot_program', 'robot program', (rule) => rule.dispatch, {
      text: (rule) => PROGRAMS[rule.dispatch]!,
    }),
    figures('parts_per_shift', 'parts a\nshift', 1, (rule) => rule.partsPerShift?.mean ?? null, {
      none: 'locks up',
    }),
    figures('parts_per_shift_low', undefined, 1, (rule) => rule.partsPerShift?.ciLow ?? null),
    figures('parts_per_shift_high', undefined, 1, (rule) => rule.partsPerShift?.ciHigh ?? null),
    figures('p10', 'P10', 0, (rule) => rule.partsPerShift?.p10 ?? null, { none: '' }),
    figures('p50', undefined, 0, (rule) => rule.partsPerShift?.p50 ?? null),
    figures('p90', undefined, 0, (rule) => rule.partsPerShift?.p90 ?? null),
    figures(
      'difference',
      `vs.\n${rules[0]?.dispatch ?? 'first'}`,
      1,
      (rule) => rule.difference?.mean ?? null,
      {
        text: (rule) => signedText(rule.difference!.mean, 1),
        none: '',
      },
    ),
    ...interval<RuleYield>('difference', (rule) => rule.difference, { none: '' }),
    words('clear', undefined, (rule) => (rule.difference === null ? null : rule.clear)),
    words('locks_up', undefined, (rule) => rule.deadlock !== null),
  ];
}

export const ruleTable = declared('robot-programs.csv', programColumns, (rules) => rules);

/** Of the runs; a cell that locks up has none. */
const TABLES: readonly DeclaredTable<SimulationResult>[] = [
  simulatedPartTable,
  simulatedLossTable,
  simulatedStationTable,
  declared('station-intervals.csv', STATION_INTERVALS, ({ stations }) => stations.flatMap(stationIntervals)),
  waitTable,
  simulatedRobotTable,
];

export const SIMULATION_TABLES = [...TABLES, ruleTable].map(({ file }) => file);

export function simulationTables({ result, rules }: SimulationStudy): ResultTable[] {
  if (result.deadlock !== null) return [];
  return [...TABLES.flatMap((table) => table.inFile(result)), ...ruleTable.inFile(rules)];
}
