/** What the case rests on: every cost item and every machine with its source and place, then sentences. */

import type { CaseItem } from '../../core/cost/result.js';
import { costItemFormat, itemLabel } from '../../core/model/cost-items.js';
import { priceBreaksOf } from '../../core/model/price-breaks.js';
import {
  type Block,
  type FoldBlock,
  fold,
  left,
  listOf,
  note,
  right,
  section,
  subsection,
  type TableBlock,
  tableOf,
} from '../document/blocks.js';
import { type CaseView, inStyle } from './case-view.js';
import { HEAD_ITEMS } from './header.js';
import { placeText } from './place-text.js';

export function caseAssumptionBlocks(view: CaseView): Block[] {
  const { result, numbers } = view;
  const decimal = numbers.number(1.5, 1).replace(/[^.,\u066B]/gu, '');
  return [
    section('Assumptions and their sources'),
    itemTable(
      view,
      'Inputs as given, with the range that is thought possible and where each comes from',
      (item) => item.place !== null,
    ),
    machineTable(view),
    subsection('What was assumed'),
    listOf(result.assumptions.map((text) => inStyle(view, text))),
    ...(decimal === '.'
      ? []
      : [
          note(
            'Numbers inside these sentences are written with a decimal point, as in the tables of the cell; all others follow the chosen locale.',
          ),
        ]),
  ];
}

function itemTable(
  { result, numbers }: CaseView,
  caption: string,
  shown: (item: CaseItem) => boolean,
): TableBlock {
  const bound = (value: number | null) => (value === null ? '' : numbers.typed(value));
  return tableOf(
    caption,
    [
      left('input'),
      right('value'),
      right('low'),
      right('high'),
      left('unit'),
      left('source'),
      left('file:line'),
    ],
    result.costItems
      .filter((item) => shown(item) && !HEAD_ITEMS.some((name) => name === item.item))
      .map((item) => [
        itemLabel(item.item),
        valueText(item, numbers),
        bound(item.low),
        bound(item.high),
        item.unit,
        item.source || 'not stated',
        placeText(item.place) || 'program',
      ]),
    { wide: true },
  );
}

/** Price breaks in words: `4:1390` is how the table writes them. */
function valueText({ item, value }: CaseItem, numbers: CaseView['numbers']): string {
  if (costItemFormat(item)?.kind !== 'price breaks') return numbers.typed(value);
  return priceBreaksOf(String(value))
    .map(({ from, each }) => `from ${numbers.number(from)}: ${numbers.typed(each)}`)
    .join('; ');
}

/** What costs.csv does not give, with what each item of the case means. */
export function defaultsFold(view: CaseView): FoldBlock {
  return fold('Inputs at their defaults, and what each input means', [
    itemTable(view, 'Inputs at their defaults', (item) => item.place === null),
    tableOf(
      'What each input means, with its name in costs.csv',
      [left('input'), left('item of costs.csv'), left('meaning')],
      view.result.costItems.map((item) => [itemLabel(item.item), item.item, item.meaning]),
      { prose: true, wide: true },
    ),
  ]);
}

function machineTable({ result, numbers }: CaseView): Block {
  return tableOf(
    'Machines and their changeovers',
    [
      left('machine'),
      right('changeovers a year'),
      right('people'),
      right('downtime, % of the time'),
      right('signals'),
      right('set-up minutes common to both options'),
      left('file:line'),
    ],
    result.byStation.map((s) => [
      s.station,
      numbers.typed(s.changeoversPerYear),
      numbers.typed(s.people),
      numbers.typed(s.internalPct),
      numbers.number(s.signals),
      numbers.typed(s.otherMin),
      placeText(s.place),
    ]),
  );
}
