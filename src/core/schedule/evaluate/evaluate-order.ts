/**
 * What a given repeating order of events yields: its least period, the times, and which pick waits for which place.
 * Where the order leaves open how many parts lie in a station when the period starts, every possibility is tried.
 *
 * A mill with room for two that works for 5 s, in an order of 7 s of robot work:
 *
 *      none inside   place --5 s--> pick     out          the robot waits beside it: 11 s
 *      one inside    place pick     out   |  place pick   picked is the part of the period before: 7 s, as
 *                      \______5 s________|________/       its process goes on over the end of the period
 */

import type { Plan } from '../plan/plan.js';
import { eachFifoLink } from './fifo-links.js';
import { leastOfGraph, longestPeriod, type PeriodArc } from './least-period.js';
import {
  ARC_KINDS,
  countOrder,
  type OrderCounts,
  type OrderGraph,
  orderGraph,
  robotWay,
  type StartState,
} from './order-graph.js';

export interface OrderArc extends PeriodArc {
  readonly kind: (typeof ARC_KINDS)[number];
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

/** An order with its least period: all that a search keeps of it. */
export interface TimedOrder {
  readonly order: readonly number[];
  readonly periodS: number;
}

export interface EvaluatedOrder extends TimedOrder {
  readonly feasible: true;
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
 * @returns the least period alone; null where the order cannot repeat
 */
export function timeOrder(plan: Plan, order: readonly number[]): TimedOrder | null {
  // The robot's own circle is a bound; which circuit sets the period is of no interest here.
  const best = quickest(plan, order, () => {}, robotCircleS);
  return best === null ? null : { order, periodS: best.periodS };
}

/** @returns the least period and times, or why the order cannot repeat */
export function evaluateOrder(plan: Plan, order: readonly number[]): EvaluatedOrder | ImpossibleOrder {
  let worst: ImpossibleOrder = { feasible: false, reason: 'capacity', arcs: [], contradiction: [] };
  const best = quickest(plan, order, (graph, contradiction, counts) => {
    const arcs = orderArcs(plan, order, counts, graph);
    const fault: ImpossibleOrder = { feasible: false, reason: 'waits', arcs, contradiction };
    if (tellsMore(fault, worst)) worst = fault;
  });
  if (best === null) return worst;
  const { periodS, graph, counts, state, criticalCircuit } = best;
  return {
    feasible: true,
    order,
    periodS,
    longestPeriodS: longestPeriod(graph, periodS),
    startS: earliestFromFirst(graph, periodS),
    arcs: orderArcs(plan, order, counts, graph),
    criticalCircuit,
    links: orderLinks(plan, counts, state),
    inHand: counts.inHand,
  };
}

/** All of an order that a search has found, of the plan for which it was found. */
export function foundOrder(plan: Plan, { order }: TimedOrder): EvaluatedOrder {
  const whole = evaluateOrder(plan, order);
  if (!whole.feasible) throw new Error('an order that was timed cannot repeat');
  return whole;
}

/** All that the robot does in one period, one after another. */
function robotCircleS({ nodes, weightS }: OrderGraph): number {
  let sum = 0;
  for (let position = 0; position < nodes; position++) sum += weightS[position]!;
  return sum;
}

interface Quickest {
  readonly periodS: number;
  readonly criticalCircuit: readonly number[];
  readonly graph: OrderGraph;
  readonly counts: OrderCounts;
  readonly state: StartState;
}

/**
 * The start states in which no batch is picked before its last part is placed, and of those that are one another some cycles
 * of a repeated stretch later a single one: with a large batch nearly all the others. All of them where no state is so, for
 * the reason to be told.
 */
function likelyStates(
  plan: Plan,
  order: readonly number[],
  { states, places, picks }: OrderCounts,
): readonly StartState[] {
  const batches = [...plan.nodes.entries()].filter(([, node]) => node.kind === 'inside' && node.batch > 1);
  const [first] = batches;
  if (first === undefined) return states;
  const step = first[1].visits / repeats(order);
  const likely = states.filter(({ inside, loaded }) => {
    const isEvery = batches.every(
      ([n, { batch, visits }]) => visits % batch === 0 && inside[n]! >= batch - 1,
    );
    if (isEvery && loaded[first[0]]! >= step) return false;
    return batches.every(([n, { visits, batch }]) => {
      let isLikely = true;
      eachFifoLink(visits, inside[n]!, batch, loaded[n]!, 'last', (place, pick, lag) => {
        if (lag < 0 || (lag === 0 && places[n]![place]! > picks[n]![pick]!)) isLikely = false;
      });
      return isLikely;
    });
  });
  return likely.length > 0 ? likely : states;
}

/** How often an order does the same all over again. @example repeats([0, 1, 0, 1, 0, 1]) // 3 */
function repeats(order: readonly number[]): number {
  // The longest stretch at the beginning that is at the end as well (Knuth, Morris and Pratt, SIAM J. Computing 6, 1977).
  const same = [0];
  for (let i = 1; i < order.length; i++) {
    let k = same[i - 1]!;
    while (k > 0 && order[i] !== order[k]) k = same[k - 1]!;
    same.push(order[i] === order[k] ? k + 1 : 0);
  }
  const stretch = order.length - same.at(-1)!;
  return order.length % stretch === 0 ? order.length / stretch : 1;
}

/** Of all start states the one with the least period; what keeps another from repeating is told. */
function quickest(
  plan: Plan,
  order: readonly number[],
  tellFault: (graph: OrderGraph, contradiction: readonly (readonly number[])[], counts: OrderCounts) => void,
  fromS: (graph: OrderGraph) => number = () => 0,
): Quickest | null {
  const counts = countOrder(plan, order);
  if (counts === null) return null;
  let best: Quickest | null = null;
  for (const state of likelyStates(plan, order, counts)) {
    const graph = orderGraph(plan, order, counts, state);
    const found = leastOfGraph(graph, fromS(graph));
    if (!found.feasible) tellFault(graph, found.contradiction, counts);
    else if (best === null || found.periodS < best.periodS - 1e-9) {
      const { periodS, criticalCircuit } = found;
      best = { periodS, criticalCircuit, graph, counts, state };
    }
  }
  return best;
}

/** A contradiction that names a longest wait says more than one of a start state that cannot be; then the shorter one. */
function tellsMore(fault: ImpossibleOrder, than: ImpossibleOrder): boolean {
  if (than.arcs.length === 0) return true;
  const waits = (order: ImpossibleOrder): boolean =>
    order.contradiction.flat().some((a) => order.arcs[a]!.kind === 'longest wait');
  if (waits(fault) !== waits(than)) return waits(fault);
  return fault.contradiction.flat().length < than.contradiction.flat().length;
}

/** Earliest start of each event when the first starts at 0. */
function earliestFromFirst(graph: OrderGraph, periodS: number): number[] {
  const { nodes, arcs, from, to, weightS, periods } = graph;
  const startS = new Float64Array(nodes).fill(Number.NEGATIVE_INFINITY);
  startS[0] = 0;
  for (let sweep = 0; sweep <= nodes + 1; sweep++) {
    let changed = false;
    for (let a = 0; a < arcs; a++) {
      const end = to[a]!;
      if (end === 0) continue;
      const reach = startS[from[a]!]! + weightS[a]! - periods[a]! * periodS;
      if (reach > startS[end]! + 1e-9) {
        startS[end] = reach;
        changed = true;
      }
    }
    if (!changed) break;
  }
  return [...startS];
}

function orderArcs(
  plan: Plan,
  order: readonly number[],
  { inHand }: OrderCounts,
  graph: OrderGraph,
): OrderArc[] {
  return Array.from({ length: graph.arcs }, (_, a) => {
    const kind = ARC_KINDS[graph.kind[a]!]!;
    const [from, to] = [graph.from[a]!, graph.to[a]!];
    const event = plan.events[order[from]!]!;
    const isRobot = kind === 'robot';
    return {
      kind,
      from,
      to,
      weightS: graph.weightS[a]!,
      periods: graph.periods[a]!,
      robotS: isRobot ? event.robotS : 0,
      travelS: isRobot ? robotWay(plan, event, plan.events[order[to]!]!, inHand[from]!) : 0,
      node: graph.node[a]!,
    };
  });
}

function orderLinks(plan: Plan, { places, picks }: OrderCounts, state: StartState): OrderLink[] {
  return plan.nodes.flatMap(({ kind, visits, batch }, node) => {
    if (kind !== 'inside' && kind !== 'hand') return [];
    const links: OrderLink[] = [];
    eachFifoLink(
      visits,
      state.inside[node]!,
      batch,
      state.loaded[node]!,
      'all',
      (place, pick, lag, lastOfBatch) => {
        links.push({ pick: picks[node]![pick]!, place: places[node]![place]!, lag, node, lastOfBatch });
      },
    );
    return links;
  });
}
