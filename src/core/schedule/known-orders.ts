/** Orders that are known from like cells, as starts of a search: what each yields on this cell. */
import type { Cell } from '../model/cell.js';
import { evaluateOrder } from './evaluate-order.js';
import { periodBound } from './period-bound.js';
import type { ScheduleFound } from './result.js';
import { sameOrder } from './same-order.js';
import type { SetBest } from './search-sets.js';
import type { Goal } from './weights.js';

/** Those of the orders that this cell can run and that keep the goal's mix. */
export function knownSets(cell: Cell, known: readonly ScheduleFound[], goal: Goal): SetBest[] {
  return known.flatMap((found) => {
    const planned = sameOrder(cell, found);
    if (planned === null) return [];
    const { plan } = planned;
    const value = periodValue(cell, goal, plan.partsPerPeriod);
    const order = value === null ? null : evaluateOrder(plan, planned.order);
    if (value === null || !order?.feasible || order.periodS <= 0) return [];
    const boundS = Math.min(periodBound(plan), order.periodS);
    const visits = plan.nodes.reduce((sum, node) => sum + (node.kind === 'inside' ? node.visits : 0), 0);
    return [{ set: { plan, value, boundS, visits }, order, boundS, proven: false, bestExchange: false }];
  });
}

/** Value of a period; null where its parts are not in the goal's mix. */
function periodValue(
  cell: Cell,
  goal: Goal,
  partsPerPeriod: Readonly<Record<string, number>>,
): number | null {
  const counts = cell.routes.map((route) => partsPerPeriod[route.part] ?? 0);
  const { mix } = goal;
  if (mix === null) return counts.reduce((sum, count, r) => sum + count * goal.weight[r]!, 0);
  const sets = counts[0]! / mix[0]!;
  return counts.every((count, r) => count === sets * mix[r]!) ? sets : null;
}
