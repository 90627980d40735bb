/** Cash flow by year of the watched way, held against moving the harness. */
import type { CostCaseFound } from '../../core/cost/result.js';
import { cashFlowChart } from '../charts/cash-flow-chart.js';
import type { ChartBlock, TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { flowTable } from '../result-tables/cost-tables.js';
import { type CaseView, discountText, inMoney, wayInWords } from './case-view.js';

/** @param data where no table beside the chart has its figures */
export function cashFlowBlock(view: CaseView, data?: TableBlock): ChartBlock {
  const { result, watched, numbers } = view;
  const texts = { way: watched, name: wayInWords(view, watched), rate: discountText(view) };
  return { ...cashFlowChart(result, texts, numbers), ...(data ? { data } : {}) };
}

export function flowBlock(view: CaseView, basis: CostCaseFound['basis'] = view.result.basis): TableBlock {
  const caption = `Cash flow by year ${basis}${inMoney(view)}; money out is negative; rounded after adding up`;
  return tableBlock(caption, flowTable(view, basis));
}
