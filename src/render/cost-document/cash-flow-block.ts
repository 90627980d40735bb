/** Cash flow by year of the watched way, held against moving the harness. */
import { cashFlowChart } from '../charts/cash-flow-chart.js';
import type { ChartBlock } from '../document/blocks.js';
import { type CaseView, wayInWords } from './case-view.js';

export function cashFlowBlock(view: CaseView): ChartBlock {
  const { result, watched, numbers } = view;
  return cashFlowChart(result, { way: watched, name: wayInWords(view, watched) }, numbers);
}
