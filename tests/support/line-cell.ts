// Cells built from published serial lines: one robot, one hand, stations 1..n in order between a load and an unload place.
import type { Cell, Station, Step, TravelRow } from '../../src/core/model/cell.js';
import type { SerialTimes } from './random-cells.js';

export const emptyCell: Omit<Cell, 'stations' | 'routes' | 'travel'> = {
  robot: {
    hands: 1,
    indexS: 0,
    speedMS: null,
    accelMS2: null,
    travelS: null,
    attendedSpeedPct: 100,
    costPerH: 0,
  },
  parts: [],
  shifts: [],
  stops: [],
  variation: [],
  changeovers: [],
  setups: [],
  jobs: [],
  signals: [],
  costs: [],
};

export function station(name: string, kind: Station['kind'], more: Partial<Station> = {}): Station {
  return {
    name,
    kind,
    xM: null,
    yM: null,
    capacityParts: kind === 'infeed' || kind === 'outfeed' ? null : 1,
    readyS: 0,
    closeS: 0,
    costPerH: 0,
    mtbfH: null,
    mttrMin: null,
    ...more,
  };
}

export function step(number: number, stations: string | readonly string[], more: Partial<Step> = {}): Step {
  return {
    step: number,
    stations: typeof stations === 'string' ? [stations] : stations,
    cycleS: 0,
    loadS: 0,
    unloadS: 0,
    maxWaitS: null,
    partsPerCycle: 1,
    everyParts: 1,
    ...more,
  };
}

export interface PublishedLine {
  readonly stations: number;
  readonly leastStay: readonly number[];
  readonly longestStay: readonly (number | null)[];
  readonly carry: readonly number[];
  readonly emptyTravel: readonly (readonly number[])[];
  readonly period: number;
}

/** A line of the published form: the carry time is all travel, so load and unload times are 0. */
export function lineCell(line: PublishedLine): Cell {
  const n = line.stations;
  const name = (i: number): string => (i === 0 ? 'in' : i === n + 1 ? 'out' : `s${i}`);
  const stations: Station[] = [];
  for (let i = 0; i <= n + 1; i++)
    stations.push(station(name(i), i === 0 ? 'infeed' : i === n + 1 ? 'outfeed' : 'machine'));
  const travel: TravelRow[] = [];
  for (let from = 1; from <= n + 1; from++)
    for (let to = 0; to <= n; to++) {
      const emptyS = line.emptyTravel[from - 1][to];
      if (from !== to) travel.push({ from: name(from), to: name(to), emptyS, loadedS: emptyS });
    }
  for (let i = 0; i <= n; i++) {
    const at = travel.findIndex((t) => t.from === name(i) && t.to === name(i + 1));
    const emptyS = at < 0 ? line.carry[i] : travel[at].emptyS;
    if (at >= 0) travel.splice(at, 1);
    travel.push({ from: name(i), to: name(i + 1), emptyS, loadedS: line.carry[i] });
  }
  const steps: Step[] = [];
  for (let i = 0; i <= n + 1; i++) {
    const inside = i > 0 && i <= n;
    const stay = inside ? line.leastStay[i - 1] : 0;
    const most = inside ? line.longestStay[i - 1] : null;
    steps.push(step(i + 1, name(i), { cycleS: stay, maxWaitS: most === null ? null : most - stay }));
  }
  return { ...emptyCell, stations, travel, routes: [{ part: 'part', steps }] };
}

/** The same as times by place, for other solvers. */
export function lineTimes(line: PublishedLine): SerialTimes {
  const n = line.stations;
  const inside = <T>(list: readonly T[]): T[] => list.slice(0, n);
  return {
    travel: Array.from({ length: n + 2 }, (_, from) =>
      Array.from({ length: n + 2 }, (_, to) => (from === 0 || to > n ? 0 : line.emptyTravel[from - 1][to])),
    ),
    carriedS: line.carry,
    pickS: new Array(n + 2).fill(0),
    placeS: new Array(n + 2).fill(0),
    processS: [0, ...inside(line.leastStay)],
    maxWaitS: [
      null,
      ...inside(line.longestStay).map((most, i) => (most === null ? null : most - line.leastStay[i])),
    ],
  };
}

export interface PositionLine {
  readonly machines: number;
  readonly positions: readonly number[];
  readonly secondsPerUnit: number;
  readonly pickS: readonly number[];
  readonly placeS: readonly number[];
  readonly processS: readonly number[];
  readonly longestStayS: readonly (number | null)[];
  readonly periodS: number | null;
}

/** A line of stations at positions, with pick and place times. */
export function positionCell(line: PositionLine): Cell {
  const n = line.machines;
  const name = (i: number): string => (i === 0 ? 'in' : i === n + 1 ? 'out' : `m${i}`);
  const stations: Station[] = [];
  for (let i = 0; i <= n + 1; i++)
    stations.push(station(name(i), i === 0 ? 'infeed' : i === n + 1 ? 'outfeed' : 'machine'));
  const travel: TravelRow[] = [];
  for (let a = 0; a <= n + 1; a++)
    for (let b = a + 1; b <= n + 1; b++) {
      const time = Math.abs(line.positions[a] - line.positions[b]) * line.secondsPerUnit;
      travel.push({ from: name(a), to: name(b), emptyS: time, loadedS: time });
    }
  const steps: Step[] = [];
  for (let i = 0; i <= n + 1; i++) {
    const inside = i > 0 && i <= n;
    const most = inside ? line.longestStayS[i - 1] : null;
    steps.push(
      step(i + 1, name(i), {
        cycleS: inside ? line.processS[i - 1] : 0,
        maxWaitS: most === null ? null : most - line.processS[i - 1],
        loadS: i > 0 ? line.placeS[i - 1] : 0,
        unloadS: i <= n ? line.pickS[i] : 0,
      }),
    );
  }
  return { ...emptyCell, stations, travel, routes: [{ part: 'part', steps }] };
}

/** The same as times by place, for other solvers. */
export function positionTimes(line: PositionLine): SerialTimes {
  const { positions, secondsPerUnit } = line;
  return {
    travel: positions.map((a) => positions.map((b) => Math.abs(a - b) * secondsPerUnit)),
    pickS: [...line.pickS, 0],
    placeS: [0, ...line.placeS],
    processS: [0, ...line.processS],
    maxWaitS: [null, ...line.longestStayS.map((most, i) => (most === null ? null : most - line.processS[i]))],
  };
}

/** The one way of a route without alternatives. */
export function onlyPath(
  cell: Cell,
  count = 1,
): { route: number; stops: { step: Step; station: string }[]; count: number }[] {
  return [{ route: 0, stops: cell.routes[0].steps.map((s) => ({ step: s, station: s.stations[0] })), count }];
}
