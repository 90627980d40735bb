/** Orders that are known before the search, as its starts: what each yields on this cell. */
import type { Cell } from '../../model/cell.js';
import { periodBound } from '../bound/period-bound.js';
import { timeOrder } from '../evaluate/evaluate-order.js';
import type { PlannedOrder } from '../plan/carried-order.js';
import type { Plan } from '../plan/plan.js';
import { type Goal, mixLead } from '../plan/weights.js';
import type { SetBest } from './search-set.js';

/** @returns null where the order cannot be repeated, or does not keep the goal's mix */
export function knownSet(cell: Cell, { plan, order }: PlannedOrder, goal: Goal): SetBest | null {
  const value = periodValue(cell, goal, plan.partsPerPeriod);
  const timed = value === null ? null : timeOrder(plan, fromFreeHands(plan, order));
  if (value === null || timed === null || timed.periodS <= 0) return null;
  const boundS = Math.min(periodBound(plan), timed.periodS);
  const visits = plan.nodes.reduce((sum, node) => sum + (node.kind === 'inside' ? node.visits : 0), 0);
  return {
    set: { plan, value, boundS, visits },
    order: timed,
    boundS,
    proven: false,
    bestExchange: false,
  };
}

/** The same circle of events, from where the fewest parts are in hand on; of such places from a pick at an infeed. */
function fromFreeHands(plan: Plan, order: readonly number[]): number[] {
  let inHand = 0;
  let start = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const [position, kind] of order.entries()) {
    const { action, from } = plan.events[kind]!;
    const key = 2 * inHand + (plan.nodes[from]!.kind === 'source' ? 0 : 1);
    if (key < least) {
      least = key;
      start = position;
    }
    if (action === 'pick') inHand++;
    if (action === 'place') inHand--;
  }
  return [...order.slice(start), ...order.slice(0, start)];
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
  const lead = mixLead(mix);
  const sets = counts[lead]! / mix[lead]!;
  return counts.every((count, r) => count === sets * mix[r]!) ? sets : null;
}
