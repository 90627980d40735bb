/**
 * The search over part sets, the most promising first. Independent machines: a short search of each set by the gaps
 * between moves (one hand only; it proves most sets at once, but not those that keep the robot busy all the time),
 * else by exchanges alone (empty and fill a machine in one go), which finds good orders of many part sets quickly;
 * then the chosen set among all its orders, for a better one or a proof. Other cells search every promising set among
 * all orders.
 */
import type { LikelySet, PartSet } from './choose-counts.js';
import type { EvaluatedOrder } from './evaluate-order.js';
import { PERIOD_TOLERANCE_S } from './order-prefix.js';
import type { Plan } from './plan.js';
import { searchGaps } from './search-gaps.js';
import { type SearchLimits, type SearchOutcome, searchOrder } from './search-order.js';

export interface SetBest {
  readonly set: PartSet;
  readonly order: EvaluatedOrder;
  readonly boundS: number;
  readonly proven: boolean;
  /** The best among all orders that empty and fill a machine in one go. */
  readonly bestExchange: boolean;
}

export interface SearchRun {
  readonly best: SetBest | null;
  readonly nodes: number;
  /** Every set was searched to the end or cut by its bound. */
  readonly complete: boolean;
}

export interface SearchBudget {
  readonly nodes: number;
  readonly untilMs: number;
}

/** Nodes for the gaps of one part set: half as many after each set that comes to the limit, up to twice after others. */
const GAP_NODES = 300;
/** Nodes for the gaps of the chosen set. */
const GAP_PROOF_NODES = 4000;
/** All orders of other cells: nodes for gaps at the start, and for the first search move by move. */
const FIRST_GAP_NODES = 200;
const FIRST_NODES = 100_000;
/** A node of the gaps takes about as long as so many of the others. */
const GAP_NODE_WORTH = 16;
/** Nodes for the exchanges of one part set, and for the proof of the chosen one. */
const EXCHANGE_NODES = 12_000;
const PROOF_NODES = 120_000;
/** Rates closer than this are alike: then the proven set, and of those the one with fewest visits, is taken. */
const ALIKE = 0.003;

/**
 * @param valueBound value per second that no policy exceeds, where known
 * @param likely the part sets by falling `mostPerS`
 * @param exchanges every set is one of independent machines, which can be searched by exchanges
 * @param known orders to start from
 */
export function searchSets(
  valueBound: number | null,
  likely: readonly LikelySet[],
  exchanges: boolean,
  budget: SearchBudget,
  known: readonly SetBest[] = [],
): SearchRun {
  return exchanges
    ? byMachines(valueBound, likely, budget, known)
    : byAllOrders(valueBound, likely, budget, known);
}

/** The best of some known orders, where it yields what no policy exceeds; else null. */
export function surelyBest(known: readonly SetBest[], valueBound: number | null): SearchRun | null {
  const best = bestOf(known);
  if (best === null || valueBound === null || rateOf(best) < valueBound * (1 - 1e-9)) return null;
  const boundS = Math.min(best.order.periodS, best.set.value / valueBound);
  return { best: { ...best, boundS, proven: true }, nodes: 0, complete: true };
}

function bestOf(list: readonly SetBest[]): SetBest | null {
  return list.reduce<SetBest | null>(
    (best, one) => (best === null || rateOf(one) > rateOf(best) * (1 + 1e-12) ? one : best),
    null,
  );
}

/**
 * One set that is likely best, by exchanges alone.
 *
 * @returns the run where the order found yields what no policy exceeds, so that no other set need be looked at; else null
 */
export function searchLikely(valueBound: number, set: PartSet, budget: SearchBudget): SearchRun | null {
  const nodes = Math.min(EXCHANGE_NODES, budget.nodes);
  const belowS = (set.value / valueBound) * (1 + 1e-9) + 2 * PERIOD_TOLERANCE_S;
  const run = searchOrder(set.plan, { belowS, nodes, untilMs: budget.untilMs }, true);
  if (run.best === null) return null;
  const found = { set, order: run.best, boundS: set.boundS, proven: false, bestExchange: false };
  const sure = surelyBest([found], valueBound);
  return sure === null ? null : { ...sure, nodes: run.nodes };
}

function rateOf(best: SetBest | null): number {
  return best === null ? 0 : best.set.value / best.order.periodS;
}

function byMachines(
  valueBound: number | null,
  likely: readonly LikelySet[],
  budget: SearchBudget,
  known: readonly SetBest[],
): SearchRun {
  const found: SetBest[] = [...known];
  /** Sets of which not all orders were searched. */
  const bySome: { readonly set: PartSet; readonly mostPerS: number }[] = [];
  const ruledOut = (best: SetBest): boolean =>
    bySome.every(({ set, mostPerS }) => set === best.set || mostPerS <= rateOf(best) * (1 + 1e-9));
  let nodes = 0;
  let complete = true;
  let gapNodes = GAP_NODES;
  for (const { mostPerS, set: build } of likely) {
    const most = found.reduce((rate, best) => Math.max(rate, rateOf(best)), 0);
    if (mostPerS <= most * (1 + 1e-9) || (valueBound !== null && most >= valueBound * (1 - 1e-9))) break;
    const set = build();
    if (set.value / set.boundS <= most) continue;
    if (nodes >= budget.nodes || Date.now() > budget.untilMs) {
      complete = false;
      break;
    }
    // A slower order that is proven may still be taken, so the limit leaves room for the like.
    const belowS = most > 0 ? set.value / (most * (1 - ALIKE)) : Number.POSITIVE_INFINITY;
    const limits = { belowS, nodes: budget.nodes - nodes, untilMs: budget.untilMs };
    const run = searchMachines(set, limits, gapNodes);
    nodes += run.nodes;
    if (!run.byGaps) bySome.push({ set, mostPerS: set.value / run.boundS });
    gapNodes = Math.min(GAP_NODES, run.byGaps ? gapNodes * 2 : Math.ceil(gapNodes / 2));
    if (run.best !== null) found.push(run.best);
  }
  const chosen = chooseAlike(found);
  if (chosen === null) {
    const rest = byAllOrders(
      valueBound,
      likely,
      { ...budget, nodes: Math.max(1, budget.nodes - nodes) },
      known,
    );
    return { ...rest, nodes: rest.nodes + nodes };
  }
  const sure = prove(chosen, { ...budget, nodes: budget.nodes - nodes });
  nodes += sure.nodes;
  const rival = hiddenRival(found, sure.best);
  if (rival === null)
    return { best: sure.best, nodes, complete: complete && sure.complete && ruledOut(sure.best) };
  const other = prove(rival, { ...budget, nodes: budget.nodes - nodes });
  const best = rateOf(other.best) > rateOf(sure.best) * (1 + 1e-9) ? other.best : sure.best;
  const all = complete && sure.complete && other.complete;
  return { best, nodes: nodes + other.nodes, complete: all && ruledOut(best) };
}

/** Of the orders as good as the best that are not proven, the one whose set may hide the most. */
function hiddenRival(found: readonly SetBest[], best: SetBest): SetBest | null {
  const most = (one: SetBest): number => one.set.value / one.boundS;
  return found
    .filter((one) => !one.proven && one.set !== best.set)
    .filter((one) => rateOf(one) >= rateOf(best) * (1 - ALIKE) && most(one) > rateOf(best) * (1 + ALIKE))
    .reduce<SetBest | null>((top, one) => (top === null || most(one) > most(top) ? one : top), null);
}

interface MachineRun {
  readonly best: SetBest | null;
  readonly nodes: number;
  /** Searched to its end by gaps. */
  readonly byGaps: boolean;
  /** No order of the set has a shorter period. */
  readonly boundS: number;
}

/** One part set of independent machines: by gaps, and by exchanges where that comes to its limit. */
function searchMachines(set: PartSet, limits: SearchLimits, gapNodes: number): MachineRun {
  const gaps = gapsWithin(set.plan, limits, gapNodes);
  if (gaps.complete) {
    const best = gaps.best && provenBest(set, gaps.best);
    return { best, nodes: gaps.nodes, byGaps: true, boundS: best?.boundS ?? limits.belowS };
  }
  const belowS = gaps.best?.periodS ?? limits.belowS;
  const nodes = Math.max(1, Math.min(EXCHANGE_NODES, limits.nodes - gaps.nodes));
  const run = searchOrder(set.plan, { ...limits, belowS, nodes }, true);
  const order = run.best ?? gaps.best;
  const boundS = Math.max(set.boundS, gaps.boundS);
  const proven = order !== null && order.periodS <= boundS + PERIOD_TOLERANCE_S;
  const bestExchange = run.complete && run.best !== null;
  return {
    best: order && { set, order, boundS, proven, bestExchange },
    nodes: gaps.nodes + run.nodes,
    byGaps: false,
    boundS,
  };
}

/** The search by gaps, its nodes told in those of the other searches; nothing found where the plan is not for it. */
function gapsWithin(plan: Plan, limits: SearchLimits, most: number): SearchOutcome {
  const run = searchGaps(plan, {
    ...limits,
    nodes: Math.min(most, Math.ceil(limits.nodes / GAP_NODE_WORTH)),
  });
  if (run === null) return { best: null, boundS: 0, complete: false, nodes: 0 };
  return { ...run, nodes: run.nodes * GAP_NODE_WORTH };
}

function provenBest(set: PartSet, order: EvaluatedOrder): SetBest {
  return { set, order, boundS: order.periodS, proven: true, bestExchange: false };
}

function chooseAlike(found: readonly SetBest[]): SetBest | null {
  const most = found.reduce((rate, best) => Math.max(rate, rateOf(best)), 0);
  const alike = found.filter((best) => rateOf(best) >= most * (1 - ALIKE));
  return (
    [...alike].sort(
      (a, b) => Number(b.proven) - Number(a.proven) || a.set.visits - b.set.visits || rateOf(b) - rateOf(a),
    )[0] ?? null
  );
}

/** The chosen set among all its orders: a better one, or the proof that there is none. */
function prove(chosen: SetBest, budget: SearchBudget): { best: SetBest; nodes: number; complete: boolean } {
  if (chosen.proven || budget.nodes <= 0) return { best: chosen, nodes: 0, complete: chosen.proven };
  const { set } = chosen;
  const gaps = gapsWithin(set.plan, { ...budget, belowS: chosen.order.periodS }, GAP_PROOF_NODES);
  const known = gaps.best ?? chosen.order;
  if (gaps.complete) return { best: provenBest(set, known), nodes: gaps.nodes, complete: true };
  const nodes = Math.max(1, Math.min(PROOF_NODES, budget.nodes - gaps.nodes));
  const run = searchOrder(set.plan, { ...budget, belowS: known.periodS, nodes });
  const order = run.best ?? known;
  const boundS = Math.max(chosen.boundS, gaps.boundS, Math.min(run.boundS, order.periodS));
  return {
    best: {
      set,
      order,
      boundS: run.complete ? order.periodS : boundS,
      proven: run.complete,
      bestExchange: order === chosen.order && chosen.bestExchange,
    },
    nodes: gaps.nodes + run.nodes,
    complete: run.complete,
  };
}

function byAllOrders(
  valueBound: number | null,
  likely: readonly LikelySet[],
  budget: SearchBudget,
  known: readonly SetBest[],
): SearchRun {
  let nodes = 0;
  let best = bestOf(known);
  let complete = true;
  for (const { mostPerS, set: build } of likely) {
    const most = rateOf(best);
    if (mostPerS <= most * (1 + 1e-9) || (valueBound !== null && most >= valueBound * (1 - 1e-9))) break;
    const set = build();
    const belowS = most > 0 ? set.value / most : Number.POSITIVE_INFINITY;
    if (set.boundS >= belowS - 1e-9) continue;
    if (nodes >= budget.nodes || Date.now() > budget.untilMs) {
      complete = false;
      break;
    }
    const run = searchAll(set.plan, { belowS, nodes: budget.nodes - nodes, untilMs: budget.untilMs });
    nodes += run.nodes;
    if (!run.complete) complete = false;
    if (run.best !== null) {
      const boundS = Math.min(run.boundS, run.best.periodS);
      best = {
        set,
        order: run.best,
        boundS: Math.max(boundS, Math.min(set.boundS, run.best.periodS)),
        proven: run.complete,
        bestExchange: false,
      };
    }
  }
  return { best, nodes, complete };
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
