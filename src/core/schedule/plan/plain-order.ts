/**
 * The plain rule of thumb (common practice): every part's moves from its last step back to its first, so that each
 * station is emptied before it is filled.
 */
import type { Plan } from './plan.js';

/** @returns event kinds of the plan in that order, each as often as its count */
export function plainOrder(plan: Plan): number[] {
  const order: number[] = [];
  const rounds = Math.max(...plan.carries.map((carry) => carry.count));
  for (let round = 0; round < rounds; round++)
    for (const carry of [...plan.carries].reverse()) if (round < carry.count) order.push(...carry.events);
  return order;
}
