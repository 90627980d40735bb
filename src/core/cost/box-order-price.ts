import type { PriceBreak } from '../model/price-breaks.js';

/**
 * What an order of boxes costs where the price of each falls with the number ordered.
 *
 * Each price holds for the whole order from its number on. Where ordering up to the next price break is cheaper than
 * the number needed, the cheaper order is made and the rest kept as spares.
 *
 * @param boxes needed, whole, 0 or more
 * @param each price of one box below the first price break
 * @param breaks prices by least number, in any order
 * @returns money, and the number ordered
 * @example boxOrderPrice(9, 100, [{ from: 10, each: 80 }]) // { price: 800, ordered: 10 }
 */
export function boxOrderPrice(
  boxes: number,
  each: number,
  breaks: readonly PriceBreak[],
): { price: number; ordered: number } {
  let reached = 0;
  let now = each;
  for (const step of breaks) {
    if (step.from > boxes || step.from < reached) continue;
    reached = step.from;
    now = step.each;
  }
  let best = { price: boxes * now, ordered: boxes };
  if (boxes === 0) return best;
  for (const step of breaks) {
    const price = step.from * step.each;
    if (step.from > boxes && price < best.price) best = { price, ordered: step.from };
  }
  return best;
}
