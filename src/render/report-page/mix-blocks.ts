/** What to make in a week, and which hours are the bottleneck. */

import { type Block, beside, note, said, section } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { lowerFirst } from '../first-letter.js';
import { mixHourTable, mixPartTable, mixPatternTable } from '../result-tables/mix-tables.js';
import { moneyUnit, type PartView } from './report-view.js';

export function mixBlocks(view: PartView<'mix'>): Block[] {
  const { mix } = view.results;
  const title = section('What to make, and which hours are the bottleneck?', true);
  if (mix === null)
    return [
      title,
      said(
        'Fill in parts.csv with the contribution and the demand of each part to see the best mix of a week and what one more hour is worth.',
      ),
    ];
  const best = mix.patterns.find((p) => p.pattern === mix.best && p.status !== 'unsure');
  const name = best?.pattern ?? 'the week';
  return [
    title,
    said(`By hours alone, ${lowerFirst(mix.recommendation)}`),
    note(
      'A bound, not a plan: waiting for each other and racks that run out in unattended hours are not in it. What is left of it is in the sections before.',
    ),
    tableBlock(
      `Shift patterns compared, upper limit${mix.valued === 'contribution' ? moneyUnit(view) : ''}`,
      mixPatternTable(mix),
    ),
    ...(best === undefined
      ? []
      : [
          beside([
            [tableBlock(`Parts of a week: ${name}`, mixPartTable(best))],
            [tableBlock(`Hours of a week: ${name}`, mixHourTable(best, mix.valued))],
          ]),
        ]),
  ];
}
