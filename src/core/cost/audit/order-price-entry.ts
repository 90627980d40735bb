/** What an order of so many boxes costs: at the price that holds for it, or up to a price break where that is cheaper. */
import type { PriceBreak } from '../../model/price-breaks.js';
import { boxOrderPrice } from '../box-order-price.js';
import { num } from '../case-inputs.js';
import { priceShare } from '../plan-flows.js';
import type { AuditedCase } from './audit-inputs.js';
import { type Formula, formula, joined, named } from './formula.js';

export function orderPriceEntry({ inputs, item, trail }: AuditedCase, boxes: number): Formula {
  const { priceBreaks } = inputs;
  const { price, ordered } = boxOrderPrice(boxes, num(inputs, 'box_price'), priceBreaks);
  const priceFrom = ({ from, each }: PriceBreak): Formula =>
    named({
      item: `price of one box from ${from} on`,
      value: each,
      place: item('box_price_breaks').inputs[0]!.place,
    });
  const reached = priceBreaks
    .filter((step) => step.from <= boxes)
    .reduce<PriceBreak | null>((most, step) => (most === null || step.from > most.from ? step : most), null);
  const orders = [
    formula`${boxes} x ${reached === null ? item('box_price') : priceFrom(reached)}`,
    ...priceBreaks
      .filter((step) => step.from > boxes)
      .map((step) => formula`${step.from} x ${priceFrom(step)}`),
  ];
  const cheapest = orders.length === 1 ? orders[0]! : formula`min(${joined(orders, ', ')})`;
  const more = ordered > boxes ? ` (${ordered} are ordered, which is cheaper)` : '';
  return trail.add(
    `order of ${boxes} ${boxes === 1 ? 'box' : 'boxes'}${more}`,
    price * priceShare(inputs),
    formula`${cheapest} x ${item('box_price_pct')} / 100`,
  );
}
