/**
 * A repeating order made ready to be run through time: numbers in place of names, from which period on each event
 * exists when the cell starts empty, which part it belongs to, and the timetable where longest waits ask for one.
 */

import { type OrderLives, orderLives } from '../../../src/core/floor/order-lives.js';
import type { Cell, Step } from '../../../src/core/model/cell.js';
import { travelLookup } from '../../../src/core/model/travel.js';
import { leastPeriod, type PeriodArc } from '../../../src/core/schedule/evaluate/least-period.js';
import type { OrderEvent } from '../../../src/core/schedule/result.js';

/** What a pick waits for. */
export interface PlanLink {
  readonly place: number;
  readonly lag: number;
  readonly processS: number;
  /** Infinity = unlimited. */
  readonly maxWaitS: number;
}

export interface OrderPlan extends OrderLives {
  readonly events: readonly OrderEvent[];
  /** All parts of the cell, also those that the order does not make. */
  readonly parts: readonly string[];
  readonly stations: readonly string[];
  /** By event: index of its part and its station. */
  readonly partOf: readonly number[];
  readonly stationOf: readonly number[];
  /** By event: a pick at an infeed, a place at an outfeed. */
  readonly takesIn: readonly boolean[];
  readonly putsOut: readonly boolean[];
  readonly links: readonly (readonly PlanLink[])[];
  /** Largest lag of any link or carry. */
  readonly depth: number;
  /** By life: time that it takes in the timetable, the robot's way to its first event included. */
  readonly lifeS: readonly number[];
  /** Time until an infeed presents the next part or an outfeed is clear again, and which events share it; -1 = none. */
  readonly feederS: readonly number[];
  readonly feederOf: readonly number[];
  readonly feeders: number;
  /** True where some step has a longest wait. */
  readonly hasLongestWaits: boolean;
  /** Timetable: least time from the start of the previous event in the order; null where none is needed or possible. */
  readonly gapS: readonly number[] | null;
  /** The same at the reduced speed of attended hours. */
  readonly slowGapS: readonly number[] | null;
  /** Robot time straight from the station of one event to that of another; null where no input gives it. */
  readonly wayS: (from: number, to: number, loaded: boolean) => number | null;
  readonly hands: 1 | 2;
  readonly indexS: number;
  /**
   * By event: a changeover of its station can come just before it, since the station is as empty as it ever is. There the
   * process time of the part that it brings; -1 elsewhere.
   */
  readonly changeoverS: readonly number[];
}

/**
 * @param cell stations, routes, robot and travel of the schedule
 * @param order the events of one period, in the order in which the robot does them
 * @throws RangeError where the order is empty or takes no time, or names a station that the cell has not
 */
export function orderPlan(cell: Cell, order: readonly OrderEvent[]): OrderPlan {
  if (order.length === 0) throw new RangeError('the order has no events');
  const parts = [...new Set([...cell.routes.map((r) => r.part), ...order.map((e) => e.part)])];
  const stations = cell.stations.map((s) => s.name);
  const stationOf = order.map((e) => stations.indexOf(e.station));
  const lost = order.find((_, i) => stationOf[i] === -1);
  if (lost) throw new RangeError(`the order visits ${lost.station}, which is not a station of the cell`);
  const kindOf = (i: number): string => cell.stations[stationOf[i]!]!.kind;
  const lives = orderLives(order);
  const feeders = feedersOf(cell, order);
  const links = order.map((e) =>
    e.waitsFor.map((w) => ({
      place: w.placeIndex,
      lag: w.lag,
      processS: w.processS,
      maxWaitS: w.maxWaitS ?? Number.POSITIVE_INFINITY,
    })),
  );
  const hasLongestWaits = links.some((l) => l.some((w) => w.maxWaitS < Number.POSITIVE_INFINITY));
  const full = timetable(order, 1, feeders.feederS, feeders.feederOf);
  if (full?.periodS === 0) throw new RangeError('the order takes no time at all, so it cannot be run');
  const slow = timetable(order, 100 / cell.robot.attendedSpeedPct, feeders.feederS, feeders.feederOf);
  return {
    events: order,
    parts,
    stations,
    partOf: order.map((e) => parts.indexOf(e.part)),
    stationOf,
    takesIn: order.map((e, i) => e.action === 'pick' && kindOf(i) === 'infeed'),
    putsOut: order.map((e, i) => e.action === 'place' && kindOf(i) === 'outfeed'),
    links,
    depth: Math.max(0, ...order.map((e) => e.pickLag), ...links.flat().map((l) => l.lag)),
    ...lives,
    lifeS: lifeSpans(lives, full, slow),
    ...feeders,
    hasLongestWaits,
    gapS: hasLongestWaits ? (full?.gapS ?? null) : null,
    slowGapS: hasLongestWaits ? (slow?.gapS ?? null) : null,
    wayS: wayLookup(cell, order),
    hands: cell.robot.hands,
    indexS: cell.robot.indexS,
    changeoverS: changeoverTimes(order),
  };
}

/** Before which events a station can be changed over: places into it when it is emptiest; elsewhere any event. */
function changeoverTimes(order: readonly OrderEvent[]): number[] {
  const level = new Map<string, number>();
  const before = order.map(({ station, action }) => {
    const inside = level.get(station) ?? 0;
    level.set(station, inside + (action === 'place' ? 1 : action === 'pick' ? -1 : 0));
    return inside;
  });
  return order.map((event, i) => {
    const here = order.flatMap((e, j) => (e.station === event.station ? [j] : []));
    const places = here.filter((j) => order[j]!.action === 'place');
    if (places.length < here.length && places.length > 0) {
      const least = Math.min(...places.map((j) => before[j]!));
      if (event.action !== 'place' || before[i] !== least) return -1;
    }
    const processes = order.flatMap((e) => e.waitsFor.filter((w) => w.placeIndex === i));
    return Math.max(0, ...processes.map((w) => w.processS));
  });
}

interface Feeders {
  readonly feederS: readonly number[];
  readonly feederOf: readonly number[];
  readonly feeders: number;
}

function feedersOf(cell: Cell, order: readonly OrderEvent[]): Feeders {
  const keys = new Map<string, number>();
  const feederS: number[] = [];
  const feederOf: number[] = [];
  for (const e of order) {
    const seconds = feederTime(cell, e);
    feederS.push(seconds);
    if (seconds === 0) {
      feederOf.push(-1);
      continue;
    }
    const key = `${e.station}\u0000${e.part}\u0000${e.step}`;
    if (!keys.has(key)) keys.set(key, keys.size);
    feederOf.push(keys.get(key)!);
  }
  return { feederS, feederOf, feeders: keys.size };
}

/** An infeed that needs time to present the next part, an outfeed that needs time to clear. */
function feederTime(cell: Cell, event: OrderEvent): number {
  const station = cell.stations.find((s) => s.name === event.station);
  if (station?.kind !== 'infeed' && station?.kind !== 'outfeed') return 0;
  const step: Step | undefined = cell.routes
    .find((r) => r.part === event.part)
    ?.steps.find((s) => s.step === event.step);
  return station.closeS + (step?.cycleS ?? 0) + station.readyS;
}

interface Timetable {
  readonly periodS: number;
  readonly startS: readonly number[];
  readonly gapS: readonly number[];
}

/** Earliest times at the least period, with travel stretched; null where the longest waits allow none. */
function timetable(
  order: readonly OrderEvent[],
  stretch: number,
  feederS: readonly number[],
  feederOf: readonly number[],
): Timetable | null {
  const n = order.length;
  const arcs: PeriodArc[] = [];
  order.forEach((e, i) => {
    const next = (i + 1) % n;
    const travelS = order[next]!.station === e.station ? e.toNextS : e.toNextS * stretch;
    arcs.push({ from: i, to: next, weightS: e.robotS + travelS, periods: next === 0 ? 1 : 0 });
    for (const w of e.waitsFor) {
      const weightS = order[w.placeIndex]!.robotS + w.processS;
      arcs.push({ from: w.placeIndex, to: i, weightS, periods: w.lag });
      if (w.maxWaitS !== null)
        arcs.push({ from: i, to: w.placeIndex, weightS: -(weightS + w.maxWaitS), periods: -w.lag });
    }
  });
  arcs.push(...feederArcs(order, feederS, feederOf));
  const found = leastPeriod(arcs);
  if (!found.feasible) return null;
  const startS = found.startS;
  const gapS = startS.map((t, i) => (i === 0 ? t + found.periodS - startS[n - 1]! : t - startS[i - 1]!));
  return { periodS: found.periodS, startS, gapS };
}

function feederArcs(
  order: readonly OrderEvent[],
  feederS: readonly number[],
  feederOf: readonly number[],
): PeriodArc[] {
  const arcs: PeriodArc[] = [];
  for (const feeder of new Set(feederOf)) {
    if (feeder === -1) continue;
    const at = order.flatMap((_, i) => (feederOf[i] === feeder ? [i] : []));
    at.forEach((from, i) => {
      const to = at[(i + 1) % at.length]!;
      arcs.push({
        from,
        to,
        weightS: order[from]!.robotS + feederS[from]!,
        periods: i + 1 === at.length ? 1 : 0,
      });
    });
  }
  return arcs;
}

/** Time that each life takes from its first event to the end of its last, at the slower of the two timetables. */
function lifeSpans(lives: OrderLives, full: Timetable | null, slow: Timetable | null): number[] {
  const count = Math.max(...lives.lifeOf) + 1;
  return Array.from({ length: count }, (_, life) =>
    Math.max(...[full, slow].map((t) => (t === null ? 0 : lifeSpan(lives, t, life)))),
  );
}

function lifeSpan(lives: OrderLives, table: Timetable, life: number): number {
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  lives.lifeOf.forEach((of, i) => {
    if (of !== life) return;
    const t = table.startS[i]! + lives.firstPeriod[i]! * table.periodS;
    // From the event before the first, so that the robot's way to it counts; to the one after the last.
    first = Math.min(first, t - table.gapS[i]!);
    last = Math.max(last, t + table.gapS[(i + 1) % table.gapS.length]!);
  });
  return last - first;
}

function wayLookup(cell: Cell, order: readonly OrderEvent[]): OrderPlan['wayS'] {
  const travel = travelLookup(cell);
  const known = new Map<number, ReturnType<typeof travel>>();
  return (from, to, loaded) => {
    const key = from * order.length + to;
    if (!known.has(key)) known.set(key, travel(order[from]!.station, order[to]!.station));
    const time = known.get(key) ?? null;
    return time === null ? null : loaded ? time.loadedS : time.emptyS;
  };
}
