/** The answer in words: what to do, what it is worth, how sure that is, and what would change it. */

import { amountText } from '../model/amount-text.js';
import { chanceText } from '../model/chance-text.js';
import { costItemFormat, itemLabel } from '../model/cost-items.js';
import { HARNESS, planInWords } from '../model/plan-words.js';
import type { MissingItem } from './case-problems.js';
import type { NearestTurn } from './doubt/choice-turns.js';
import type { Risk } from './doubt/risk.js';
import type { AlternativeResult, IncrementResult } from './result.js';

export interface Verdict {
  readonly choice: AlternativeResult;
  /** The choice less moving the harness, on the basis that decides. */
  readonly increment: IncrementResult | null;
  readonly risk: Risk;
  /** Bought and fitted in year 0 more than with the harness. */
  readonly boughtMore: number;
  /** The least change of one input alone that makes another choice best; null where none does. */
  readonly turn: NearestTurn | null;
  readonly breakEven: number | null;
  readonly plannedChangeovers: number;
  readonly years: number;
  readonly discountPct: number;
  readonly currency: string;
  readonly afterTax: boolean;
  readonly anyOverBudget: boolean;
}

export function recommendationText(verdict: Verdict): string {
  if (verdict.plannedChangeovers === 0)
    return 'Do nothing: no changeovers are planned, so a box saves no minute. Go on moving the harness when the need arises.';
  const sentences = verdict.choice.name === HARNESS ? stay(verdict) : change(verdict);
  return [...sentences, ...doubt(verdict), ...turning(verdict)].join(' ');
}

function stay(verdict: Verdict): string[] {
  const count = Math.round(verdict.plannedChangeovers);
  const box = verdict.anyOverBudget ? 'no box within the budget' : 'no box';
  const first = `Do nothing: go on moving the harness. At ${count} changeovers in ${verdict.years} years ${box} earns what it costs.`;
  const even =
    verdict.breakEven === null
      ? 'No number of changeovers would make boxes on every machine pay.'
      : `Boxes on every machine would pay from ${Math.ceil(verdict.breakEven - 1e-9)} changeovers on ${verdict.afterTax ? 'after tax' : 'before tax'}.`;
  const budget = verdict.anyOverBudget ? ['Some options exceed the budget.'] : [];
  return [first, even, ...budget];
}

function change(verdict: Verdict): string[] {
  const { choice, increment, currency, years } = verdict;
  const money = (amount: number) => amountText(amount, currency);
  const tax = verdict.afterTax ? ' after tax' : '';
  const spent = -(increment?.cashFlow[0] ?? 0);
  const stopped = spent - verdict.boughtMore;
  const down =
    Math.abs(stopped) < 0.5
      ? ''
      : `, ${money(spent)}${tax} with the contribution lost while machines are down for it`;
  const payback = increment?.paybackYears ?? null;
  return [
    `Put ${planInWords(choice)}: over ${years} years this is worth ${money(increment?.npv ?? 0)} more than moving the harness${tax}, at ${verdict.discountPct}% a year.`,
    spent > 0
      ? `It costs ${money(verdict.boughtMore)} more at the start${down}${payback === null ? '' : `; payback ${payback.toFixed(1)} years`}.`
      : 'It costs no more at the start than the harness.',
    ...(verdict.anyOverBudget ? ['Some other options exceed the budget.'] : []),
  ];
}

function doubt({ risk, choice }: Verdict): string[] {
  if (risk.items.length === 0)
    return ['No item has a low and a high, so nothing can be said about how sure this is.'];
  const close = risk.probabilityPays > 0.2 && risk.probabilityPays < 0.8;
  const what = choice.name === HARNESS ? 'boxes on every machine would pay' : 'it pays';
  return [
    `Given the lows and highs of ${risk.items.length} ${risk.items.length === 1 ? 'item' : 'items'}, the chance that ${what} is ${chanceText(risk.probabilityPays)}.${close ? ' That is close: measure the inputs at the top of the sensitivity table before deciding.' : ''}`,
  ];
}

function turning({ turn, currency }: Verdict): string[] {
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
