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
import { likelyStates } from './likely-states.js';
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
  const best = quickest(
    plan,
    order,
    () => {},
    ({ circleS }) => circleS,
  );
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

interface Quickest {
  readonly periodS: number;
  readonly criticalCircuit: readonly number[];
  readonly graph: OrderGraph;
  readonly counts: OrderCounts;
  readonly state: StartState;
}

/** Of all start states the one with the least period; what keeps another from repeating is told. */
function quickest(
  plan: Plan,
  order: readonly number[],
  tellFault: (graph: OrderGraph, contradiction: readonly (readonly number[])[], counts: OrderCounts) => void,
  fromS: (counts: OrderCounts) => number = () => 0,
): Quickest | null {
  const counts = countOrder(plan, order);
  if (counts === null) return null;
  let best: Quickest | null = null;
  for (const state of likelyStates(plan, order, counts)) {
    const graph = orderGraph(plan, order, counts, state);
    const found = leastOfGraph(graph, fromS(counts));
    if (!found.feasible) tellFault(graph, found.contradiction, counts);
    else if (best === null || found.periodS < best.periodS - 1e-9) {
      const { periodS, criticalCircuit } = found;
      best = { periodS, criticalCircuit, graph, counts, state };
    }
  }
  return best;
}

/** The shorter of two contradictions says more. */
function tellsMore(fault: ImpossibleOrder, than: ImpossibleOrder): boolean {
  return than.arcs.length === 0 || fault.contradiction.flat().length < than.contradiction.flat().length;
}

/** Earliest start of each event when the first starts at 0. */
function earliestFromFirst(graph: OrderGraph, periodS: number): number[] {
  const { nodes, arcs, from, to, weightS, periods } = graph;
  const startS = new Float64Array(nodes).fill(Number.NEGATIVE_INFINITY);
  startS[0] = 0;
  for (let sweep = 0; sweep < nodes; sweep++) {
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
