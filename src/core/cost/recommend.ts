/** The answer in words: what to do, what it is worth, how sure that is, and what would change it. */

import { amountText } from '../model/amount-text.js';
import { chanceText } from '../model/chance-text.js';
import { costItemFormat, itemLabel } from '../model/cost-items.js';
import { HARNESS, planInWords } from '../model/plan-words.js';
import type { MissingItem } from './case-problems.js';
import type { AlternativeResult, CaseFigures } from './result.js';

interface Verdict extends CaseFigures {
  readonly choice: AlternativeResult;
  readonly anyOverBudget: boolean;
}

export function recommendationText(found: CaseFigures): string {
  if (found.plannedChangeovers === 0)
    return 'Do nothing: no changeovers are planned, so a box saves no minute. Go on moving the harness when the need arises.';
  const choice = found.alternatives.find(({ name }) => name === found.comparison.best)!;
  const verdict = { ...found, choice, anyOverBudget: found.alternatives.some((a) => !a.withinBudget) };
  const sentences = choice.name === HARNESS ? stay(verdict) : change(verdict);
  return [...sentences, ...doubt(verdict), ...turning(verdict)].join(' ');
}

function stay(verdict: Verdict): string[] {
  const { basis, breakEvenChangeovers: even } = verdict;
  const count = Math.round(verdict.plannedChangeovers);
  const box = verdict.anyOverBudget ? 'no box within the budget' : 'no box';
  const first = `Do nothing: go on moving the harness. At ${count} changeovers in ${verdict.horizonYears} years ${box} earns what it costs.`;
  const breakEven = basis === 'after tax' ? even.totalAfterTax : even.total;
  const pays =
    breakEven === null
      ? 'No number of changeovers would make boxes on every machine pay.'
      : `Boxes on every machine would pay from ${Math.ceil(breakEven - 1e-9)} changeovers on ${basis}.`;
  const budget = verdict.anyOverBudget ? ['Some options exceed the budget.'] : [];
  return [first, pays, ...budget];
}

function change(verdict: Verdict): string[] {
  const { choice, alternatives, currency, horizonYears: years, basis, discount } = verdict;
  const increment = basis === 'after tax' ? choice.incrementAfterTax : choice.increment;
  const discountPct = basis === 'after tax' ? discount.afterTaxPct : discount.beforeTaxPct;
  const money = (amount: number) => amountText(amount, currency);
  const tax = basis === 'after tax' ? ' after tax' : '';
  const boughtMore = choice.capital - alternatives[0]!.capital;
  const spent = -(increment?.cashFlow[0] ?? 0);
  const stopped = spent - boughtMore;
  const down =
    Math.abs(stopped) < 0.5
      ? ''
      : `, ${money(spent)}${tax} with the contribution lost while machines are down for it`;
  const payback = increment?.paybackYears ?? null;
  return [
    `Put ${planInWords(choice)}: over ${years} years this is worth ${money(increment?.npv ?? 0)} more than moving the harness${tax}, at ${discountPct}% a year.`,
    spent > 0
      ? `It costs ${money(boughtMore)} more at the start${down}${payback === null ? '' : `; payback ${payback.toFixed(1)} years`}.`
      : 'It costs no more at the start than the harness.',
    ...(verdict.anyOverBudget ? ['Some other options exceed the budget.'] : []),
  ];
}

function doubt({ choice, ...verdict }: Verdict): string[] {
  const risk = verdict.riskOfChoice ?? verdict.risk;
  if (risk.items.length === 0)
    return ['No item has a low and a high, so nothing can be said about how sure this is.'];
  const close = risk.probabilityPays > 0.2 && risk.probabilityPays < 0.8;
  const what = choice.name === HARNESS ? 'boxes on every machine would pay' : 'it pays';
  return [
    `Given the lows and highs of ${risk.items.length} ${risk.items.length === 1 ? 'item' : 'items'}, the chance that ${what} is ${chanceText(risk.probabilityPays)}.${close ? ' That is close: measure the inputs at the top of the sensitivity table before deciding.' : ''}`,
  ];
}

function turning({ nearestTurn: turn, currency }: Verdict): string[] {
  if (turn === null) return ['No single input makes another choice best within its range.'];
  const at = Number(turn.step.at.toPrecision(3));
  const past = turn.step.at < turn.value ? 'below' : 'above';
  const unit = unitText(turn.item, currency);
  return [
    `Most sensitive input: ${itemLabel(turn.item)} (${turn.item}, planned ${turn.value}${unit}): ${past} ${at}${unit} the best choice is ${planInWords(turn.step)}.`,
  ];
}

/** As it follows a figure. @example unitText('discount_pct', 'EUR') // '% a year' */
function unitText(item: string, currency: string): string {
  const { unit } = costItemFormat(item)!;
  if (unit === '' || unit.startsWith('%')) return unit;
  return ` ${unit.replace('money', currency || 'money')}`;
}

/** What is missing, all of it, and what it is needed for. */
export function tooLittleText(missing: readonly MissingItem[]): string {
  const items = missing.map((entry) => `${entry.item} (for ${entry.neededFor.join(', ')})`);
  return `Too little data to say. Missing: ${items.join('; ')}. No results.`;
}
