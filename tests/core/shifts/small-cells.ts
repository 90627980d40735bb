/** Small cells with an order, built by hand for the tests of shifts and size; no code of the scheduler is used. */
import type { Cell, Shift } from '../../../src/core/model/cell.js';
import { travelLookup } from '../../../src/core/model/travel.js';
import { leastPeriod } from '../../../src/core/schedule/evaluate/least-period.js';
import type { OrderEvent, ProcessLink, ScheduleFound } from '../../../src/core/schedule/result.js';
import { station, step } from '../../support/line-cell.js';

export { station, step };

export const cellOf = (more: Partial<Cell>): Cell => ({
  stations: [],
  routes: [],
  robot: {
    hands: 1,
    indexS: 0,
    speedMS: null,
    accelMS2: null,
    travelS: null,
    attendedSpeedPct: 100,
    costPerH: 0,
  },
  travel: [],
  parts: [],
  shifts: [],
  stops: [],
  variation: [],
  changeovers: [],
  setups: [],
  jobs: [],
  signals: [],
  costs: [],
  ...more,
});

export const shift = (more: Partial<Shift>): Shift => ({
  pattern: 'p',
  shift: 'day',
  days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
  startMin: 360,
  endMin: 840,
  breaks: [],
  attended: true,
  operators: 1,
  labourPerH: 30,
  ...more,
});

export interface SmallCell {
  readonly cell: Cell;
  readonly schedule: ScheduleFound;
}

/** A serial line: move i takes a part from station i to station i + 1; station 0 is the infeed. */
export interface Line {
  readonly cycleS: readonly number[];
  readonly maxWaitS?: readonly (number | null)[];
  /** By move: time to pick, way, time to place. */
  readonly pickS: readonly number[];
  readonly placeS: readonly number[];
  /** Robot time between two stations. */
  readonly wayS: (from: number, to: number) => number;
  readonly carryS?: (move: number) => number;
}

export function lineCell(line: Line, moves: readonly number[], more: Partial<Cell> = {}): SmallCell {
  const m = line.cycleS.length;
  const names = ['in', ...line.cycleS.map((_, i) => `m${i + 1}`), 'out'];
  const order: OrderEvent[] = moves.flatMap((move, at) => {
    const next = moves[(at + 1) % moves.length];
    const links: ProcessLink[] = [];
    if (move > 0) {
      const feeds = moves.indexOf(move - 1);
      links.push({
        placeIndex: 2 * feeds + 1,
        lag: feeds < at ? 0 : 1,
        processS: line.cycleS[move - 1],
        maxWaitS: line.maxWaitS?.[move - 1] ?? null,
      });
    }
    const common = { part: 'a', hand: 1 as const, pickIndex: 2 * at, pickLag: 0 };
    return [
      {
        ...common,
        action: 'pick' as const,
        station: names[move],
        step: move + 1,
        robotS: line.pickS[move],
        toNextS: line.carryS?.(move) ?? line.wayS(move, move + 1),
        loadedToNext: true,
        waitsFor: links,
      },
      {
        ...common,
        action: 'place' as const,
        station: names[move + 1],
        step: move + 2,
        robotS: line.placeS[move],
        toNextS: line.wayS(move + 1, next),
        loadedToNext: false,
        waitsFor: [],
      },
    ];
  });
  const travel = names.flatMap((from, i) =>
    names.flatMap((to, j) =>
      i === j
        ? []
        : [
            {
              from,
              to,
              emptyS: line.wayS(i, j),
              loadedS: j === i + 1 ? (line.carryS?.(i) ?? line.wayS(i, j)) : line.wayS(i, j),
            },
          ],
    ),
  );
  const cell = cellOf({
    stations: names.map((n, i) => station(n, i === 0 ? 'infeed' : i === m + 1 ? 'outfeed' : 'machine')),
    routes: [
      {
        part: 'a',
        steps: names.map((n, i) =>
          step(i + 1, [n], {
            cycleS: line.cycleS[i - 1] ?? 0,
            loadS: line.placeS[i - 1] ?? 0,
            unloadS: line.pickS[i] ?? 0,
            maxWaitS: line.maxWaitS?.[i - 1] ?? null,
          }),
        ),
      },
    ],
    travel,
    parts: [{ part: 'a', contribution: null, perShift: null, ratio: null, yieldPct: 100 }],
    ...more,
  });
  return { cell, schedule: scheduleOf(order, { a: 1 }, cell) };
}

export interface Identical {
  readonly machines: number;
  readonly cycleS: number;
  readonly loadS: number;
  readonly unloadS: number;
  readonly travelS: number;
}

/** Identical machines tended in turn with one hand. */
export function identicalCell(t: Identical, more: Partial<Cell> = {}): SmallCell {
  const machines = Array.from({ length: t.machines }, (_, i) => `m${i + 1}`);
  const cell = cellOf({
    stations: [
      station('in', 'infeed'),
      station('out', 'outfeed'),
      ...machines.map((m) => station(m, 'machine')),
    ],
    routes: [
      {
        part: 'a',
        steps: [
          step(1, ['in']),
          step(2, machines, { cycleS: t.cycleS, loadS: t.loadS, unloadS: t.unloadS }),
          step(3, ['out']),
        ],
      },
    ],
    parts: [{ part: 'a', contribution: null, perShift: null, ratio: null, yieldPct: 100 }],
    ...more,
    robot: { ...cellOf({}).robot, travelS: t.travelS, ...more.robot },
  });
  return { cell, schedule: roundRobin(cell) };
}

/**
 * The plain round of a cell whose one part goes to one of several machines, with one hand: empty the machine, fetch
 * the next part, fill it, go on.
 */
export function roundRobin(cell: Cell): ScheduleFound {
  const [{ part, steps }] = cell.routes;
  const [first, middle, last] = steps;
  const [source] = first.stations;
  const [sink] = last.stations;
  const machines = middle.stations;
  const travel = travelLookup(cell);
  const empty = (from: string, to: string) => travel(from, to)!.emptyS;
  const loaded = (from: string, to: string) => travel(from, to)!.loadedS;
  const order: OrderEvent[] = machines.flatMap((m, i) => {
    const at = 4 * i;
    const base = { part, hand: 1 as const, pickLag: 0, waitsFor: [] };
    const { closeS, readyS } = cell.stations.find((s) => s.name === m)!;
    return [
      {
        ...base,
        action: 'pick' as const,
        station: m,
        step: middle.step,
        robotS: middle.unloadS,
        toNextS: loaded(m, sink),
        loadedToNext: true,
        pickIndex: at,
        waitsFor: [{ placeIndex: at + 3, lag: 1, processS: closeS + middle.cycleS + readyS, maxWaitS: null }],
      },
      {
        ...base,
        action: 'place' as const,
        station: sink,
        step: last.step,
        robotS: last.loadS,
        toNextS: empty(sink, source),
        loadedToNext: false,
        pickIndex: at,
      },
      {
        ...base,
        action: 'pick' as const,
        station: source,
        step: first.step,
        robotS: first.unloadS,
        toNextS: loaded(source, m),
        loadedToNext: true,
        pickIndex: at + 2,
      },
      {
        ...base,
        action: 'place' as const,
        station: m,
        step: middle.step,
        robotS: middle.loadS,
        toNextS: empty(m, machines[(i + 1) % machines.length]),
        loadedToNext: false,
        pickIndex: at + 2,
      },
    ];
  });
  return scheduleOf(order, { [part]: machines.length }, cell);
}

/** The order of a test contradicts its longest waits. */
export class NoPeriod extends Error {}

/** The schedule object of an order: period by maximum cycle ratio, shares of the stations from it. */
export function scheduleOf(
  order: readonly OrderEvent[],
  parts: Record<string, number>,
  cell: Cell,
): ScheduleFound {
  const arcs = order.flatMap((e, i) => [
    {
      from: i,
      to: (i + 1) % order.length,
      weightS: e.robotS + e.toNextS,
      periods: i + 1 === order.length ? 1 : 0,
    },
    ...e.waitsFor.flatMap((w) => {
      const weightS = order[w.placeIndex].robotS + w.processS;
      const process = { from: w.placeIndex, to: i, weightS, periods: w.lag };
      const wait = { from: i, to: w.placeIndex, weightS: -(weightS + (w.maxWaitS ?? 0)), periods: -w.lag };
      return w.maxWaitS === null ? [process] : [process, wait];
    }),
  ]);
  const found = leastPeriod(arcs);
  if (!found.feasible) throw new NoPeriod();
  const { periodS, startS } = found;
  const total = Object.values(parts).reduce((a, b) => a + b, 0);
  const perH = (n: number) => (3600 * n) / periodS;
  const busyS = order.reduce((s, e) => s + e.robotS + e.toNextS, 0);
  return {
    status: 'proven',
    periodS,
    partsPerPeriod: parts,
    partsPerH: {
      ...Object.fromEntries(Object.entries(parts).map(([p, n]) => [p, perH(n)])),
      total: perH(total),
    },
    proven: true,
    boundS: periodS,
    gapPct: 0,
    partSet: { proven: true, boundS: periodS, gapPct: 0 },
    shorter: null,
    rateBoundPerH: { total: perH(total), perPart: {}, binding: [], goal: null },
    layoutGainPct: null,
    robot: {
      handlingS: order.reduce((s, e) => s + e.robotS, 0),
      travelEmptyS: 0,
      travelLoadedS: 0,
      heldS: 0,
      waitS: periodS - busyS,
      utilizationPct: (100 * busyS) / periodS,
    },
    stations: cell.stations
      .filter((s) => s.kind === 'machine')
      .map((s) => {
        const picks = order.flatMap((e, i) => (e.action === 'pick' && e.station === s.name ? [i] : []));
        let processingS = 0;
        let waitRobotS = 0;
        let handlingS = 0;
        for (const i of picks) {
          const w = order[i].waitsFor[0];
          const placed = startS[w.placeIndex] - w.lag * periodS + order[w.placeIndex].robotS;
          processingS += w.processS;
          waitRobotS += startS[i] - placed - w.processS;
          handlingS += order[i].robotS + order[w.placeIndex].robotS;
        }
        return {
          station: s.name,
          kind: s.kind,
          processingS,
          handlingS,
          waitRobotS,
          waitBusyS: waitRobotS,
          emptyS: periodS - processingS - handlingS - waitRobotS,
          utilizationPct: (100 * processingS) / periodS,
        };
      }),
    events: [],
    holds: [],
    order,
    bottleneck: { text: '', stations: [], periods: 1, chain: [] },
    improvements: [],
    whatIf: [],
    searched: { nodes: 0, seconds: 0, complete: true },
    assumptions: [],
    warnings: [],
  };
}

/**
 * A machine between an infeed and two outfeeds as near as each other, of which the one that a robot on calls takes is
 * far from the infeed: a stop there, 8 minutes after every 10 parts, has it take the other.
 * By hand, a part by `far` takes the machine's cycle and 3 + 6 + 3 + 20 + 3 + 10 + 2 = 47 s, by `near` the cycle and 29 s.
 */
export function twoOutfeeds(cycleS: number, more: Partial<Cell> = {}): Cell {
  const ways = [
    ['in', 'm', 10],
    ['m', 'far', 6],
    ['m', 'near', 6],
    ['far', 'in', 20],
    ['near', 'in', 2],
    ['far', 'near', 20],
  ] as const;
  return cellOf({
    stations: [
      station('in', 'infeed'),
      station('far', 'outfeed'),
      station('near', 'outfeed'),
      station('m', 'machine'),
    ],
    routes: [
      {
        part: 'a',
        steps: [
          step(1, ['in'], { unloadS: 3 }),
          step(2, ['m'], { cycleS, loadS: 2, unloadS: 3 }),
          step(3, ['far', 'near'], { loadS: 3 }),
        ],
      },
    ],
    travel: ways.flatMap(([a, b, s]) => [
      { from: a, to: b, emptyS: s, loadedS: s },
      { from: b, to: a, emptyS: s, loadedS: s },
    ]),
    parts: [{ part: 'a', contribution: null, perShift: null, ratio: null, yieldPct: 100 }],
    stops: [{ station: 'far', name: 'wipe', everyParts: 10, everyH: null, minutes: 8, operator: false }],
    ...more,
  });
}
