/**
 * The constraint graph of a repeating order of events: the robot's own circle, every process from its place to its pick,
 * longest waits back, and the pauses of infeeds and outfeeds. Where the order leaves open how many parts lie in a
 * station when the period starts, there is one graph for every possibility. On flat lists: a search works out thousands.
 *
 * A mill that is empty at the start; [1] is an arc over the end of the period. With one part inside at the start the
 * pick takes that one, so the two arcs of the mill go over the end as well: the robot need not wait beside it.
 *
 *      pick in ==> place mill ======> pick mill ==> place out       == robot: its work and its way
 *      ^  ^  |         | +---process---> |               |          -- processS after the place
 *      |  +-[1] pause  +<--longest wait--+               |          and at most maxWaitS more
 *      +====================== [1] =====================+
 */

import { isPacedRack, type Plan, type PlanEvent, type PlanNode } from '../plan/plan.js';
import { eachFifoLink } from './fifo-links.js';
import type { ArcGraph } from './least-period.js';

/** Why an arc is there, so that a critical circuit can be told in words. */
export const ARC_KINDS = ['robot', 'process', 'longest wait', 'feeder'] as const;
const ROBOT = 0;
const PROCESS = 1;
const LONGEST_WAIT = 2;
const FEEDER = 3;

export interface OrderGraph extends ArcGraph {
  /** By arc: place in `ARC_KINDS`. */
  readonly kind: Uint8Array;
  /** By arc, processes, longest waits and pauses: the place in the plan; else -1. */
  readonly node: Int32Array;
}

/** State at the period start: parts inside by node, and parts of an unfinished batch. */
export interface StartState {
  readonly inside: readonly number[];
  readonly loaded: readonly number[];
}

/** What is counted of an order before its times. */
export interface OrderCounts {
  /** Parts in hand after each event. */
  readonly inHand: readonly number[];
  /** All that the robot does in one period, one after another. */
  readonly circleS: number;
  /** By node: positions in the order of its places and of its picks. */
  readonly places: readonly (readonly number[])[];
  readonly picks: readonly (readonly number[])[];
  /** Every start state that keeps all rooms within their capacity. */
  readonly states: readonly StartState[];
}

/** @returns null where no room to start from is enough */
export function countOrder(plan: Plan, order: readonly number[]): OrderCounts | null {
  const levels = countLevels(plan, order);
  const inHand = handCounts(plan, order, levels);
  const circleS = order.reduce((sum, _, position) => sum + untilNextS(plan, order, inHand, position), 0);
  const states = startStates(plan, levels, circleS);
  return states === null ? null : { inHand, circleS, ...nodePositions(plan, order), states };
}

export function orderGraph(
  plan: Plan,
  order: readonly number[],
  counts: OrderCounts,
  state: StartState,
): OrderGraph {
  const most = plan.nodes.reduce((sum, node) => sum + 2 * node.visits, 2 * order.length);
  const arcs = new ArcLists(most);
  addRobot(arcs, plan, order, counts.inHand);
  addProcesses(arcs, plan, order, counts, state);
  addPauses(arcs, plan, order, counts);
  return arcs.graph(order.length);
}

class ArcLists {
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  private readonly weightS: Float64Array;
  private readonly periods: Int32Array;
  private readonly kind: Uint8Array;
  private readonly node: Int32Array;
  private count = 0;

  constructor(most: number) {
    this.from = new Int32Array(most);
    this.to = new Int32Array(most);
    this.weightS = new Float64Array(most);
    this.periods = new Int32Array(most);
    this.kind = new Uint8Array(most);
    this.node = new Int32Array(most);
  }

  add(kind: number, from: number, to: number, weightS: number, periods: number, node: number): void {
    const a = this.count++;
    this.from[a] = from;
    this.to[a] = to;
    this.weightS[a] = weightS;
    this.periods[a] = periods;
    this.kind[a] = kind;
    this.node[a] = node;
  }

  graph(nodes: number): OrderGraph {
    const { from, to, weightS, periods, kind, node, count } = this;
    return { nodes, arcs: count, from, to, weightS, periods, kind, node };
  }
}

function addRobot(arcs: ArcLists, plan: Plan, order: readonly number[], inHand: readonly number[]): void {
  for (let position = 0; position < order.length; position++) {
    const next = (position + 1) % order.length;
    arcs.add(ROBOT, position, next, untilNextS(plan, order, inHand, position), next === 0 ? 1 : 0, -1);
  }
}

/** From the start of an event to the soonest start of the next. */
function untilNextS(
  plan: Plan,
  order: readonly number[],
  inHand: readonly number[],
  position: number,
): number {
  const event = plan.events[order[position]!]!;
  const next = plan.events[order[(position + 1) % order.length]!]!;
  return event.robotS + robotWay(plan, event, next, inHand[position]!);
}

/** Robot time from the end of one event to the start of the next: travel, or the index time at one station. */
export function robotWay(plan: Plan, from: PlanEvent, to: PlanEvent, inHand: number): number {
  if (from.station === to.station) return plan.hands === 2 ? plan.indexS : 0;
  const pair = from.station * plan.stations.length + to.station;
  return inHand > 0 ? plan.loadedS[pair]! : plan.emptyS[pair]!;
}

function addProcesses(
  arcs: ArcLists,
  plan: Plan,
  order: readonly number[],
  { places, picks }: OrderCounts,
  state: StartState,
): void {
  for (const [n, node] of plan.nodes.entries()) {
    if (node.kind !== 'inside') continue;
    // The robot's own circle keeps the other places of a batch before its last one.
    eachFifoLink(node.visits, state.inside[n]!, node.batch, state.loaded[n]!, 'last', (place, pick, lag) => {
      const from = places[n]![place]!;
      const to = picks[n]![pick]!;
      const weightS = plan.events[order[from]!]!.robotS + node.processS;
      arcs.add(PROCESS, from, to, weightS, lag, n);
      if (node.maxWaitS !== null) arcs.add(LONGEST_WAIT, to, from, -(weightS + node.maxWaitS), -lag, n);
    });
  }
}

/**
 * An infeed that needs time to present the next part, an outfeed that needs time to clear: it serves all parts one after
 * another, those after which it needs no time as well.
 */
function addPauses(
  arcs: ArcLists,
  plan: Plan,
  order: readonly number[],
  { places, picks }: OrderCounts,
): void {
  const served = new Map<string, number[]>();
  const paced = new Set(plan.nodes.filter(isPacedRack).map(({ station }) => station));
  for (const [index, node] of plan.nodes.entries()) {
    if (!paced.has(node.station) || (node.kind !== 'source' && node.kind !== 'sink')) continue;
    const at = node.kind === 'source' ? picks[index]! : places[index]!;
    served.set(node.station, [...(served.get(node.station) ?? []), ...at]);
  }
  for (const list of served.values()) {
    const at = list.sort((a, b) => a - b);
    for (const [i, position] of at.entries()) {
      const event = plan.events[order[position]!]!;
      const node = event.action === 'pick' ? event.from : event.to;
      const isLast = i + 1 === at.length;
      const weightS = event.robotS + plan.nodes[node]!.processS;
      arcs.add(FEEDER, position, at[isLast ? 0 : i + 1]!, weightS, isLast ? 1 : 0, node);
    }
  }
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

/**
 * Every start state that keeps all rooms within their capacity; null where there is none.
 * @param leastS what the period is at least
 */
function startStates(plan: Plan, levels: Levels, leastS: number): StartState[] | null {
  let states: StartState[] = [{ inside: levels.lowest.map((low) => -low), loaded: plan.nodes.map(() => 0) }];
  for (const [r, room] of plan.rooms.entries()) {
    const nodes = plan.nodes.flatMap((node, index) => (node.room === r ? [index] : []));
    const needed = nodes.reduce((sum, index) => sum - levels.lowest[index]!, 0);
    const spare = room.capacity - levels.highest[r]! - needed;
    if (spare < 0) return null;
    if (room.hands) continue;
    const stayS = nodes.reduce((sum, n) => sum + plan.nodes[n]!.visits * plan.nodes[n]!.processS, 0);
    states = withSpare(plan, states, nodes, spare, Math.max(leastS, stayS / room.capacity));
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
  leastS: number,
): StartState[] {
  const useful = nodes.filter((index) => isTimed(plan, index));
  if (spare === 0 || useful.length === 0) return [...states];
  const windows = useful.some((index) => plan.nodes[index]!.maxWaitS !== null);
  const spreads = spreadsOf(
    spare,
    useful.map((index) => mostMore(plan.nodes[index]!, leastS)),
    !windows,
  );
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

/** A period that is shorter than this share of a process is not looked for: a robot that needs no time at all has no least one. */
const LEAST_SHARE = 0.01;

/**
 * How many more parts than needed inside can matter. With none more each pick takes a part that was placed before it; each
 * time as many as pass in a period let it stay for one period longer. With these the process has ended and the longest wait
 * is over.
 */
function mostMore({ visits, processS, maxWaitS, batch }: PlanNode, leastS: number): number {
  const stayS = processS + (maxWaitS ?? 0);
  const periods = stayS === 0 ? 0 : Math.ceil(stayS / Math.max(leastS, stayS * LEAST_SHARE));
  return visits * periods + batch - 1;
}

/** All ways to put up to `total` units (or as many as there is room for, when `full`) into cells with room for so many each. */
function spreadsOf(total: number, room: readonly number[], full: boolean): number[][] {
  const [most, ...others] = room;
  if (most === undefined) return [[]];
  const later = others.reduce((sum, cell) => sum + cell, 0);
  const least = full ? Math.min(most, Math.max(0, total - later)) : 0;
  const upTo = Math.min(most, total);
  return Array.from({ length: upTo - least + 1 }, (_, k) =>
    spreadsOf(total - least - k, others, full).map((rest) => [least + k, ...rest]),
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

function nodePositions(plan: Plan, order: readonly number[]): Pick<OrderCounts, 'places' | 'picks'> {
  const places: number[][] = plan.nodes.map(() => []);
  const picks: number[][] = plan.nodes.map(() => []);
  for (const [position, kind] of order.entries()) {
    picks[plan.events[kind]!.from]!.push(position);
    places[plan.events[kind]!.to]!.push(position);
  }
  return { places, picks };
}
