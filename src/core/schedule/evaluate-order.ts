/**
 * What a given repeating order of events yields: its least period, the times, and which pick waits for which place.
 * Where the order leaves open how many parts lie in a station when the period starts, every possibility is tried.
 */
import { fifoLinks } from './fifo-links.js';
import { type LeastPeriodFound, leastPeriod, type PeriodArc } from './least-period.js';
import type { Plan, PlanEvent } from './plan.js';

/** Why an arc is there, so that a critical circuit can be told in words. Positions are places in the order. */
export type OrderArcKind = 'robot' | 'process' | 'longest wait' | 'feeder' | 'one move';

export interface OrderArc extends PeriodArc {
  readonly kind: OrderArcKind;
  /** Robot arcs: time of the event and of the way to the next. */
  readonly robotS: number;
  readonly travelS: number;
  /** Process arcs and longest waits: the place in the plan. */
  readonly node: number;
}

/** A pick (by position in the order) waits for the place at position `place`, `lag` periods before. */
export interface OrderLink {
  readonly pick: number;
  readonly place: number;
  readonly lag: number;
  readonly node: number;
  readonly lastOfBatch: boolean;
}

export interface EvaluatedOrder {
  readonly feasible: true;
  readonly order: readonly number[];
  readonly periodS: number;
  readonly longestPeriodS: number;
  /** Start of each event, the first at 0. */
  readonly startS: readonly number[];
  readonly arcs: readonly OrderArc[];
  readonly criticalCircuit: readonly number[];
  readonly links: readonly OrderLink[];
  /** Parts in hand after each event. */
  readonly inHand: readonly number[];
}

export interface ImpossibleOrder {
  readonly feasible: false;
  readonly reason: 'capacity' | 'waits';
  readonly arcs: readonly OrderArc[];
  readonly contradiction: readonly (readonly number[])[];
}

/**
 * @param plan what the period has to do
 * @param order event kinds (indices into plan.events), each as often as its count
 * @returns the least period and times, or why the order cannot repeat
 */
export function evaluateOrder(plan: Plan, order: readonly number[]): EvaluatedOrder | ImpossibleOrder {
  const levels = countLevels(plan, order);
  const choices = startChoices(plan, levels);
  if (choices === null) return { feasible: false, reason: 'capacity', arcs: [], contradiction: [] };
  const inHand = handCounts(plan, order, levels);
  const robot = robotArcs(plan, order, inHand);
  const positions = nodePositions(plan, order);
  let best: EvaluatedOrder | null = null;
  let worst: ImpossibleOrder = { feasible: false, reason: 'waits', arcs: [], contradiction: [] };
  for (const choice of choices) {
    const links = orderLinks(plan, positions, choice);
    const arcs = [...robot, ...linkArcs(plan, order, links), ...feederArcs(plan, order, positions)];
    const found = leastPeriod(arcs);
    if (!found.feasible) {
      const fault: ImpossibleOrder = {
        feasible: false,
        reason: 'waits',
        arcs,
        contradiction: found.contradiction,
      };
      if (tellsMore(fault, worst)) worst = fault;
    } else if (best === null || found.periodS < best.periodS - 1e-9) {
      best = evaluated(order, arcs, links, inHand, found);
    }
  }
  return best ?? worst;
}

/** A contradiction that names a longest wait says more than one of a start state that cannot be; then the shorter one. */
function tellsMore(fault: ImpossibleOrder, than: ImpossibleOrder): boolean {
  if (than.arcs.length === 0) return true;
  const waits = (order: ImpossibleOrder): boolean =>
    order.contradiction.flat().some((a) => order.arcs[a]!.kind === 'longest wait');
  if (waits(fault) !== waits(than)) return waits(fault);
  return fault.contradiction.flat().length < than.contradiction.flat().length;
}

function evaluated(
  order: readonly number[],
  arcs: readonly OrderArc[],
  links: readonly OrderLink[],
  inHand: readonly number[],
  found: LeastPeriodFound,
): EvaluatedOrder {
  return {
    feasible: true,
    order,
    periodS: found.periodS,
    longestPeriodS: found.longestPeriodS,
    startS: earliestFromFirst(arcs, order.length, found.periodS),
    arcs,
    criticalCircuit: found.criticalCircuit,
    links,
    inHand,
  };
}

/** Earliest start of each event when the first starts at 0. */
function earliestFromFirst(arcs: readonly OrderArc[], events: number, periodS: number): number[] {
  const startS = new Array<number>(events).fill(Number.NEGATIVE_INFINITY);
  startS[0] = 0;
  const inner = arcs.filter((arc) => arc.to !== 0);
  const from = Int32Array.from(inner, (arc) => arc.from);
  const to = Int32Array.from(inner, (arc) => arc.to);
  const weightS = Float64Array.from(inner, (arc) => arc.weightS);
  const backS = Float64Array.from(inner, (arc) => arc.periods * periodS);
  for (let sweep = 0; sweep <= events + 1; sweep++) {
    let changed = false;
    for (let a = 0; a < inner.length; a++) {
      const reach = startS[from[a]!]! + weightS[a]! - backS[a]!;
      if (reach > startS[to[a]!]! + 1e-9) {
        startS[to[a]!] = reach;
        changed = true;
      }
    }
    if (!changed) break;
  }
  return startS;
}

interface Levels {
  /** Change of each node since the period start, at its lowest. */
  readonly lowest: readonly number[];
  /** Change of each room, at its highest. */
  readonly highest: readonly number[];
}

function countLevels(plan: Plan, order: readonly number[]): Levels {
  const node = plan.nodes.map(() => 0);
  const lowest = plan.nodes.map(() => 0);
  const room = plan.rooms.map(() => 0);
  const highest = plan.rooms.map(() => 0);
  const shift = (index: number, by: number): void => {
    node[index]! += by;
    lowest[index] = Math.min(lowest[index]!, node[index]!);
    const r = plan.nodes[index]!.room;
    if (r < 0) return;
    room[r]! += by;
    highest[r] = Math.max(highest[r]!, room[r]!);
  };
  for (const kind of order) {
    const event = plan.events[kind]!;
    shift(event.from, -1);
    shift(event.to, 1);
  }
  return { lowest, highest };
}

/** State at the period start: parts inside by node, and parts of an unfinished batch. */
interface StartState {
  readonly inside: readonly number[];
  readonly loaded: readonly number[];
}

/** Every start state that keeps all rooms within their capacity; null where there is none. */
function startChoices(plan: Plan, levels: Levels): StartState[] | null {
  let states: StartState[] = [{ inside: levels.lowest.map((low) => -low), loaded: plan.nodes.map(() => 0) }];
  for (const [r, room] of plan.rooms.entries()) {
    const nodes = plan.nodes.flatMap((node, index) => (node.room === r ? [index] : []));
    const needed = nodes.reduce((sum, index) => sum - levels.lowest[index]!, 0);
    const spare = room.capacity - levels.highest[r]! - needed;
    if (spare < 0) return null;
    if (room.hands) continue;
    states = withSpare(plan, states, nodes, spare);
    states = withBatches(plan, states, nodes);
  }
  return states;
}

/** Spreads spare room over the nodes: more parts inside lets them process longer (but may break a longest wait). */
function withSpare(
  plan: Plan,
  states: readonly StartState[],
  nodes: readonly number[],
  spare: number,
): StartState[] {
  const useful = nodes.filter((index) => isTimed(plan, index));
  if (spare === 0 || useful.length === 0) return [...states];
  const windows = useful.some((index) => plan.nodes[index]!.maxWaitS !== null);
  // More than all visits of a period inside only shifts a process by whole periods: cap the count there.
  const cap = Math.min(spare, useful.reduce((sum, index) => sum + plan.nodes[index]!.visits, 0) * 2);
  const spreads = spreadsOf(cap, useful.length, !windows);
  return states.flatMap((state) =>
    spreads.map((spread) => ({
      ...state,
      inside: state.inside.map((count, index) => count + (spread[useful.indexOf(index)] ?? 0)),
    })),
  );
}

function isTimed(plan: Plan, index: number): boolean {
  const node = plan.nodes[index]!;
  return node.processS > 0 || node.maxWaitS !== null || node.batch > 1;
}

/** All ways to put up to `total` (or exactly, when `full`) units into `cells` cells. */
function spreadsOf(total: number, cells: number, full: boolean): number[][] {
  if (cells === 1) return full ? [[total]] : Array.from({ length: total + 1 }, (_, k) => [k]);
  return Array.from({ length: total + 1 }, (_, k) =>
    spreadsOf(total - k, cells - 1, full).map((rest) => [k, ...rest]),
  ).flat();
}

function withBatches(plan: Plan, states: readonly StartState[], nodes: readonly number[]): StartState[] {
  return nodes.reduce<StartState[]>(
    (all, index) => {
      const batch = plan.nodes[index]!.batch;
      if (batch === 1) return all;
      return all.flatMap((state) =>
        Array.from({ length: Math.min(batch - 1, state.inside[index]!) + 1 }, (_, part) => ({
          ...state,
          loaded: state.loaded.map((value, i) => (i === index ? part : value)),
        })),
      );
    },
    [...states],
  );
}

function handCounts(plan: Plan, order: readonly number[], levels: Levels): number[] {
  let held = plan.nodes.reduce(
    (sum, node, index) => (node.room === 0 ? sum - levels.lowest[index]! : sum),
    0,
  );
  return order.map((kind) => {
    const { action } = plan.events[kind]!;
    if (action === 'pick') held++;
    if (action === 'place') held--;
    return held;
  });
}

function robotArcs(plan: Plan, order: readonly number[], inHand: readonly number[]): OrderArc[] {
  return order.map((kind, position) => {
    const next = (position + 1) % order.length;
    const event = plan.events[kind]!;
    const travelS = robotWay(plan, event, plan.events[order[next]!]!, inHand[position]!);
    return {
      kind: 'robot',
      from: position,
      to: next,
      weightS: event.robotS + travelS,
      periods: next === 0 ? 1 : 0,
      robotS: event.robotS,
      travelS,
      node: -1,
    };
  });
}

/** Robot time from the end of one event to the start of the next: travel, or the index time at one station. */
export function robotWay(plan: Plan, from: PlanEvent, to: PlanEvent, inHand: number): number {
  if (from.station === to.station) return plan.hands === 2 ? plan.indexS : 0;
  const pair = from.station * plan.stations.length + to.station;
  return inHand > 0 ? plan.loadedS[pair]! : plan.emptyS[pair]!;
}

interface NodePositions {
  readonly places: readonly number[][];
  readonly picks: readonly number[][];
}

function nodePositions(plan: Plan, order: readonly number[]): NodePositions {
  const places: number[][] = plan.nodes.map(() => []);
  const picks: number[][] = plan.nodes.map(() => []);
  for (const [position, kind] of order.entries()) {
    picks[plan.events[kind]!.from]!.push(position);
    places[plan.events[kind]!.to]!.push(position);
  }
  return { places, picks };
}

function orderLinks(plan: Plan, positions: NodePositions, state: StartState): OrderLink[] {
  return plan.nodes.flatMap((node, index) => {
    if (node.kind !== 'inside' && node.kind !== 'hand') return [];
    return fifoLinks(node.visits, state.inside[index]!, node.batch, state.loaded[index]!).map((link) => ({
      pick: positions.picks[index]![link.pick]!,
      place: positions.places[index]![link.place]!,
      lag: link.lag,
      node: index,
      lastOfBatch: link.lastOfBatch,
    }));
  });
}

function linkArcs(plan: Plan, order: readonly number[], links: readonly OrderLink[]): OrderArc[] {
  return links.flatMap((link) => {
    const node = plan.nodes[link.node]!;
    if (node.kind !== 'inside') return [];
    const weightS = plan.events[order[link.place]!]!.robotS + node.processS;
    const process: OrderArc = {
      kind: 'process',
      from: link.place,
      to: link.pick,
      weightS,
      periods: link.lag,
      robotS: 0,
      travelS: 0,
      node: link.node,
    };
    if (node.maxWaitS === null || !link.lastOfBatch) return [process];
    const wait: OrderArc = {
      kind: 'longest wait',
      from: link.pick,
      to: link.place,
      weightS: -(weightS + node.maxWaitS),
      periods: -link.lag,
      robotS: 0,
      travelS: 0,
      node: link.node,
    };
    return [process, wait];
  });
}

/** An infeed that needs time to present the next part, an outfeed that needs time to clear: one for all parts that it serves. */
function feederArcs(plan: Plan, order: readonly number[], positions: NodePositions): OrderArc[] {
  const served = new Map<string, number[]>();
  for (const [index, node] of plan.nodes.entries()) {
    if (node.processS === 0 || (node.kind !== 'source' && node.kind !== 'sink')) continue;
    const at = node.kind === 'source' ? positions.picks[index]! : positions.places[index]!;
    served.set(node.station, [...(served.get(node.station) ?? []), ...at]);
  }
  return [...served.values()].flatMap((list) => {
    const at = list.sort((a, b) => a - b);
    return at.map((position, i) => {
      const event = plan.events[order[position]!]!;
      const node = event.action === 'pick' ? event.from : event.to;
      return {
        kind: 'feeder' as const,
        from: position,
        to: at[(i + 1) % at.length]!,
        weightS: event.robotS + plan.nodes[node]!.processS,
        periods: i + 1 === at.length ? 1 : 0,
        robotS: 0,
        travelS: 0,
        node,
      };
    });
  });
}
