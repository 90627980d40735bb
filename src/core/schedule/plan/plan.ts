/**
 * A plan: what one period has to do, before any order is chosen. It turns the parts chosen for a period, each with
 * its way through the cell, into counted events (pick, hold, place) that move parts between counted places.
 *
 * A *place* here is a step of a part at a station, or a stage of a carry in the robot's hands; every event takes one
 * part from one such place to the next. Stations and the pair of hands are *rooms* with a capacity. Parts of the same
 * kind in the same place are alike, so orders are sequences of event kinds, not of numbered parts.
 */
import type { Cell, Station, Step } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';

/** The way of some parts of a period: stations by step, held stations included. */
export interface PathCount {
  readonly route: number;
  readonly stops: readonly { readonly step: Step; readonly station: string }[];
  /** Parts per period that go this way, 1 or more. */
  readonly count: number;
}

export interface PlanRoom {
  readonly name: string;
  readonly capacity: number;
  readonly hands: boolean;
}

export interface PlanNode {
  readonly room: number;
  readonly part: string;
  readonly step: number;
  readonly station: string;
  /** source: infeed; sink: outfeed; inside: a step at a station; hand: a stage of a carry. */
  readonly kind: 'source' | 'sink' | 'inside' | 'hand';
  /** close + cycle + ready. At a source or sink: time until it can serve again. */
  readonly processS: number;
  readonly cycleS: number;
  readonly maxWaitS: number | null;
  readonly batch: number;
  /** Parts that pass in a period. */
  readonly visits: number;
}

/** An infeed or outfeed that needs time between two parts. */
export function isPacedRack({ kind, processS }: PlanNode): boolean {
  return processS > 0 && (kind === 'source' || kind === 'sink');
}

export interface PlanEvent {
  readonly action: 'pick' | 'hold' | 'place';
  readonly station: number;
  readonly part: string;
  readonly step: number;
  readonly robotS: number;
  /** Of robotS, what the robot spends while a held station works on the part. */
  readonly heldS: number;
  readonly from: number;
  readonly to: number;
  readonly carry: number;
  /** Position within the carry. */
  readonly stage: number;
  readonly count: number;
}

export interface PlanCarry {
  /** Events in the order of one carry: a pick, holds, a place. */
  readonly events: readonly number[];
  readonly count: number;
}

export interface Plan {
  readonly hands: 1 | 2;
  readonly indexS: number;
  readonly stations: readonly Station[];
  /** emptyS[a * stations.length + b], loadedS likewise; 0 from a station to itself. */
  readonly emptyS: Float64Array;
  readonly loadedS: Float64Array;
  readonly rooms: readonly PlanRoom[];
  readonly nodes: readonly PlanNode[];
  readonly events: readonly PlanEvent[];
  readonly carries: readonly PlanCarry[];
  readonly partsPerPeriod: Readonly<Record<string, number>>;
  readonly paths: readonly PathCount[];
}

interface Draft {
  readonly rooms: PlanRoom[];
  readonly nodes: (PlanNode & { visits: number })[];
  readonly nodeOf: Map<string, number>;
  readonly carries: { readonly stops: CarryStops; count: number }[];
  readonly carryOf: Map<string, number>;
  readonly roomOf: Map<string, number>;
}

interface PathStop {
  readonly step: Step;
  readonly station: string;
}

interface CarryStops {
  readonly route: number;
  readonly part: string;
  readonly stops: readonly PathStop[];
}

/** Builds the plan of a period from the parts' ways. Stations and travel times must resolve (see the tables' checks). */
export function buildPlan(cell: Cell, paths: readonly PathCount[]): Plan {
  const stationOf = new Map(cell.stations.map((s, index) => [s.name, index]));
  const draft: Draft = {
    rooms: [{ name: 'robot', capacity: cell.robot.hands, hands: true }],
    nodes: [],
    nodeOf: new Map(),
    carries: [],
    carryOf: new Map(),
    roomOf: new Map(),
  };
  for (const path of paths) addPath(cell, draft, path, stationOf);
  const events: PlanEvent[] = [];
  const carries = draft.carries.map((carry, index) => addEvents(draft, events, carry, index, stationOf));
  const { emptyS, loadedS } = travelMatrices(cell);
  return {
    hands: cell.robot.hands,
    indexS: cell.robot.indexS,
    stations: cell.stations,
    emptyS,
    loadedS,
    rooms: draft.rooms,
    nodes: draft.nodes,
    events,
    carries,
    partsPerPeriod: countParts(cell, paths),
    paths,
  };
}

function countParts(cell: Cell, paths: readonly PathCount[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const route of cell.routes) counts[route.part] = 0;
  for (const path of paths) counts[cell.routes[path.route]!.part]! += path.count;
  return counts;
}

function addPath(cell: Cell, draft: Draft, path: PathCount, stationOf: Map<string, number>): void {
  const route = cell.routes[path.route]!;
  let from: PathStop | null = null;
  let held: PathStop[] = [];
  for (const stop of path.stops) {
    const station = cell.stations[stationOf.get(stop.station)!]!;
    if (station.kind === 'held') {
      held.push(stop);
      continue;
    }
    const node = nodeFor(draft, path.route, route.part, stop, station, path.stops);
    draft.nodes[node]!.visits += path.count;
    if (from !== null) {
      const stops = [from, ...held, stop];
      const key = `${path.route}|${stops.map((s) => `${s.step.step}@${s.station}`).join('|')}`;
      const known = draft.carryOf.get(key);
      if (known !== undefined) draft.carries[known]!.count += path.count;
      else {
        draft.carryOf.set(key, draft.carries.length);
        draft.carries.push({ stops: { route: path.route, part: route.part, stops }, count: path.count });
      }
    }
    from = stop;
    held = [];
  }
}

function nodeFor(
  draft: Draft,
  route: number,
  part: string,
  stop: PathStop,
  station: Station,
  stops: readonly PathStop[],
): number {
  const key = `${route}|${stop.step.step}@${stop.station}`;
  const known = draft.nodeOf.get(key);
  if (known !== undefined) return known;
  const kind = stop === stops[0] ? 'source' : stop === stops[stops.length - 1] ? 'sink' : 'inside';
  draft.nodes.push({
    room: kind === 'inside' ? roomFor(draft, station) : -1,
    part,
    step: stop.step.step,
    station: station.name,
    kind,
    processS: station.closeS + stop.step.cycleS + station.readyS,
    cycleS: stop.step.cycleS,
    maxWaitS: stop.step.maxWaitS,
    batch: stop.step.partsPerCycle,
    visits: 0,
  });
  draft.nodeOf.set(key, draft.nodes.length - 1);
  return draft.nodes.length - 1;
}

function roomFor(draft: Draft, station: Station): number {
  const known = draft.roomOf.get(station.name);
  if (known !== undefined) return known;
  draft.rooms.push({
    name: station.name,
    capacity: station.capacityParts ?? Number.POSITIVE_INFINITY,
    hands: false,
  });
  draft.roomOf.set(station.name, draft.rooms.length - 1);
  return draft.rooms.length - 1;
}

function addEvents(
  draft: Draft,
  events: PlanEvent[],
  carry: { readonly stops: CarryStops; readonly count: number },
  index: number,
  stationOf: Map<string, number>,
): PlanCarry {
  const { stops, part, route } = carry.stops;
  const last = stops.length - 1;
  let from = draft.nodeOf.get(`${route}|${stops[0]!.step.step}@${stops[0]!.station}`)!;
  const own: number[] = [];
  for (const [stage, stop] of stops.entries()) {
    const action = stage === 0 ? 'pick' : stage === last ? 'place' : 'hold';
    const to =
      action === 'place'
        ? draft.nodeOf.get(`${route}|${stop.step.step}@${stop.station}`)!
        : handNode(draft, part, stop, carry.count);
    own.push(events.length);
    events.push({
      action,
      station: stationOf.get(stop.station)!,
      part,
      step: stop.step.step,
      robotS: robotTime(action, stop.step),
      heldS: action === 'hold' ? stop.step.cycleS : 0,
      from,
      to,
      carry: index,
      stage,
      count: carry.count,
    });
    from = to;
  }
  return { events: own, count: carry.count };
}

function handNode(draft: Draft, part: string, stop: PathStop, visits: number): number {
  draft.nodes.push({
    room: 0,
    part,
    step: stop.step.step,
    station: stop.station,
    kind: 'hand',
    processS: 0,
    cycleS: 0,
    maxWaitS: null,
    batch: 1,
    visits,
  });
  return draft.nodes.length - 1;
}

function robotTime(action: PlanEvent['action'], step: Step): number {
  if (action === 'pick') return step.unloadS;
  if (action === 'place') return step.loadS;
  return step.loadS + step.cycleS + step.unloadS;
}

interface TravelMatrices {
  readonly emptyS: Float64Array;
  readonly loadedS: Float64Array;
}

/** A cell never changes, and many plans are built of one. */
const matricesOf = new WeakMap<Cell, TravelMatrices>();

function travelMatrices(cell: Cell): TravelMatrices {
  const known = matricesOf.get(cell);
  if (known !== undefined) return known;
  const made = newMatrices(cell);
  matricesOf.set(cell, made);
  return made;
}

function newMatrices(cell: Cell): TravelMatrices {
  const n = cell.stations.length;
  const emptyS = new Float64Array(n * n);
  const loadedS = new Float64Array(n * n);
  const travel = travelLookup(cell);
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < n; b++) {
      const time = travel(cell.stations[a]!.name, cell.stations[b]!.name);
      // A pair that no route needs may lack a time; the search never takes an infinite trip.
      emptyS[a * n + b] = time === null ? Number.POSITIVE_INFINITY : time.emptyS;
      loadedS[a * n + b] = time === null ? Number.POSITIVE_INFINITY : time.loadedS;
    }
  }
  return { emptyS, loadedS };
}
