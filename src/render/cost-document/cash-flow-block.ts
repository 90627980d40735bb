/** Cash flow by year of the watched way, held against moving the harness. */
import { cashFlowChart } from '../charts/cash-flow-chart.js';
import type { ChartBlock } from '../document/blocks.js';
import { type CaseView, discountText, wayInWords } from './case-view.js';

export function cashFlowBlock(view: CaseView): ChartBlock {
  const { result, watched, numbers } = view;
  const texts = { way: watched, name: wayInWords(view, watched), rate: discountText(view) };
  return cashFlowChart(result, texts, numbers);
}
