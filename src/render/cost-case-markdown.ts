/** The cost case as a Markdown page, for whoever decides about the money. */
import type { CostCaseFound } from '../core/cost/result.js';
import { markdownTable, markdownText } from './markdown-table.js';
import { moneyText, numberText } from './numbers.js';

export function costCaseMarkdown(result: CostCaseFound): string {
  const unit = result.currency === '' ? '' : ` (${markdownText(result.currency)})`;
  const list = (items: readonly string[]) => items.map((item) => `- ${markdownText(item)}`).join('\n');
  return [
    '# Interface boxes or one harness',
    markdownText(result.recommendation),
    `## The ways compared${unit}`,
    alternatives(result),
    `## Cash flow by year${unit}`,
    flows(result),
    `## Machine by machine${unit}`,
    stations(result),
    ...(result.warnings.length > 0 ? ['## Warnings', list(result.warnings)] : []),
    '## What was assumed',
    list(result.assumptions),
  ].join('\n\n');
}

function alternatives(result: CostCaseFound): string {
  return markdownTable(
    ['way', 'boxes', 'spent at the start', 'running cost a year', 'all costs at present value', 'in budget'],
    result.alternatives.map((a) => [
      a.name,
      numberText(a.boxes),
      moneyText(a.capital),
      moneyText(a.annualCost),
      moneyText(a.npvCost),
      a.withinBudget ? 'yes' : 'no',
    ]),
  );
}

function flows(result: CostCaseFound): string {
  return markdownTable(
    ['year', ...result.alternatives.map((a) => a.name)],
    result.increment.cashFlow.map((_, year) => [
      `${year}`,
      ...result.alternatives.map((a) => moneyText(Math.round(a.cashFlow[year]!))),
    ]),
  );
}

function stations(result: CostCaseFound): string {
  const even = result.breakEvenChangeovers.byStation;
  return markdownTable(
    [
      'machine',
      'changeovers a year',
      'boxes',
      'saved min a year',
      'saving a year',
      'spent',
      'present value',
      'breaks even at',
    ],
    result.byStation.map((s) => {
      const count = even[s.station] ?? null;
      return [
        s.station,
        numberText(s.changeoversPerYear, Number.isInteger(s.changeoversPerYear) ? 0 : 1),
        numberText(s.boxes),
        numberText(s.savedMinPerYear),
        moneyText(Math.round(s.savingPerYear)),
        moneyText(Math.round(s.capital)),
        moneyText(Math.round(s.npv)),
        count === null ? 'never' : numberText(Math.ceil(count - 1e-9)),
      ];
    }),
  );
}
