/** The page that decides: what to do, what it is worth, what it takes, how sure it is, what would change it. */

import type { ChoiceStep, ItemTurns } from '../../core/cost/doubt/choice-turns.js';
import { chanceText } from '../../core/model/chance-text.js';
import { itemLabel } from '../../core/model/cost-items.js';
import { planInWords } from '../../core/model/plan-words.js';
import { watchedWay } from '../../core/model/watched-way.js';
import { type Block, lead, left, listOf, right, section, subsection, tableOf } from '../document/blocks.js';
import { breakEvenText } from './break-even-text.js';
import {
  type CaseView,
  decisiveIncrement,
  discountText,
  inMoney,
  inStyle,
  ratesText,
  subject,
  wayInWords,
  yearsText,
} from './case-view.js';
import { approvalBlock, ruleRows } from './header.js';

const TURNS_SHOWN = 3;

export function summaryBlocks(view: CaseView): Block[] {
  const { result } = view;
  return [
    section('Summary'),
    lead(decisionText(view)),
    glanceTable(view),
    scenarioTable(view),
    ...(result.warnings.length > 0
      ? [subsection('Read this first'), listOf(result.warnings.map((text) => inStyle(view, text)))]
      : []),
    approvalBlock(view),
  ];
}

export function glanceTable(view: CaseView): Block {
  const { numbers } = view;
  return tableOf(
    'The case at a glance',
    [left('question'), left('answer')],
    [
      ['What it is worth', worthText(view)],
      ['What the gain is made of', benefitText(view)],
      ['What it takes', moneyText(view)],
      ['Payback', paybackText(view)],
      ['Break-even, changeovers', `${subject(view)}: ${breakEvenText(view, numbers.number)}.`],
      ...ruleRows(view),
      ['Sensitivity and risk', riskText(view)],
      ['What would change it', turnText(view)],
      ['Other options', otherText(view)],
    ],
    { prose: true },
  );
}

/** Every doubtful input at its worse end at once, as planned, at its better end. */
function scenarioTable(view: CaseView): Block {
  const { result, numbers } = view;
  const words = {
    low: 'low: every input in doubt at its worse end',
    expected: 'expected: as planned',
    high: 'high: every input in doubt at its better end',
  };
  return tableOf(
    `Scenarios: ${subject(view)} against moving the harness, ${result.basis}${inMoney(view)}`,
    [left('scenario'), right('present value'), right('rate of return'), right('payback')],
    result.scenarios.map(({ name, npv, irrPct, paybackYears }) => [
      words[name],
      numbers.amount(npv),
      irrPct === null ? 'none' : numbers.percent(irrPct),
      yearsText(view, paybackYears),
    ]),
  );
}

export function decisionText(view: CaseView): string {
  const { result, choice, harness, numbers } = view;
  const years = `${result.horizonYears} ${result.horizonYears === 1 ? 'year' : 'years'}`;
  if (result.plannedChangeovers === 0)
    return 'Do nothing: no changeovers are planned, so a box saves no minute.';
  if (choice === harness)
    return `Do nothing: go on moving the harness. At ${numbers.number(result.plannedChangeovers)} changeovers in ${years} ${result.alternatives.some((a) => !a.withinBudget) ? 'no box within the budget' : 'no box'} earns what it costs.`;
  const npv = decisiveIncrement(view, choice)?.npv ?? 0;
  return `Put ${wayInWords(view, choice)}: over ${years} this is worth ${numbers.money(npv)} more than moving the harness, ${result.basis}.`;
}

function worthText(view: CaseView): string {
  const { result, numbers, watched } = view;
  const increment = decisiveIncrement(view, watched);
  if (increment === null) return 'nothing can be said';
  const tax =
    result.basis === 'after tax' ? `after tax of ${numbers.percent(result.taxPct, 0)}` : 'before tax';
  return `${subject(view)}: net present value ${numbers.money(increment.npv)} ${tax}; equivalent annual value ${numbers.money(increment.annualEquivalent)}. Discount rate ${discountText(view)} (${result.discount.kind}).`;
}

function benefitText({ result, numbers }: CaseView): string {
  const {
    labourPerYear: labour,
    contributionPerYear: parts,
    otherPerYear: other,
    labourCashPct: pct,
    npvInCash,
  } = result.benefit;
  const all = labour + parts;
  const rest =
    Math.abs(other) < 0.5
      ? ''
      : other > 0
        ? `, and ${numbers.money(other)} of worn connectors less upkeep`
        : `; less ${numbers.money(-other)} of upkeep and worn connectors`;
  const share =
    all > 0 && labour >= 0 && parts >= 0 ? ` (${numbers.percent((100 * labour) / all, 0)} labour)` : '';
  const cash =
    pct < 100
      ? `${numbers.percent(pct, 0)} of the labour turns into cash, the rest only frees time; in cash alone the present value is ${numbers.money(npvInCash)}.`
      : 'All of the labour is taken as cash; where it only frees time, the gain is less.';
  return `${numbers.money(labour)} of labour and ${numbers.money(parts)} of contribution a year${share}${rest}. ${cash}`;
}

function moneyText(view: CaseView): string {
  const { numbers, watched, harness, result } = view;
  const { budget } = result.selection;
  const limit = budget === null ? 'No budget is set.' : `The budget is ${numbers.money(budget)}.`;
  const change = watched.annualCost - harness.annualCost;
  const running = `running cost ${numbers.money(Math.abs(change))} a year ${change <= 0 ? 'less' : 'more'}`;
  const capital = watched.capital - harness.capital;
  const spent = -(decisiveIncrement(view, watched)?.cashFlow[0] ?? -capital);
  const stopped =
    Math.abs(spent - capital) < 0.5
      ? ''
      : ` (${numbers.money(spent)} ${result.basis} with the machines stopped for it)`;
  const zero =
    result.countedAsZero.length === 0
      ? ''
      : ` Counted as 0, since nothing is given: ${result.countedAsZero.map(itemLabel).join(', ')}.`;
  return `${numbers.money(capital)} more at the start than the harness, for ${numbers.number(watched.boxes)} ${watched.boxes === 1 ? 'box' : 'boxes'} with their installation${stopped}; ${running} before tax. ${limit}${zero}`;
}

export function paybackText(view: CaseView): string {
  const increment = decisiveIncrement(view, view.watched);
  if (increment === null) return 'nothing can be said';
  return increment.paybackYears === null
    ? `No payback within ${view.result.horizonYears} years. Rate of return: ${ratesText(view, increment)}.`
    : `Payback ${yearsText(view, increment.paybackYears)}; discounted payback ${yearsText(view, increment.discountedPaybackYears)}. Rate of return: ${ratesText(view, increment)}.`;
}

export function riskText(view: CaseView): string {
  const { result, numbers } = view;
  if (result.plannedChangeovers === 0) return 'Nothing to weigh: no changeovers are planned.';
  const { risk } = watchedWay(result);
  if (risk.items.length === 0) return 'Nothing can be said: no item has a low and a high.';
  const points = numbers.number(100 * risk.probabilityStandardError, 2);
  const error = Number(points.replace(/\D/g, '')) === 0 ? '' : ` (standard error ${points} points)`;
  return `${subject(view)} pay in ${chanceText(risk.probabilityPays, (pct) => numbers.percent(pct))} of ${numbers.number(risk.trials)} trials${error} with ${risk.items.length} ${risk.items.length === 1 ? 'item' : 'items'} in doubt; P10 to P90 ${numbers.money(risk.npv.p10)} to ${numbers.money(risk.npv.p90)}.`;
}

function turnText(view: CaseView): string {
  const { result, numbers } = view;
  const steps = result.turns
    .slice(0, TURNS_SHOWN)
    .flatMap((turns) =>
      [turns.below[0], turns.above[0]].flatMap((step) => (step === undefined ? [] : [{ turns, step }])),
    );
  if (steps.length === 0) return 'No single input makes another option best within its range.';
  const one = ({ turns, step }: { turns: ItemTurns; step: ChoiceStep }) =>
    `${itemLabel(turns.item)} ${step.at < turns.value ? 'below' : 'above'} ${numbers.typed(Number(step.at.toPrecision(3)))} (planned ${numbers.typed(turns.value)}): ${planInWords(step)}`;
  return `The recommendation changes with one input alone: ${steps.map(one).join('; ')}.`;
}

function otherText(view: CaseView): string {
  const { result, numbers, choice } = view;
  const others = result.alternatives.filter((a) => a !== choice);
  return others
    .map((a) => {
      const npv = decisiveIncrement(view, a)?.npv ?? 0;
      const reach = a.withinBudget ? '' : ', beyond the budget';
      return `${wayInWords(view, a)}: ${numbers.money(npv)}${reach}`;
    })
    .join('; ')
    .concat(' (present value over moving the harness).');
}
