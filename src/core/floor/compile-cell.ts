/** Turns a cell into the flat tables of the simulation. */

import { askedPerWeek, firstWeek } from '../calendar/asked-amounts.js';
import { type TimeDistribution, timeDistribution } from '../distributions/distribution.js';
import type { Cell, Element, Station, Step, Variation } from '../model/cell.js';
import { travelLookup } from '../model/travel.js';
import {
  type CompiledCell,
  type CompiledStop,
  HELD,
  INFEED,
  OUTFEED,
  type Sampler,
  WORK,
} from './compiled-cell.js';

/** Slots given to a machine, bench or buffer whose capacity is not limited. */
const UNLIMITED_SLOTS = 256;

interface Op {
  readonly route: number;
  readonly step: Step;
  readonly stations: readonly number[];
  readonly kind: number;
}

/**
 * @param cell a cell whose tables have been checked
 * @throws RangeError where a distribution's parameters, a station's name or a travel time is missing or wrong
 */
export function compileCell(cell: Cell): CompiledCell {
  const index = new Map(cell.stations.map((s, i) => [s.name, i]));
  const ops = listOps(cell, index);
  const slots = layOutSlots(cell.stations, ops);
  const choices = flatten(ops.map((op) => op.stations));
  const raw = flatten(cell.stations.map((_, s) => rawRoutesOf(cell, ops, s)));
  for (const route of cell.routes) refuseTimeless(cell, route);
  const parts = cell.routes.map((route) => cell.parts.find((p) => p.part === route.part));
  const mix = mixOf(parts, firstWeek(cell).shifts);
  const samplers: Sampler[] = [];
  const elements = new SamplerTable(cell, ops, samplers);
  const cycle = elements.scaled('cycle', (op) => op.step.cycleS);
  const load = elements.scaled('load', (op) => op.step.loadS);
  const unload = elements.scaled('unload', (op) => op.step.unloadS);
  const travelSampler = elements.plain('travel');
  const repair = elements.repair();
  const responseSampler = elements.plain('response');
  const meanResponseS = (station: number): number => {
    const sampler = responseSampler[station]!;
    return sampler < 0 ? 0 : samplers[sampler]!.distribution.mean * 60;
  };
  const full = travelTables(cell, index, ops);
  return {
    stationNames: cell.stations.map((s) => s.name),
    stationCount: cell.stations.length,
    stationKind: Int8Array.from(cell.stations, kindOf),
    closeS: Float64Array.from(cell.stations, (s) => s.closeS),
    readyS: Float64Array.from(cell.stations, (s) => s.readyS),
    mtbfS: Float64Array.from(cell.stations, (s) => (s.mtbfH === null ? Infinity : s.mtbfH * 3600)),
    rackParts: Float64Array.from(cell.stations, (s) => s.capacityParts ?? Infinity),
    ...slots,
    stops: cell.stops.map((stop) => compileStop(stop, index, meanResponseS)),
    routeNames: cell.routes.map((r) => r.part),
    routeCount: cell.routes.length,
    routeFirstOp: Int32Array.from(cell.routes, (_, r) => ops.findIndex((op) => op.route === r)),
    routeMix: mix,
    routeLead: Float64Array.from(cell.routes, (route, r) =>
      Math.max(mix[r]!, ...route.steps.map((s) => s.partsPerCycle)),
    ),
    goodShare: Float64Array.from(parts, (p) => (p?.yieldPct ?? 100) / 100),
    attendedOnly: Uint8Array.from(parts, (p) => (p?.unattended === false ? 1 : 0)),
    opCount: ops.length,
    opRoute: Int32Array.from(ops, (op) => op.route),
    opStep: Float64Array.from(ops, (op) => op.step.step),
    opKind: Int8Array.from(ops, (op) => op.kind),
    firstChoice: choices.first,
    opStations: choices.values,
    choiceOp: Int32Array.from(ops.flatMap((op, o) => op.stations.map(() => o))),
    opCycleS: Float64Array.from(ops, (op) => op.step.cycleS),
    opLoadS: Float64Array.from(ops, (op) => op.step.loadS),
    opUnloadS: Float64Array.from(ops, (op) => op.step.unloadS),
    opMaxWaitS: Float64Array.from(ops, (op) => op.step.maxWaitS ?? Infinity),
    opBatch: Int32Array.from(ops, (op) => op.step.partsPerCycle),
    opEvery: Int32Array.from(ops, (op) => op.step.everyParts),
    opPlainNext: Int32Array.from(ops, (_, o) => plainNext(ops, o)),
    firstRaw: raw.first,
    rawRoutes: raw.values,
    soleFeed: Int32Array.from(cell.stations, (_, s) => soleFeed(cell, ops, s, mix, choices.first)),
    directRoutes: Int32Array.from(cell.routes.keys()).filter((r) => isDirect(ops, r)),
    hasRing: hasRing(cell.stations.length, ops),
    travelEmptyS: full.empty,
    travelLoadedS: full.loaded,
    hands: cell.robot.hands,
    indexS: cell.robot.indexS,
    samplers,
    cycleSampler: cycle.sampler,
    loadSampler: load.sampler,
    unloadSampler: unload.sampler,
    travelSampler,
    repairSampler: repair.sampler,
    repairScale: repair.scale,
    responseSampler,
    cycleScale: cycle.scale,
    loadScale: load.scale,
    unloadScale: unload.scale,
    streamNames: [
      ...samplers.map((s) => s.stream),
      ...cell.stations.map((s) => `random stops ${s.name}`),
      ...cell.routes.map((r) => `yield ${r.part}`),
    ],
  };
}

/** A part that takes no time at all would be made without end in one moment. */
function refuseTimeless(cell: Cell, route: Cell['routes'][number]): void {
  const lookup = travelLookup(cell);
  const steps = route.steps.filter((step) => step.everyParts === 1);
  const own = steps.some((step) => step.cycleS + step.loadS + step.unloadS > 0);
  const moves = steps.some((step, i) =>
    step.stations.some((to) =>
      (steps[i - 1]?.stations ?? []).some((from) => (lookup(from, to)?.loadedS ?? 1) > 0),
    ),
  );
  if (!own && !moves)
    throw new RangeError(
      `part ${route.part} takes no time at all: give a cycle, load, unload or travel time`,
    );
}

function kindOf(station: Station): number {
  if (station.kind === 'infeed') return INFEED;
  if (station.kind === 'outfeed') return OUTFEED;
  return station.kind === 'held' ? HELD : WORK;
}

function listOps(cell: Cell, index: ReadonlyMap<string, number>): Op[] {
  return cell.routes.flatMap((route, r) =>
    route.steps.map((step) => {
      const stations = step.stations.map((name) => {
        const at = index.get(name);
        if (at === undefined)
          throw new RangeError(`part ${route.part} names the station ${name}, which is not listed`);
        return at;
      });
      return { route: r, step, stations, kind: kindOf(cell.stations[stations[0]!]!) };
    }),
  );
}

/** A fixture for several parts needs as many slots, whatever the station's capacity says. */
function layOutSlots(stations: readonly Station[], ops: readonly Op[]) {
  const firstSlot = new Int32Array(stations.length + 1);
  const owner: number[] = [];
  for (const [s, station] of stations.entries()) {
    firstSlot[s] = owner.length;
    if (kindOf(station) !== WORK) continue;
    const batch = ops.reduce(
      (most, op) => (op.stations.includes(s) ? Math.max(most, op.step.partsPerCycle) : most),
      1,
    );
    const count = Math.max(batch, station.capacityParts ?? UNLIMITED_SLOTS);
    for (let i = 0; i < count; i++) owner.push(s);
  }
  firstSlot[stations.length] = owner.length;
  return { firstSlot, slotStation: Int32Array.from(owner), slotCount: owner.length };
}

function flatten(lists: readonly (readonly number[])[]): { first: Int32Array; values: Int32Array } {
  const first = new Int32Array(lists.length + 1);
  for (const [i, list] of lists.entries()) first[i + 1] = first[i]! + list.length;
  return { first, values: Int32Array.from(lists.flat()) };
}

function compileStop(
  stop: Cell['stops'][number],
  index: ReadonlyMap<string, number>,
  meanResponseS: (station: number) => number,
): CompiledStop {
  const station = index.get(stop.station);
  if (station === undefined)
    throw new RangeError(`the stop ${stop.name} names the station ${stop.station}, which is not listed`);
  return {
    station,
    name: stop.name,
    everyParts: stop.everyParts ?? Infinity,
    everyS: stop.everyH === null ? Infinity : stop.everyH * 3600,
    seconds: stop.minutes * 60,
    needsOperator: stop.operator,
    earlyParts: stop.operator && stop.everyParts !== null ? (stop.earlyParts ?? 0) : 0,
    responseS: meanResponseS(station),
  };
}

/** The mix counts where every route has a ratio or a demand; none where one lacks both. */
function mixOf(parts: readonly (Cell['parts'][number] | undefined)[], shifts: number): Float64Array {
  const ratios = parts.map((p) => p?.ratio ?? 0);
  const demands = parts.map((p) => askedPerWeek(p, shifts) ?? 0);
  const mix = ratios.every((v) => v > 0)
    ? ratios
    : demands.every((v) => v > 0)
      ? demands
      : ratios.map(() => 0);
  const least = Math.min(...mix);
  return Float64Array.from(mix, (v) => (least > 0 ? v / least : 0));
}

function plainNext(ops: readonly Op[], o: number): number {
  const next = ops[o + 1];
  if (next === undefined || next.route !== ops[o]!.route) return -1;
  return next.kind !== HELD && next.step.everyParts === 1 ? o + 1 : -1;
}

/** Operations that a part may reach next after operation o, held ones passed over. */
function reachable(ops: readonly Op[], o: number): number[] {
  const found: number[] = [];
  for (let n = o + 1; n < ops.length && ops[n]!.route === ops[o]!.route; n++) {
    if (ops[n]!.kind === HELD) continue;
    found.push(n);
    if (ops[n]!.step.everyParts === 1) break;
  }
  return found;
}

function rawRoutesOf(cell: Cell, ops: readonly Op[], station: number): number[] {
  return [...cell.routes.keys()].filter((r) => {
    const first = ops.findIndex((op) => op.route === r);
    return reachable(ops, first).some((n) => ops[n]!.kind === WORK && ops[n]!.stations.includes(station));
  });
}

function soleFeed(
  cell: Cell,
  ops: readonly Op[],
  station: number,
  mix: Float64Array,
  firstChoice: Int32Array,
): number {
  const [route, ...others] = rawRoutesOf(cell, ops, station);
  if (route === undefined || others.length > 0 || (mix[route] !== 0 && mix.length > 1)) return -1;
  const first = ops.findIndex((op) => op.route === route);
  const steady = ops[first]!.stations.length === 1 && plainNext(ops, first) >= 0;
  return steady && ops[first + 1]!.step.partsPerCycle === 1 ? firstChoice[first]! : -1;
}

function isDirect(ops: readonly Op[], route: number): boolean {
  const first = ops.findIndex((op) => op.route === route);
  return reachable(ops, first).some((n) => ops[n]!.kind === OUTFEED);
}

/** True where parts can move from a station over others back to it, and so block each other. */
function hasRing(stationCount: number, ops: readonly Op[]): boolean {
  const next = Array.from({ length: stationCount }, () => new Set<number>());
  for (const [o, op] of ops.entries()) {
    if (op.kind !== WORK) continue;
    for (const n of reachable(ops, o))
      if (ops[n]!.kind === WORK)
        for (const a of op.stations) for (const b of ops[n]!.stations) next[a]!.add(b);
  }
  const state = new Uint8Array(stationCount);
  const visit = (s: number): boolean => {
    if (state[s] === 1) return true;
    if (state[s] === 2) return false;
    state[s] = 1;
    for (const n of next[s]!) if (visit(n)) return true;
    state[s] = 2;
    return false;
  };
  return next.some((_, s) => visit(s));
}

function travelTables(cell: Cell, index: ReadonlyMap<string, number>, ops: readonly Op[]) {
  const n = cell.stations.length;
  const empty = new Float64Array(n * n).fill(NaN);
  const loaded = new Float64Array(n * n).fill(NaN);
  const lookup = travelLookup(cell);
  const same = cell.robot.hands === 2 ? cell.robot.indexS : 0;
  const used = new Set(ops.flatMap((op) => op.stations));
  for (const a of cell.stations)
    for (const b of cell.stations) {
      const at = index.get(a.name)! * n + index.get(b.name)!;
      const time = lookup(a.name, b.name);
      if (a.name === b.name) empty[at] = loaded[at] = same;
      else if (time !== null) {
        empty[at] = time.emptyS;
        loaded[at] = time.loadedS;
      } else if (used.has(index.get(a.name)!) && used.has(index.get(b.name)!))
        throw new RangeError(`no travel time is given from ${a.name} to ${b.name}`);
    }
  return { empty, loaded };
}

/** Finds the variation of each element of each station, and how a draw becomes a time. */
class SamplerTable {
  /** Rows with the same distribution share it, and the tables behind it. */
  private readonly shared = new Map<string, TimeDistribution>();

  constructor(
    private readonly cell: Cell,
    private readonly ops: readonly Op[],
    private readonly samplers: Sampler[],
  ) {}

  /** Samplers by station with no scale: repair and response in minutes turned to seconds, travel relative to its mean. */
  plain(element: Element): Int32Array {
    return Int32Array.from(this.cell.stations, (s) => this.add(s.name, element));
  }

  /**
   * A row for a station by name, where all its steps share one time, gives the time itself. A row for `*`, or for a
   * station with several times, gives the scatter: each step keeps its own mean.
   */
  scaled(element: Element, nominal: (op: Op) => number): { sampler: Int32Array; scale: Float64Array } {
    const sampler = this.plain(element);
    const scale = new Float64Array(this.cell.stations.length * this.ops.length).fill(1);
    for (const [s, station] of this.cell.stations.entries()) {
      if (sampler[s]! < 0) continue;
      const row = this.find(station.name, element)!;
      const times = new Set(this.ops.filter((op) => op.stations.includes(s)).map(nominal));
      if (row.station !== '*' && times.size === 1) continue;
      const mean = this.samplers[sampler[s]!]!.distribution.mean;
      for (const [o, op] of this.ops.entries())
        scale[s * this.ops.length + o] = mean > 0 ? nominal(op) / mean : 0;
    }
    return { sampler, scale };
  }

  /** Time to clear a stop, minutes; without a row it is exponential about the station's mean. */
  repair(): { sampler: Int32Array; scale: Float64Array } {
    const sampler = this.plain('repair');
    const scale = new Float64Array(this.cell.stations.length).fill(1);
    for (const [s, station] of this.cell.stations.entries()) {
      const mean = station.mttrMin ?? 0;
      if (sampler[s]! < 0 && station.mtbfH !== null) {
        const distribution = timeDistribution(mean > 0 ? 'exponential' : 'constant', [mean]);
        sampler[s] = this.samplers.length;
        this.samplers.push({ stream: `repair ${station.name}`, distribution });
      } else if (sampler[s]! >= 0 && this.find(station.name, 'repair')!.station === '*' && mean > 0)
        scale[s] = mean / this.samplers[sampler[s]!]!.distribution.mean;
    }
    return { sampler, scale };
  }

  private find(station: string, element: Element): Variation | undefined {
    const rows = this.cell.variation.filter((v) => v.element === element);
    return rows.find((v) => v.station === station) ?? rows.find((v) => v.station === '*');
  }

  private add(station: string, element: Element): number {
    const row = this.find(station, element);
    if (row === undefined) return -1;
    const key = JSON.stringify([row.distribution, row.parameters]);
    const distribution = this.shared.get(key) ?? timeDistribution(row.distribution, row.parameters);
    this.shared.set(key, distribution);
    this.samplers.push({ stream: `${element} ${station}`, distribution });
    return this.samplers.length - 1;
  }
}
