/** Cells as investments: one line each, and what is best. */

import type { Investment, Investments } from '../core/cost/invest/investments.js';
import type { Program } from '../core/floor/robot.js';
import { amountText } from '../core/model/amount-text.js';
import { paragraph } from './paragraph.js';
import { investmentTable } from './result-tables/investment-tables.js';
import type { TextStyle } from './text-style.js';
import { printTable } from './text-table.js';

export function renderInvestments(result: Investments, facts: InvestmentFacts, style: TextStyle): string {
  const table = printTable(investmentTable(result), style);
  const [answer, note] = investmentAnswer(result, facts).map((text) => paragraph(text, style.columns));
  return `${answer}\n\n${table}\n${note}\n`;
}

/** What could turn a verdict that is not clear. */
const UNCLEAR = {
  chance: 'chance could turn it',
  sequence: 'a better robot sequence than the one found, for the cell that earns less, could turn it',
} as const;

/** What is best, and what the figures mean. */
export function investmentAnswer(
  { cells, best }: Investments,
  { currency, years, discountPct, pattern, afterTax, programs }: InvestmentFacts,
): readonly [answer: string, note: string] {
  const [first] = cells as [Investment];
  const chosen = cells.find((cell) => cell.name === best)!;
  const basis = afterTax ? 'after tax' : 'before tax';
  const answer =
    chosen === first
      ? `Keep ${first.name}: no other cell earns its price in ${years} years.`
      : `${chosen.name} is worth most: ${amountText(Math.round(chosen.increment!.npv), currency)} more than ${first.name} over ${years} years, ${basis}, at ${discountPct}% a year${chosen.verdict === 'pays' ? '' : '; whether it pays at all is not clear'}.`;
  const unclear = (['chance', 'sequence'] as const).flatMap((by) => {
    const names = cells.filter((cell) => cell.unclearBy === by).map(({ name }) => name);
    return names.length === 0 ? [] : [` Not clear, ${names.join(', ')}: ${UNCLEAR[by]}.`];
  });
  const robots = cells.map(({ name }, k) => `${name} \`${programs[k]!}\``).join(', ');
  const note = `Pattern ${pattern}. Robot program: ${robots}. Parts a week with downtime and variation. Margin a week: contribution of the parts sold less labour and the running cost of stations and robot. Payback and present value against ${first.name}${currency === '' ? '' : `; money in ${currency}`}.${unclear.join('')}`;
  return [answer, note];
}

export interface InvestmentFacts {
  readonly currency: string;
  readonly years: number;
  readonly discountPct: number;
  readonly pattern: string;
  readonly afterTax: boolean;
  /** What the robot of each cell is programmed to do, in their order. */
  readonly programs: readonly Program[];
}
