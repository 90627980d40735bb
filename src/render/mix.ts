/** A product mix as text: the answer, the patterns, the best one's parts, machines and hours. */
import pc from 'picocolors';
import type { ProductMix } from '../core/mix/product-mix.js';
import { paragraph } from './paragraph.js';
import {
  mixHourTable,
  mixName,
  mixPartTable,
  mixPatternTable,
  mixUseTable,
} from './result-tables/mix-tables.js';
import type { TextStyle } from './text-style.js';
import { printTable } from './text-table.js';

export function renderMix(result: ProductMix, currency: string, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const money = result.valued === 'contribution' && currency !== '' ? ` (money in ${currency})` : '';
  const best = result.patterns.find((p) => p.pattern === result.best && p.status !== 'unsure');
  return [
    `${paragraph(result.recommendation, style.columns)}\n`,
    `${paint.bold(`Shift patterns compared${money}`)}\n${printTable(mixPatternTable(result), style)}\n`,
    ...(best
      ? [
          ...(style.full
            ? [
                `${paint.bold(`Parts a week: ${mixName(best)}`)}\n${printTable(mixPartTable(best), style)}\n`,
                `${paint.bold(`Where they are made: ${mixName(best)}`)}\n${printTable(mixUseTable(best), style)}\n`,
              ]
            : []),
          `${paint.bold(`Hours a week: ${mixName(best)}`)}\n${printTable(mixHourTable(best, result.valued), style)}\n`,
        ]
      : []),
  ].join('\n');
}
