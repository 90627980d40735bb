/** How the answer bears doubt: each input alone, the values that turn it, all at once, and the number of changeovers. */

import type { ChoiceStep, ItemTurns } from '../../core/cost/doubt/choice-turns.js';
import type { Risk } from '../../core/cost/doubt/risk.js';
import { chanceText } from '../../core/model/chance-text.js';
import { itemLabel } from '../../core/model/cost-items.js';
import { planInWords } from '../../core/model/plan-words.js';
import { watchedWay } from '../../core/model/watched-way.js';
import {
  type Block,
  fold,
  type InnerBlock,
  left,
  note,
  right,
  section,
  type TableBlock,
  tableOf,
} from '../document/blocks.js';
import { type CaseView, inMoney } from './case-view.js';
import { crossingBlock } from './crossing-block.js';
import { tornadoBlock } from './tornado-block.js';
import { valueBlock } from './value-block.js';

const TURNS_SHOWN = 6;
/** To either side of the plan; the others are in the result. */
const STEPS_SHOWN = 2;

export function sensitivityBlocks(view: CaseView): Block[] {
  const crossing = crossingBlock(view);
  return [
    section('Sensitivity and risk'),
    turnsTable(view),
    tornadoBlock(view),
    valueBlock(view),
    ...riskFold(view),
    section('Cost against the number of changeovers'),
    ...(crossing === null ? [] : [crossing]),
  ];
}

export function turnsTable(view: CaseView): TableBlock {
  const { result, numbers } = view;
  const at = ({ value }: ItemTurns, step: ChoiceStep): string =>
    `${step.at < value ? 'below' : 'above'} ${numbers.typed(Number(step.at.toPrecision(3)))}: ${planInWords(step)} (${numbers.money(step.npv)})`;
  return tableOf(
    `Where another option becomes best, one input alone, with its present value there; the ${TURNS_SHOWN} inputs that need the least change`,
    [left('input'), right('planned'), left('best option')],
    result.turns
      .slice(0, TURNS_SHOWN)
      .map((turns) => [
        inUnit(turns.item, unitOf(view, turns.item)),
        numbers.typed(turns.value),
        [...turns.below.slice(0, STEPS_SHOWN), ...turns.above.slice(0, STEPS_SHOWN)]
          .map((step) => at(turns, step))
          .join('; '),
      ]),
    { prose: true },
  );
}

/** The figures behind the histogram: what decides stands in its title. */
function riskFold(view: CaseView): Block[] {
  const blocks = riskBlocks(view);
  return blocks.length === 0 ? [] : [fold('Risk in figures', blocks)];
}

/** As the table gives it; the shop's own words win over the list's. */
function unitOf({ result }: CaseView, item: string): string {
  return result.costItems.find((each) => each.item === item)?.unit ?? '';
}

const inUnit = (item: string, unit: string): string =>
  unit === '' ? itemLabel(item) : `${itemLabel(item)}, ${unit}`;

export function riskBlocks(view: CaseView): InnerBlock[] {
  const { result, numbers, watched } = view;
  const { risk } = watchedWay(result);
  if (risk.items.length === 0) return [];
  const row = (what: string, text: (of: Risk) => string) => [what, text(risk)];
  const { trials, seed, distribution, items, correlations } = risk;
  const together =
    correlations.length === 0
      ? 'independent of one another'
      : `rank correlations ${correlations.map(({ a, b, rank }) => `${itemLabel(a)} and ${itemLabel(b)} ${numbers.typed(rank)}`).join('; ')}, all others independent`;
  return [
    tableOf(
      `Risk: all doubtful items at once, present value ${result.basis}${inMoney(view)}`,
      [left('measure'), right(watched.name)],
      [
        row('chance that it pays', (r) => chanceText(r.probabilityPays, (pct) => numbers.percent(pct))),
        row('its standard error, points', (r) => numbers.number(100 * r.probabilityStandardError, 2)),
        row('mean', (r) => numbers.number(r.npv.mean)),
        row('standard deviation', (r) => numbers.number(r.npv.sd)),
        row('P10', (r) => numbers.number(r.npv.p10)),
        row('P50, the median', (r) => numbers.number(r.npv.p50)),
        row('P90', (r) => numbers.number(r.npv.p90)),
      ],
    ),
    note(
      `${numbers.number(trials)} trials, seed ${seed}, ${distribution === 'pert' ? 'PERT' : 'triangular'} distributions, the ${items.length} ${items.length === 1 ? 'input' : 'inputs'} with a low and a high; ${together}.`,
    ),
  ];
}
