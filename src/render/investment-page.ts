/** Cells as investments as a page of its own: what is best, what each is worth and how sure, the cash flow by year. */
import type { Investments } from '../core/cost/invest/investments.js';
import { barsChart } from './charts/bars-chart.js';
import { type Document, lead, note } from './document/blocks.js';
import { tableBlock } from './document/table-block.js';
import { type InvestmentFacts, investmentAnswer } from './invest.js';
import { countText } from './numbers.js';
import { investmentFlowTable, investmentTable } from './result-tables/investment-tables.js';
import { shortened } from './shortened.js';

export function investmentPage(result: Investments, facts: InvestmentFacts): Document {
  const { cells } = result;
  const [answer, remark] = investmentAnswer(result, facts);
  const [first, ...others] = cells;
  const unit = facts.currency === '' ? '' : `, ${facts.currency}`;
  return {
    title: 'Cells as investments',
    subtitle: `${countText(cells.length, 'cell')}: ${cells.map(({ name }) => name).join('; ')}. Estimates for a decision.`,
    blocks: [
      lead(answer),
      tableBlock(`Each cell against ${first!.name}${unit}`, investmentTable(result), { wide: true }),
      note(remark),
      barsChart({
        title: `Present value against ${shortened(first!.name, 28)}`,
        unit: `present value over ${countText(facts.years, 'year')}${unit}`,
        rows: others.map(({ name, increment, npvLow, npvHigh }) => ({
          name,
          value: increment!.npv,
          low: npvLow,
          high: npvHigh,
        })),
        note: 'Line: 95% confidence of the simulated parts, carried into money. Left of 0 the cell does not earn its price.',
        digits: 0,
      }),
      tableBlock(`Cash flow by year${unit}; money out is negative`, investmentFlowTable(result)),
    ],
  };
}
