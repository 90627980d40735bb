/** The cell from above, to scale: stations by kind, and the ways of one round, the thicker the more often they are gone. */

import type { Cell, Station, StationKind } from '../../core/model/cell.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { type Column, figures, readTable, words } from '../columns.js';
import type { TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { countText, numberText } from '../numbers.js';
import { shortened } from '../shortened.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { middleOf, type NameSpot, type Point, planNames } from './plan-names.js';
import { circle, element, label, oblong, place, stroke } from './svg.js';
import { textWidth } from './text-width.js';

/** A way between two stations, in one direction. */
export interface Trip {
  readonly from: string;
  readonly to: string;
  readonly isLoaded: boolean;
  /** Times in a round. */
  readonly times: number;
}

interface StationSpot extends NameSpot {
  readonly kind: StationKind;
}

/** What a plan beside others says of itself. */
export interface PlanMarks {
  readonly name: string;
  /** Stations that stand elsewhere in another plan; they get a ring. */
  readonly moved: readonly string[];
}

/**
 * @param cell the one that the schedule belongs to
 * @param marks null where the plan stands alone
 */
export function cellPlanChart(
  cell: Pick<Cell, 'stations'>,
  schedule: ScheduleFound,
  marks: PlanMarks | null = null,
): ChartOrReason {
  const visited = new Set(schedule.order.map(({ station }) => station));
  const without = cell.stations.filter((s) => visited.has(s.name) && (s.xM === null || s.yM === null));
  if (without.length > 0)
    return noChart(
      `No plan of the cell is drawn: stations.csv gives no x_m and y_m for ${without.map(({ name }) => name).join(', ')}.`,
    );
  const stations = cell.stations.filter((s) => s.xM !== null && s.yM !== null);
  const [wideM, deepM] = [spanOf(stations, 'xM'), spanOf(stations, 'yM')];
  if (Math.max(wideM, deepM) <= 0)
    return noChart('No plan of the cell is drawn: all stations have the same position in stations.csv.');
  const trips = tripsOf(schedule);
  return chartOf({
    title: `${marks === null ? '' : `${shortened(marks.name, 28)}. `}${titleOf(trips, stations)}`,
    description: `${countText(stations.length, 'station')} on ${numberText(wideM, 1)} by ${numberText(deepM, 1)} m. ${trips.map(tripText).join('; ')}`,
    note: `To scale, seen from above. On each line: trips per robot cycle, both directions together; dashed: the robot only goes empty. The robot is drawn in the middle of its stations; the path of its arm may differ.${movedText(marks)}`,
    data: tripTable(trips, stations),
    draw: (width) => drawing(stations, trips, width, new Set(marks?.moved)),
  });
}

function movedText(marks: PlanMarks | null): string {
  if (marks === null) return '';
  return marks.moved.length === 0
    ? ' No station is placed elsewhere.'
    : ` Ringed: not at this place in every cell: ${marks.moved.join(', ')}.`;
}

function spanOf(stations: readonly Station[], axis: 'xM' | 'yM'): number {
  const values = stations.map((s) => s[axis]!);
  return Math.max(...values) - Math.min(...values);
}

/** Ways of one round with how often each is gone, the most frequent first. */
export function tripsOf({ order }: Pick<ScheduleFound, 'order'>): Trip[] {
  const trips = new Map<string, Trip>();
  order.forEach(({ station: from, loadedToNext: isLoaded }, k) => {
    const to = order[(k + 1) % order.length]!.station;
    if (from === to) return;
    const key = JSON.stringify([from, to, isLoaded]);
    trips.set(key, { from, to, isLoaded, times: (trips.get(key)?.times ?? 0) + 1 });
  });
  return [...trips.values()].sort((a, b) => b.times - a.times);
}

function distanceM({ from, to }: Trip, stations: readonly Station[]): number {
  const [a, b] = [from, to].map((name) => stations.find((s) => s.name === name)!);
  return Math.hypot(a!.xM! - b!.xM!, a!.yM! - b!.yM!);
}

const tripText = ({ from, to, isLoaded, times }: Trip): string =>
  `${from} to ${to} ${isLoaded ? 'with a part' : 'empty'}, ${times === 1 ? 'once' : `${times} times`}`;

function titleOf(trips: readonly Trip[], stations: readonly Station[]): string {
  const all = trips.reduce((sum, { times }) => sum + times, 0);
  const empty = trips.filter(({ isLoaded }) => !isLoaded).reduce((sum, { times }) => sum + times, 0);
  const metres = trips.reduce((sum, trip) => sum + trip.times * distanceM(trip, stations), 0);
  const most = trips[0];
  const often =
    most && most.times > 1
      ? `; most frequent ${shortened(most.from, 24)} to ${shortened(most.to, 24)}, ${most.times}×`
      : '';
  return `Robot travel: ${countText(all, 'trip')}, ${numberText(metres, 1)} m per cycle, ${numberText(empty)} empty${often}`;
}

const PAD = { wide: 96, narrow: 44 };
const MOST_HEIGHT = { wide: 400, narrow: 330 };
const MOST_PER_M = 150;

function drawing(
  stations: readonly Station[],
  trips: readonly Trip[],
  width: number,
  moved: ReadonlySet<string>,
): Drawing {
  const isWide = width === WIDE;
  const padX = isWide ? PAD.wide : PAD.narrow;
  const padY = 40;
  const [wideM, deepM] = [spanOf(stations, 'xM'), spanOf(stations, 'yM')];
  const perM = Math.min(
    MOST_PER_M,
    wideM > 0 ? (width - 2 * padX) / wideM : Number.POSITIVE_INFINITY,
    deepM > 0 ? (isWide ? MOST_HEIGHT.wide : MOST_HEIGHT.narrow) / deepM : Number.POSITIVE_INFINITY,
  );
  const x0 = (width - wideM * perM) / 2;
  const [leastX, mostY] = [Math.min(...stations.map((s) => s.xM!)), Math.max(...stations.map((s) => s.yM!))];
  const spots = stations.map(({ name, kind, xM, yM }): StationSpot => {
    return { name, kind, x: x0 + (xM! - leastX) * perM, y: padY + (mostY - yM!) * perM };
  });
  const bottom = padY + deepM * perM + padY;
  const pairs = pairsOf(trips).sort((a, b) => b.loaded + b.empty - a.loaded - a.empty);
  const most = Math.max(1, ...pairs.map(({ loaded, empty }) => loaded + empty));
  const served = spots.filter(({ name }) => trips.some(({ from, to }) => from === name || to === name));
  const robot =
    served.length > 2 ? { x: middleOf(served.map((s) => s.x)), y: middleOf(served.map((s) => s.y)) } : null;
  const scaleY = bottom + 18;
  const key = kindKey(stations, scaleY, width, scaleLength(perM) * perM + 60);
  const page = { width, height: bottom, listTop: bottom + key.height + 50, columns: isWide ? 3 : 1 };
  const names = planNames(spots, page);
  return {
    height: bottom + key.height + 36 + names.listHeight,
    content: [
      ...[...pairs].reverse().map((pair) => pairLine(pair, spots, most)),
      ...(robot === null ? [] : [robotMark(robot)]),
      ...pairCounts(pairs, spots, robot),
      ...spots.filter(({ name }) => moved.has(name)).map(movedRing),
      ...spots.map(stationMark),
      ...names.labels,
      ...scaleBar(perM, scaleY),
      ...key.content,
    ],
  };
}

const RADIUS = 15;
const [LEAST_WAY, MOST_WAY] = [1.2, 7];

/** Trips between two stations in either direction. */
export interface PairTrips {
  readonly a: string;
  readonly b: string;
  readonly loaded: number;
  readonly empty: number;
}

export function pairsOf(trips: readonly Trip[]): PairTrips[] {
  const pairs = new Map<string, PairTrips>();
  for (const { from, to, isLoaded, times } of trips) {
    const [a, b] = from < to ? [from, to] : [to, from];
    const key = JSON.stringify([a, b]);
    const { loaded = 0, empty = 0 } = pairs.get(key) ?? {};
    pairs.set(key, { a, b, loaded: loaded + (isLoaded ? times : 0), empty: empty + (isLoaded ? 0 : times) });
  }
  return [...pairs.values()];
}

/** A straight line between the edges of two stations, as thick as it is gone often; dashed where no part is carried. */
export function pairLine(
  { a, b, loaded, empty }: PairTrips,
  spots: readonly NameSpot[],
  most: number,
): string {
  const [from, to] = [a, b].map((name) => spots.find((s) => s.name === name)!) as [NameSpot, NameSpot];
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 1) return '';
  const edge = Math.min(RADIUS, length / 3) / length;
  const [start, end] = [between(from, to, edge), between(from, to, 1 - edge)];
  const width = LEAST_WAY + ((MOST_WAY - LEAST_WAY) * (loaded + empty - 1)) / Math.max(1, most - 1);
  return stroke(start.x, start.y, end.x, end.y, loaded > 0 ? 'trip' : 'trip gap', width);
}

function between(from: Point, to: Point, share: number): Point {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

const COUNT_APART = 19;
const ROBOT = 17;

/** The count of each pair on its line, the most frequent placed first; moved along the line where it would cover another. */
function pairCounts(pairs: readonly PairTrips[], spots: readonly NameSpot[], robot: Point | null): string[] {
  const taken: Point[] = [];
  const isOffRobot = (at: Point) =>
    robot === null || Math.hypot(robot.x - at.x, robot.y + 6 - at.y) >= ROBOT + COUNT_APART;
  return pairs.map(({ a, b, loaded, empty }) => {
    const [from, to] = [a, b].map((name) => spots.find((s) => s.name === name)!) as [NameSpot, NameSpot];
    const shares = [0.5, 0.4, 0.6, 0.33, 0.67, 0.27, 0.73, 0.2, 0.8];
    const places = shares.map((share) => between(from, to, share));
    const isFree = (at: Point) =>
      isOffRobot(at) &&
      [...taken, ...spots].every((other) => Math.hypot(other.x - at.x, other.y - at.y) >= COUNT_APART);
    const at = places.find(isFree) ?? places[0]!;
    taken.push(at);
    return label(numberText(loaded + empty), at.x, at.y + 4, 'over tick', 'middle');
  });
}

function robotMark({ x, y }: Point): string {
  return element(
    'g',
    { class: 'arm' },
    [
      circle(x, y, ROBOT, 'ground'),
      circle(x, y, ROBOT, 'bare'),
      circle(x, y, 5, 'robot'),
      element('path', {
        d: `M${place(x)} ${place(y)}l${place(ROBOT * 0.55)} ${place(-ROBOT * 0.75)}l${place(ROBOT * 0.7)} ${place(ROBOT * 0.35)}`,
        class: 'line',
      }),
      label('robot', x, y + ROBOT + 13, 'over tick', 'middle'),
    ].join(''),
  );
}

function movedRing({ x, y }: StationSpot): string {
  return circle(x, y, 17, 'line dash');
}

function stationMark(spot: StationSpot): string {
  return element('g', { class: 'station' }, stationShape(spot.kind, spot.x, spot.y, 11));
}

/** Each kind has a shape of its own. */
export function stationShape(kind: StationKind, x: number, y: number, size: number): string {
  const polygon = (look: string, corners: string) => {
    const points = corners.split(' ').map((corner) => {
      const [across, down] = corner.split(',').map(Number);
      return `${place(x + across! * size)} ${place(y + down! * size)}`;
    });
    return element('path', { d: `M${points.join('L')}Z`, class: look });
  };
  switch (kind) {
    case 'machine':
      return oblong(x - size, y - size, 2 * size, 2 * size, 'work');
    case 'bench':
      return oblong(x - size, y - size / 2, 2 * size, size, 'mark');
    case 'infeed':
      return polygon('full', '-1,-1 1,0 -1,1');
    case 'outfeed':
      return polygon('mark', '-1,-1 1,0 -1,1');
    case 'held':
      return circle(x, y, size, 'mark');
    case 'buffer':
      return polygon('mark', '0,-1 1,0 0,1 -1,0');
  }
}

/** A round length that shows on the page as some 60 to 150 pixels. */
function scaleLength(perM: number): number {
  const lengths = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
  return lengths.find((m) => m * perM >= 50) ?? 1000;
}

function scaleBar(perM: number, y: number): string[] {
  const metres = scaleLength(perM);
  const [x0, x1] = [1, 1 + metres * perM];
  return [
    stroke(x0, y, x1, y, 'line scale'),
    ...[x0, x1].map((x) => stroke(x, y - 4, x, y + 4, 'line')),
    label(`${numberText(metres, metres < 0.1 ? 2 : metres < 1 ? 1 : 0)} m`, x1 + 7, y + 4, 'tick'),
  ];
}

const KINDS: readonly StationKind[] = ['infeed', 'outfeed', 'machine', 'bench', 'held', 'buffer'];

/** The shapes that occur, right of the scale; where they do not fit there, in lines below it. */
function kindKey(
  stations: readonly Station[],
  top: number,
  width: number,
  from: number,
): { readonly content: string[]; readonly height: number } {
  const kinds = KINDS.filter((kind) => stations.some((s) => s.kind === kind));
  const needed = kinds.map((kind) => KEY_SHAPE + textWidth(kind, 12) + KEY_GAP);
  const all = needed.reduce((sum, n) => sum + n, 0);
  const isBelow = from + all > width + KEY_GAP;
  let [x, y] = isBelow ? [0, top + KEY_LINE] : [width - all + KEY_GAP, top];
  const content = kinds.flatMap((kind, k) => {
    if (x > 0 && x + needed[k]! > width + KEY_GAP) [x, y] = [0, y + KEY_LINE];
    const at = x;
    x += needed[k]!;
    return [stationShape(kind, at + 6, y, 6), label(kind, at + KEY_SHAPE, y + 4, 'tick')];
  });
  return { content, height: y - top };
}

const [KEY_SHAPE, KEY_GAP, KEY_LINE] = [17, 14, 20];

function tripTable(trips: readonly Trip[], stations: readonly Station[]): TableBlock {
  const columns: Column<Trip>[] = [
    words('from', 'from', (trip) => trip.from),
    words('to', 'to', (trip) => trip.to),
    words('with_a_part', 'with a part', (trip) => trip.isLoaded),
    figures('trips', 'trips per cycle', 0, (trip) => trip.times),
    figures('straight_m', 'straight m', 2, (trip) => distanceM(trip, stations)),
  ];
  return tableBlock('Trips of the robot per robot cycle', readTable(columns, trips));
}
