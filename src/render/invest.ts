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
      paybackText(cell.increment),
      cell.increment === null ? '-' : money(cell.increment.npv),
      cell.npvLow === null ? '-' : `${money(cell.npvLow)} to ${money(cell.npvHigh!)}`,
      cell.verdict,
    ]),
    style,
  );
  const [answer, note] = investmentAnswer(result, facts).map((text) => paragraph(text, style.columns));
  return `${answer}\n\n${table}\n${note}\n`;
}

/** Nothing is paid back where nothing is spent. */
function paybackText(increment: Investment['increment']): string {
  if (increment === null || increment.cashFlow[0]! >= 0) return '-';
  const years = increment.paybackYears;
  return years === null ? 'never' : years < 0.05 ? '<0.1' : numberText(years, 1);
}

/** What could turn a verdict that is not clear. */
const UNCLEAR = {
  chance: 'chance could turn it',
  sequence: 'a better robot sequence than the one found, for the cell that earns less, could turn it',
} as const;

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
  const unclear = (['chance', 'sequence'] as const).flatMap((by) => {
    const names = cells.filter((cell) => cell.unclearBy === by).map(({ name }) => name);
    return names.length === 0 ? [] : [` Not clear, ${names.join(', ')}: ${UNCLEAR[by]}.`];
  });
  const note = `Pattern ${pattern}. Parts a week with downtime and variation. Money a week: contribution of the parts sold less labour and the running cost of stations and robot. Payback and present value against ${first.name}${currency === '' ? '' : `; money in ${currency}`}.${unclear.join('')}`;
  return [answer, note];
}

export interface InvestmentFacts {
  readonly currency: string;
  readonly years: number;
  readonly discountPct: number;
  readonly pattern: string;
  readonly afterTax: boolean;
}
