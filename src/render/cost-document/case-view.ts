/** What every section of the cost case's document draws from. */
import type { AlternativeResult, CostCaseFound, IncrementResult } from '../../core/cost/result.js';
import { itemLabel } from '../../core/model/cost-items.js';
import { planInWords } from '../../core/model/plan-words.js';
import { watchedWay } from '../../core/model/watched-way.js';
import { type LocaleNumbers, plainNumbers } from '../document/locale-numbers.js';
import { upperFirst } from '../first-letter.js';

export interface CaseAlternatives {
  readonly harness: AlternativeResult;
  readonly boxes: AlternativeResult;
  /** The recommended way. */
  readonly choice: AlternativeResult;
  /** The way that doubt, break points and measures are told of: the recommended one, else boxes everywhere. */
  readonly watched: AlternativeResult;
}

export interface CaseView extends CaseAlternatives {
  readonly result: CostCaseFound;
  readonly numbers: LocaleNumbers;
}

function caseWays(result: CostCaseFound): CaseAlternatives {
  const { alternatives, decision } = result;
  const [harness, boxes] = alternatives as [AlternativeResult, AlternativeResult];
  const choice = alternatives.find((a) => a.name === decision) ?? harness;
  return { harness, boxes, choice, watched: watchedWay(result).way };
}

/** The case as the terminal shows it. */
export function plainView(result: CostCaseFound): CaseView {
  return caseView(result, plainNumbers(result.currency));
}

export function caseView(result: CostCaseFound, numbers: LocaleNumbers): CaseView {
  return { result, numbers, ...caseWays(result) };
}

/** The measures that decide: after tax where a tax is given. */
export function decisiveIncrement(view: CaseView, way: AlternativeResult): IncrementResult | null {
  return view.result.basis === 'after tax' ? way.incrementAfterTax : way.increment;
}

/** The recommended way in words, such as `boxes on lathe_1, mill_2`. */
export function wayInWords({ harness, boxes }: CaseAlternatives, way: AlternativeResult): string {
  if (way === harness || way === boxes) return way.name;
  return planInWords(way);
}

/** The rate that flows on this basis are discounted at. */
export function discountText(
  { result, numbers }: Pick<CaseView, 'result' | 'numbers'>,
  basis: CostCaseFound['basis'] = result.basis,
): string {
  const { beforeTaxPct, afterTaxPct } = result.discount;
  const pct = Number(((basis === 'after tax' ? afterTaxPct : null) ?? beforeTaxPct).toFixed(2));
  return `${numbers.percent(pct, Number.isInteger(10 * pct) ? 1 : 2)} a year`;
}

export function yearsText(view: CaseView, value: number | null): string {
  return value === null
    ? 'never within the horizon'
    : `${view.numbers.number(value, 1)} ${value === 1 ? 'year' : 'years'}`;
}

export function ratesText(view: CaseView, { irrAll }: IncrementResult): string {
  return irrAll.length === 0 ? 'none' : irrAll.map((rate) => view.numbers.percent(rate)).join(', ');
}

/** A count of changeovers at which something pays: whole changeovers. */
export function changeoverCountText(view: CaseView, count: number | null): string {
  return count === null ? 'never' : view.numbers.number(Math.ceil(count - 1e-9));
}

/** A count over the horizon as changeovers a year, to hold against those planned a year. */
export function yearlyText({ numbers, result }: CaseView, count: number | null): string {
  return count === null ? 'never' : numbers.number(count / result.horizonYears, 1);
}

/** Unit of money for headings: ` (EUR)`, or nothing where it has no name. */
export function inMoney({ result }: CaseView): string {
  return result.currency === '' ? '' : ` (${result.currency})`;
}

/** The same at the end of a title. */
export function commaMoney({ result }: CaseView): string {
  return result.currency === '' ? '' : `, ${result.currency}`;
}

/** A sentence of the core with its amounts of money in the form of this document, and inputs by their words. */
export function inStyle({ result, numbers }: CaseView, text: string): string {
  const { currency } = result;
  const sentence = upperFirst(text.replace(/\b[a-z]+(?:_[a-z]+)+\b/g, itemLabel));
  if (currency === '') return sentence;
  const amounts = new RegExp(`(-?\\d[\\d,]*(?:\\.\\d+)?)\u00A0${escaped(currency)}`, 'g');
  return sentence.replace(amounts, (_, amount: string) => numbers.money(Number(amount.replaceAll(',', ''))));
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The watched way as the beginning of a sentence; a plural. */
export function subject(view: CaseAlternatives): string {
  const words = wayInWords(view, view.watched);
  return words === view.boxes.name ? 'Boxes on every machine' : `${words[0]!.toUpperCase()}${words.slice(1)}`;
}
