/**
 * The search of one part set. Independent machines: by the gaps between moves (one hand only; it proves most sets at
 * once, but not those that keep the robot busy all the time), else by exchanges alone (empty and fill a machine in one
 * go), which finds good orders quickly. Other cells: among all orders.
 */

import type { TimedOrder } from '../evaluate/evaluate-order.js';
import type { Plan } from '../plan/plan.js';
import type { PartSet } from './choose-counts.js';
import { searchGaps } from './gaps/search-gaps.js';
import { PERIOD_TOLERANCE_S } from './order/order-prefix.js';
import { type SearchLimits, type SearchOutcome, searchOrder } from './order/search-order.js';
import { exchangeUnits } from './order/units.js';

/** An order of a part set, and what is known of the set's other orders. */
export interface SetBest {
  readonly set: PartSet;
  readonly order: TimedOrder;
  /** No order of the set has a shorter period. */
  readonly boundS: number;
  /** No order of the set is better. */
  readonly proven: boolean;
  /** The best among all orders that empty and fill a machine in one go. */
  readonly bestExchange: boolean;
}

/** What one search of a set found. */
export interface SetRun {
  /** Better than the limit asked for; null where there is none, or none was found. */
  readonly best: SetBest | null;
  readonly nodes: number;
  /** No order of the set has a shorter period, those slower than the limit left aside. */
  readonly boundS: number;
  /** All its orders were searched or cut. */
  readonly complete: boolean;
}

/** A node of the gaps takes about as long as so many others of the same set, up to so many moves; beyond, the more so the more moves. */
const GAP_NODE_WORTH = 16;
const GAP_MOVES = 60;
/** Share of a set's nodes that goes into the gaps first. */
const GAP_SHARE = 0.4;
/** Nodes for gaps, and for the first search move by move, before all orders are searched to the limit. */
const FIRST_GAP_NODES = 200;
const FIRST_NODES = 100_000;
const GAP_PROOF_NODES = 4000;

export function ratePerS(best: SetBest | null): number {
  return best === null ? 0 : best.set.value / best.order.periodS;
}

/** What is made comes to the most that a bound allows, but for the bound's rounding (linear programs, times in ticks). */
export function reaches(perS: number, mostPerS: number): boolean {
  return perS >= mostPerS * (1 - 1e-7);
}

/** The most that any order of the set can yield, per second. */
export function mostPerS(best: SetBest): number {
  return best.set.value / best.boundS;
}

/** A quick search: finds good orders of many part sets in turn. */
export function searchQuickly(set: PartSet, limits: SearchLimits): SetRun {
  if (exchangeUnits(set.plan) === null) return runOf(set, limits, searchAll(set.plan, limits));
  const gaps = gapsWithin(set.plan, limits, Math.ceil((GAP_SHARE * limits.nodes) / gapNodeWorth(set.plan)));
  if (gaps.complete) return runOf(set, limits, gaps);
  const belowS = gaps.best?.periodS ?? limits.belowS;
  const run = searchOrder(
    set.plan,
    { ...limits, belowS, nodes: Math.max(1, limits.nodes - gaps.nodes) },
    true,
  );
  const order = run.best ?? gaps.best;
  const boundS = Math.max(set.boundS, gaps.boundS);
  const proven = order !== null && order.periodS <= boundS + PERIOD_TOLERANCE_S;
  return {
    best: order && { set, order, boundS, proven, bestExchange: run.complete && run.best !== null },
    nodes: gaps.nodes + run.nodes,
    boundS,
    complete: proven,
  };
}

/** Among all orders of the set, from what is known of it. */
export function searchFully(set: PartSet, known: SetBest | null, limits: SearchLimits): SetRun {
  const belowS = Math.min(known?.order.periodS ?? Number.POSITIVE_INFINITY, limits.belowS);
  const run = searchAll(set.plan, { ...limits, belowS });
  const order = run.best ?? known?.order ?? null;
  const boundS = Math.max(known?.boundS ?? set.boundS, Math.min(run.boundS, order?.periodS ?? run.boundS));
  const proven = order !== null && run.complete && order.periodS <= belowS + PERIOD_TOLERANCE_S;
  return {
    best: order && {
      set,
      order,
      boundS: proven ? order.periodS : Math.min(boundS, order.periodS),
      proven,
      bestExchange: order === known?.order && known.bestExchange,
    },
    nodes: run.nodes,
    boundS: run.complete ? Math.max(boundS, belowS) : boundS,
    complete: run.complete,
  };
}

function runOf(set: PartSet, limits: SearchLimits, run: SearchOutcome): SetRun {
  const boundS = Math.max(set.boundS, Math.min(run.boundS, run.best?.periodS ?? limits.belowS));
  return {
    best: run.best && {
      set,
      order: run.best,
      boundS: run.complete ? run.best.periodS : boundS,
      proven: run.complete,
      bestExchange: false,
    },
    nodes: run.nodes,
    boundS,
    complete: run.complete,
  };
}

/** The search by gaps, its nodes told in those of the other searches; nothing found where the plan is not for it, or for too few nodes. */
function gapsWithin(plan: Plan, limits: SearchLimits, most: number): SearchOutcome {
  const worth = gapNodeWorth(plan);
  const nodes = Math.min(most, Math.ceil(limits.nodes / worth));
  const run = limits.nodes < worth ? null : searchGaps(plan, { ...limits, nodes });
  if (run === null) return { best: null, boundS: 0, complete: false, nodes: 0 };
  return { ...run, nodes: run.nodes * worth };
}

function gapNodeWorth(plan: Plan): number {
  return GAP_NODE_WORTH * Math.max(1, movesIn(plan) / GAP_MOVES);
}

/** Moves of the robot in a period. */
export function movesIn({ carries }: Plan): number {
  return carries.reduce((sum, carry) => sum + carry.count, 0);
}

/**
 * All orders of a plan: by gaps for a start, which settles lines that wait for a machine; then move by move; where that
 * takes long, by gaps once more with the best order so far, and move by move to the end.
 */
function searchAll(plan: Plan, limits: SearchLimits): SearchOutcome {
  const steps: readonly ((rest: SearchLimits) => SearchOutcome)[] = [
    (rest) => gapsWithin(plan, rest, FIRST_GAP_NODES),
    (rest) => searchOrder(plan, { ...rest, nodes: Math.min(rest.nodes, FIRST_NODES) }),
    (rest) => gapsWithin(plan, rest, GAP_PROOF_NODES),
    (rest) => searchOrder(plan, rest),
  ];
  let sofar: SearchOutcome = { best: null, boundS: 0, complete: false, nodes: 0 };
  for (const step of steps) {
    if (sofar.nodes > 0 && sofar.nodes >= limits.nodes) break;
    const belowS = sofar.best?.periodS ?? limits.belowS;
    const run = step({ ...limits, belowS, nodes: limits.nodes - sofar.nodes });
    sofar = {
      best: run.best ?? sofar.best,
      boundS: Math.max(sofar.boundS, Math.min(run.boundS, run.best?.periodS ?? belowS)),
      complete: run.complete,
      nodes: sofar.nodes + run.nodes,
    };
    if (run.complete) break;
  }
  return sofar;
}
