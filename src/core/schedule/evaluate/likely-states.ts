/**
 * Which start contents of an order are worth timing where a station starts only when a whole batch is in: with a large batch
 * nearly all others are ones that cannot be, or the same ones some parts later.
 *
 * A fixture of two with one part inside, and an order of in, out, out, in:
 *
 *      that one is finished     in  out  out  in       the second out takes a part whose mate comes last: cannot be
 *      that one waits (loaded)  in  out  out  in       the first in completes the pair, the last begins the next one
 */

import type { Plan } from '../plan/plan.js';
import type { OrderCounts, StartState } from './order-graph.js';

/**
 * The start states in which no batch is picked before its last part is placed, and of those that are one another some cycles
 * of a repeated stretch later a single one. All of them where no state is so, for the reason to be told.
 */
export function likelyStates(
  plan: Plan,
  order: readonly number[],
  { states, places, picks }: OrderCounts,
): readonly StartState[] {
  const batches = [...plan.nodes.entries()].filter(([, node]) => node.kind === 'inside' && node.batch > 1);
  const [first] = batches;
  if (first === undefined) return states;
  const isWhole = batches.every(([, { visits, batch }]) => visits % batch === 0);
  const step = isWhole ? first[1].visits / repeats(order) : Number.POSITIVE_INFINITY;
  const likely = states.filter(
    ({ inside, loaded }) =>
      loaded[first[0]]! < step &&
      batches.every(([n, { visits, batch }]) => {
        const at = (list: readonly number[], i: number) =>
          list[i % visits]! + Math.floor(i / visits) * order.length;
        // Of each batch the part that is picked first says it all.
        for (let part = 0, end = batch - loaded[n]!; part < visits; part = end, end += batch)
          if (at(places[n]!, end - 1) > at(picks[n]!, part + inside[n]!)) return false;
        return true;
      }),
  );
  return likely.length > 0 ? likely : states;
}

/** How often an order does the same all over again. @example repeats([0, 1, 0, 1, 0, 1]) // 3 */
function repeats(order: readonly number[]): number {
  let stretch = 1;
  while (order.length % stretch !== 0 || order.some((kind, i) => kind !== order[i % stretch])) stretch++;
  return order.length / stretch;
}
