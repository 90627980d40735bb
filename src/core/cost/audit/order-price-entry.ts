/** What an order of so many boxes costs, by the price that holds for it. */
import { boxOrderPrice } from '../box-order-price.js';
import { num } from '../case-inputs.js';
import type { AuditedCase } from './audit-inputs.js';
import { type Formula, formula, named } from './formula.js';

export function orderPriceEntry({ inputs, item, trail }: AuditedCase, boxes: number): Formula {
  const { price, ordered } = boxOrderPrice(boxes, num(inputs, 'box_price'), inputs.priceBreaks);
  const reached = inputs.priceBreaks
    .filter((step) => step.from <= ordered)
    .reduce<number | null>((most, step) => (most === null || step.from > most ? step.from : most), null);
  const each =
    reached === null
      ? item('box_price')
      : named({
          item: `price of one box from ${reached} on`,
          value: inputs.priceBreaks.find((step) => step.from === reached)!.each,
          place: item('box_price_breaks').inputs[0]!.place,
        });
  const more = ordered > boxes ? ` (${ordered} are ordered, which is cheaper)` : '';
  return trail.add(
    `order of ${boxes} ${boxes === 1 ? 'box' : 'boxes'}${more}`,
    price,
    formula`${ordered} x ${each}`,
  );
}
