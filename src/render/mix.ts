/** A product mix as text: the answer, the patterns, the best one's parts, machines and hours. */
import type { ProductMix } from '../core/mix/product-mix.js';
import {
  mixHourTable,
  mixName,
  mixPartTable,
  mixPatternTable,
  mixUseTable,
} from './result-tables/mix-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

export function renderMix(result: ProductMix, currency: string, style: TextStyle): string {
  const { said, section } = printer(style);
  const money = result.valued === 'contribution' && currency !== '' ? ` (money in ${currency})` : '';
  const best = result.patterns.find((p) => p.pattern === result.best && p.status !== 'unsure');
  return pieces(
    said(result.recommendation),
    section(`Shift patterns compared${money}`, mixPatternTable(result)),
    best && style.full && section(`Parts a week: ${mixName(best)}`, mixPartTable(best)),
    best && style.full && section(`Where they are made: ${mixName(best)}`, mixUseTable(best)),
    best && section(`Hours a week: ${mixName(best)}`, mixHourTable(best, result.valued)),
  );
}
