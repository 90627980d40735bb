/**
 * The search over part sets: independent machines first by exchanges alone (empty and fill a machine in one go), which
 * finds good orders of many part sets quickly; then the chosen set among all its orders, for a better one or a proof.
 * Other cells search every promising set among all orders, the most promising first.
 */
import type { PartSet } from './choose-counts.js';
import type { EvaluatedOrder } from './evaluate-order.js';
import { PERIOD_TOLERANCE_S } from './order-prefix.js';
import { searchOrder } from './search-order.js';
import { exchangeUnits } from './units.js';

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

/** Nodes for the exchanges of one part set, and for the proof of the chosen one. */
const EXCHANGE_NODES = 12_000;
const PROOF_NODES = 120_000;
/** Rates closer than this are alike: then the proven set, and of those the one with fewest visits, is taken. */
const ALIKE = 0.003;

/** @param valueBound value per second that no policy exceeds, where known */
export function searchSets(
  valueBound: number | null,
  sets: readonly PartSet[],
  budget: SearchBudget,
): SearchRun {
  const allExchange = sets.every((set) => exchangeUnits(set.plan) !== null);
  return allExchange ? byExchanges(valueBound, sets, budget) : byAllOrders(valueBound, sets, budget);
}

function rateOf(best: SetBest | null): number {
  return best === null ? 0 : best.set.value / best.order.periodS;
}

function byExchanges(valueBound: number | null, sets: readonly PartSet[], budget: SearchBudget): SearchRun {
  const found: SetBest[] = [];
  let nodes = 0;
  let complete = true;
  for (const set of sets) {
    const most = found.reduce((rate, best) => Math.max(rate, rateOf(best)), 0);
    if (valueBound !== null && most >= valueBound * (1 - 1e-9)) break;
    if (set.value / set.boundS <= most) continue;
    if (nodes >= budget.nodes || Date.now() > budget.untilMs) {
      complete = false;
      break;
    }
    // A slower order that is proven may still be taken, so the limit leaves room for the like.
    const belowS = most > 0 ? set.value / (most * (1 - ALIKE)) : Number.POSITIVE_INFINITY;
    const limits = { belowS, nodes: Math.min(EXCHANGE_NODES, budget.nodes - nodes), untilMs: budget.untilMs };
    const run = searchOrder(set.plan, limits, true);
    nodes += run.nodes;
    if (run.best === null) continue;
    const proven = run.best.periodS <= set.boundS + PERIOD_TOLERANCE_S;
    found.push({ set, order: run.best, boundS: set.boundS, proven, bestExchange: run.complete });
  }
  const chosen = chooseAlike(found);
  if (chosen === null) {
    const rest = byAllOrders(valueBound, sets, { ...budget, nodes: Math.max(1, budget.nodes - nodes) });
    return { ...rest, nodes: rest.nodes + nodes };
  }
  const sure = prove(chosen, { ...budget, nodes: Math.min(PROOF_NODES, budget.nodes - nodes) });
  return { best: sure.best, nodes: nodes + sure.nodes, complete: complete && sure.complete };
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
  const run = searchOrder(chosen.set.plan, { belowS: chosen.order.periodS, ...budget });
  const order = run.best ?? chosen.order;
  const boundS = run.complete ? order.periodS : Math.max(chosen.boundS, Math.min(run.boundS, order.periodS));
  return {
    best: {
      set: chosen.set,
      order,
      boundS,
      proven: run.complete,
      bestExchange: run.best === null && chosen.bestExchange,
    },
    nodes: run.nodes,
    complete: run.complete,
  };
}

function byAllOrders(valueBound: number | null, sets: readonly PartSet[], budget: SearchBudget): SearchRun {
  let nodes = 0;
  let best: SetBest | null = null;
  let complete = true;
  for (const set of sets) {
    const most = rateOf(best);
    if (valueBound !== null && most >= valueBound * (1 - 1e-9)) break;
    const belowS = most > 0 ? set.value / most : Number.POSITIVE_INFINITY;
    if (set.boundS >= belowS - 1e-9) continue;
    if (nodes >= budget.nodes || Date.now() > budget.untilMs) {
      complete = false;
      break;
    }
    const run = searchOrder(set.plan, { belowS, nodes: budget.nodes - nodes, untilMs: budget.untilMs });
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
