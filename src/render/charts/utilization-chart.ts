/** How robot and stations spend their time, in shares of it: as planned, and as simulated with stops where that is known. */
import { scaleLinear } from 'd3-scale';
import type { ScheduleFound, StationShare } from '../../core/schedule/result.js';
import type {
  Estimate,
  RobotEstimate,
  SimulationResult,
  StationEstimate,
} from '../../core/simulate/simulation-result.js';
import { type Column, figures, readTable, words } from '../columns.js';
import type { ChartBlock, TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { numberText, percentText } from '../numbers.js';
import { shortened } from '../shortened.js';
import { AXIS_BELOW, axisBelow } from './axes.js';
import { bar, type Mark } from './bar.js';
import { chartOf, type Drawing, WIDE } from './chart-of.js';
import { type KeyEntry, keyLines } from './key-lines.js';
import { namedRows } from './named-rows.js';
import { element, label } from './svg.js';

const BAR = 13;

interface Share {
  readonly mark: Mark;
  readonly pct: number;
}

interface Row {
  /** Robot or station. */
  readonly who: string;
  /** Name of the row: whose time, and from where where there are two. */
  readonly name: string;
  /** `robot`, or the kind of the station. */
  readonly kind: string;
  readonly shares: readonly Share[];
  /** Share in use: the robot's of any kind, a station's at work. */
  readonly usePct: number;
  readonly useText: string;
}

type Stations<T extends { readonly kind: string }> = readonly T[];

/** @param simulated null where nothing was simulated */
export function utilizationChart(schedule: ScheduleFound, simulated: SimulationResult | null): ChartBlock {
  const rows = rowsOf(schedule, simulated);
  const asPlanned = rows.filter((row) => !row.name.endsWith(SIMULATED));
  return chartOf({
    title:
      simulated === null
        ? titleOf(asPlanned)
        : `Simulated: ${titleOf(rows.filter((row) => !asPlanned.includes(row)))}`,
    description: rows.map(({ name, useText }) => `${name}: ${useText}% in use`).join('; '),
    note: `Shares of all time.${simulated === null ? ' Planned: the repeating robot cycle at constant times.' : ` Planned: the repeating robot cycle at constant times; simulated: ${numberText(simulated.replications)} runs, means with ${numberText(simulated.confidencePct)}% intervals.`} The figure at the right is the share in use: the robot handling, going and holding; a station at its process.`,
    data: shareTable(rows),
    draw: (width) => drawing(rows, width),
  });
}

const SIMULATED = 'simulated';

function rowsOf(schedule: ScheduleFound, simulated: SimulationResult | null): Row[] {
  const name = (who: string, from: string) => (simulated === null ? who : `${who}, ${from}`);
  const between = <T extends { readonly kind: string }>(all: Stations<T>) =>
    all.filter(({ kind }) => kind !== 'infeed' && kind !== 'outfeed');
  const runs = simulated === null ? [] : between(simulated.stations);
  const robot = simulated === null ? [] : [simulatedRobot(simulated.robot, name('robot', SIMULATED))];
  return [
    plannedRobot(schedule, name('robot', 'planned')),
    ...robot,
    ...between(schedule.stations).flatMap((share) => [
      plannedStation(share, name(share.station, 'planned')),
      ...runs
        .filter((run) => run.station === share.station)
        .map((run) => simulatedStation(run, name(run.station, SIMULATED))),
    ]),
  ];
}

const ROBOT_MARKS: readonly Mark[] = ['robot', 'carry', 'go', 'held', 'idle'];
const STATION_MARKS: readonly Mark[] = ['work', 'robot', 'filling', 'wait', 'stop', 'planned', 'empty'];

/** @param pcts shares in the order of the marks; what lies in a buffer is stored, and waits for nobody */
function rowOf(who: string, name: string, kind: string, pcts: readonly number[], use: Estimate): Row {
  const marks = kind === 'robot' ? ROBOT_MARKS : STATION_MARKS;
  const shares = marks.map((mark, k): Share => {
    return { mark: mark === 'wait' && kind === 'buffer' ? 'stored' : mark, pct: pcts[k]! };
  });
  return { who, name, kind, shares, ...useOf(use) };
}

const planned = (mean: number): Estimate => ({ mean, ciLow: null, ciHigh: null });

function plannedRobot({ robot, periodS }: ScheduleFound, name: string): Row {
  const spent = [robot.handlingS, robot.travelLoadedS, robot.travelEmptyS, robot.heldS, robot.waitS];
  const pcts = spent.map((seconds) => (100 * seconds) / periodS);
  return rowOf('robot', name, 'robot', pcts, planned(robot.utilizationPct));
}

function simulatedRobot(robot: RobotEstimate, name: string): Row {
  const { handlingPct, travelLoadedPct, travelEmptyPct, heldPct, waitPct, utilizationPct } = robot;
  const spent = [handlingPct, travelLoadedPct, travelEmptyPct, heldPct, waitPct];
  return rowOf(
    'robot',
    name,
    'robot',
    spent.map(({ mean }) => mean),
    utilizationPct,
  );
}

function plannedStation(share: StationShare, name: string): Row {
  const { station, kind, processingS, handlingS, waitRobotS, emptyS } = share;
  const all = processingS + handlingS + waitRobotS + emptyS;
  const pct = (seconds: number) => (all > 0 ? (100 * seconds) / all : 0);
  const pcts = [processingS, handlingS, 0, waitRobotS, 0, 0, emptyS].map(pct);
  return rowOf(station, name, kind, pcts, planned(pct(processingS)));
}

function simulatedStation(run: StationEstimate, name: string): Row {
  const pcts = [
    run.processingPct.mean,
    run.handlingPct.mean,
    run.partLoadedPct.mean,
    run.waitRobotPct.mean,
    run.downWaitPct.mean + run.downRepairPct.mean,
    run.plannedStopWaitPct.mean + run.plannedStopPct.mean,
    run.emptyPct.mean,
  ];
  return rowOf(run.station, name, run.kind, pcts, run.utilizationPct);
}

function useOf({ mean, ciLow, ciHigh }: Estimate): Pick<Row, 'usePct' | 'useText'> {
  const bounds =
    ciLow === null || ciHigh === null ? '' : ` (${numberText(ciLow, 1)} to ${numberText(ciHigh, 1)})`;
  return { usePct: mean, useText: `${numberText(mean, 1)}${bounds}` };
}

function pctOf({ shares }: Row, mark: Mark): number | null {
  return shares.find((share) => share.mark === mark)?.pct ?? null;
}

function titleOf(rows: readonly Row[]): string {
  const stations = rows.filter(({ kind }) => kind !== 'robot' && kind !== 'buffer');
  const robot = rows.find(({ kind }) => kind === 'robot');
  const busy = robot ? `the robot is busy ${percentText(robot.usePct)} of the time` : '';
  if (stations.length === 0) return busy === '' ? 'Nothing is in use' : `T${busy.slice(1)}`;
  const busiest = stations.reduce((a, b) => (b.usePct > a.usePct ? b : a));
  const waits = (row: Row) => pctOf(row, 'wait') ?? 0;
  const waiting = stations.reduce((a, b) => (waits(b) > waits(a) ? b : a));
  const longest =
    waits(waiting) < 0.05
      ? 'no station is blocked'
      : `${shortened(waiting.who, 28)} is blocked longest, ${percentText(waits(waiting))}`;
  return `${shortened(busiest.who, 28)} works most, ${percentText(busiest.usePct)}; ${busy}; ${longest}`;
}

function drawing(rows: readonly Row[], width: number): Drawing {
  const isWide = width === WIDE;
  const isSimulated = rows.some(({ useText }) => useText.includes('('));
  const key = keyLines(keyOf(rows), 0, 0, width);
  const top = key.height + 22;
  const names = rows.map(({ name }) => name);
  const lines = namedRows(names, width, { top, bar: BAR, right: isSimulated ? 128 : 52 });
  const x = scaleLinear([0, 100], [lines.x0, lines.x1]);
  const bottom = top + lines.height + 2;
  const text = (pct: number) => numberText(pct);
  const axis = { scale: x, count: isWide ? 10 : 4, text, title: 'per cent of all time' };
  return {
    height: bottom + AXIS_BELOW,
    content: [
      ...key.content,
      label('in use, %', width, top - 6, 'tick', 'end'),
      ...axisBelow(axis, top, bottom),
      ...rows.flatMap((row, k) => [
        lines.name(k),
        shareBar(row, x, lines.middle(k) - BAR / 2),
        label(row.useText, width, lines.middle(k) + 4, 'figure', 'end'),
      ]),
    ],
  };
}

/** Less is not drawn: tenths of a pixel. */
const LEAST_PCT = 0.02;

function shareBar({ shares }: Row, x: (pct: number) => number, top: number): string {
  let sum = 0;
  const parts = shares.map(({ mark, pct }) => {
    const from = sum;
    sum = Math.min(100, sum + Math.max(0, pct));
    return sum - from < LEAST_PCT ? '' : bar(mark, x(from), top, x(sum) - x(from), BAR);
  });
  return element('g', { class: 'shares' }, parts.join(''));
}

const WORDS: readonly (readonly [mark: Mark, key: string, column: string])[] = [
  ['robot', 'robot handles, doors', 'handling'],
  ['carry', 'robot carries', 'carrying'],
  ['go', 'robot goes empty', 'going empty'],
  ['held', 'robot holds at a tool', 'holding'],
  ['idle', 'robot idle', 'robot idle'],
  ['work', 'station working', 'working'],
  ['filling', 'partly loaded', 'partly loaded'],
  ['wait', 'blocked, waiting for unload', 'blocked'],
  ['stored', 'stored', 'stored'],
  ['stop', 'down', 'down'],
  ['planned', 'planned stop', 'planned stop'],
  ['empty', 'empty', 'empty'],
];

function marksOf(rows: readonly Row[]): (typeof WORDS)[number][] {
  const drawn = new Set(
    rows.flatMap(({ shares }) => shares.filter(({ pct }) => pct >= LEAST_PCT).map(({ mark }) => mark)),
  );
  return WORDS.filter(([mark]) => drawn.has(mark));
}

function keyOf(rows: readonly Row[]): KeyEntry[] {
  return marksOf(rows).map(([mark, text]) => ({ mark, text }));
}

function shareTable(rows: readonly Row[]): TableBlock {
  const columns: Column<Row>[] = [
    words('whose_time', 'whose time', ({ name }) => name),
    ...marksOf(rows).map(([mark, , heading]) =>
      figures<Row>(`${mark}_pct`, heading, 1, (row) => pctOf(row, mark), { none: '' }),
    ),
    figures('in_use_pct', 'in use', 1, ({ usePct }) => usePct, { text: ({ useText }) => useText }),
  ];
  const caption = 'How robot and stations spend their time, per cent of all time';
  return tableBlock(caption, readTable(columns, rows), { wide: true });
}
