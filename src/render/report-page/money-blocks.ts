/** Boxes that stay on the machines or one harness that is moved: the case at a glance, its tables, its doubt. */
import type { CostCaseTooLittle } from '../../core/cost/result.js';
import { missingLines, TOO_LITTLE } from '../cost-case.js';
import type { CaseView } from '../cost-document/case-view.js';
import { cashFlowBlock, flowBlock } from '../cost-document/cash-flow-block.js';
import { crossingBlock } from '../cost-document/crossing-block.js';
import {
  machineValueBlocks,
  measuresTable,
  optionsTable,
  selectionBlocks,
} from '../cost-document/results.js';
import { riskBlocks, turnsTable } from '../cost-document/sensitivity.js';
import { decisionText, glanceTable } from '../cost-document/summary.js';
import { tornadoBlock } from '../cost-document/tornado-block.js';
import { valueBlock } from '../cost-document/value-block.js';
import { type Block, beside, listOf, note, said, section } from '../document/blocks.js';
import type { PartView } from './report-view.js';

export function moneyBlocks({ results, money }: PartView<'costCase'>): Block[] {
  return [
    section('Boxes or one harness?'),
    ...(money === null ? lackingBlocks(results.costCase as CostCaseTooLittle | null) : caseBlocks(money)),
  ];
}

function lackingBlocks(costCase: CostCaseTooLittle | null): Block[] {
  if (costCase !== null) return [said(TOO_LITTLE), listOf(missingLines(costCase))];
  return [
    said(
      'There is no cost case. Fill in changeovers.csv and costs.csv to see what interface boxes on the machines are worth against moving one harness.',
    ),
  ];
}

function caseBlocks(view: CaseView): Block[] {
  const crossing = crossingBlock(view);
  return [
    said(decisionText(view)),
    glanceTable(view),
    ...(crossing === null ? [] : [crossing]),
    cashFlowBlock(view, flowBlock(view)),
    optionsTable(view),
    beside([
      [measuresTable(view, 'before tax')],
      ...(view.result.basis === 'after tax' ? [[measuresTable(view, 'after tax')]] : []),
    ]),
    ...machineValueBlocks(view),
    ...selectionBlocks(view),
    tornadoBlock(view),
    valueBlock(view),
    beside([[turnsTable(view)], riskBlocks(view)]),
    note(
      'Every cost item with its source, the minutes of each changeover, the cash flow by year, and every figure with its formula, file and line are in cost-case.html beside this page.',
    ),
  ];
}
