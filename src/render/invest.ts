/** Cells as investments: one line each, and what is best. */
import type { Investment, Investments } from '../core/cost/invest/investments.js';
import { moneyText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { right, textTable } from './text-table.js';

export function renderInvestments(result: Investments, facts: InvestmentFacts, style: TextStyle): string {
  const { cells } = result;
  const money = (value: number) => moneyText(Math.round(value));
  const table = textTable(
    [
      { heading: 'cell' },
      right('parts\na week'),
      right('money\na week'),
      right('price'),
      right('payback\nyears'),
      right('present\nvalue'),
      right('at 95%\nconfidence'),
      { heading: 'verdict' },
    ],
    cells.map((cell) => [
      cell.name,
      numberText(cell.partsPerWeek),
      money(cell.moneyPerWeek),
      money(cell.price),
      cell.increment === null
        ? '-'
        : cell.increment.paybackYears === null
          ? 'never'
          : numberText(cell.increment.paybackYears, 1),
      cell.increment === null ? '-' : money(cell.increment.npv),
      cell.npvLow === null ? '-' : `${money(cell.npvLow)} to ${money(cell.npvHigh!)}`,
      cell.verdict,
    ]),
    style,
  );
  const [answer, note] = investmentAnswer(result, facts).map((text) => paragraph(text, style.columns));
  return `${answer}\n\n${table}\n${note}\n`;
}

/** What is best, and what the figures mean. */
export function investmentAnswer(
  { cells, best }: Investments,
  { currency, years, discountPct, pattern, afterTax }: InvestmentFacts,
): readonly [answer: string, note: string] {
  const [first] = cells as [Investment];
  const chosen = cells.find((cell) => cell.name === best)!;
  const basis = afterTax ? 'after tax' : 'before tax';
  const answer =
    chosen === first
      ? `Keep ${first.name}: no other cell earns its price in ${years} years.`
      : `${chosen.name} is worth most: ${moneyText(Math.round(chosen.increment!.npv), currency)} more than ${first.name} over ${years} years, ${basis}, at ${discountPct}% a year${chosen.verdict === 'pays' ? '' : '; whether it pays at all is not clear'}.`;
  const note = `Pattern ${pattern}. Money a week: contribution of the parts sold less labour and the running cost of stations and robot. Payback and present value against ${first.name}${currency === '' ? '' : `; money in ${currency}`}.`;
  return [answer, note];
}

export interface InvestmentFacts {
  readonly currency: string;
  readonly years: number;
  readonly discountPct: number;
  readonly pattern: string;
  readonly afterTax: boolean;
}
