/** The cash flow of a cost case by year, as a table. */
import type { CostCaseFound } from '../../core/cost/result.js';
import type { ResultTable } from './result-table.js';

export const COST_TABLES = ['cash-flow.csv'] as const;

/** Money out is negative. */
export function costTables({ alternatives, horizonYears }: CostCaseFound): ResultTable[] {
  const names = [
    ...alternatives.map((a) => a.name),
    ...alternatives.flatMap((a) => (a.increment ? [`${a.name} less the harness`] : [])),
  ];
  return [
    {
      file: 'cash-flow.csv',
      rows: [
        ['year', ...names],
        ...Array.from({ length: horizonYears + 1 }, (_, year) => [
          year,
          ...alternatives.map((a) => a.cashFlow[year]!),
          ...alternatives.flatMap((a) => (a.increment ? [a.increment.cashFlow[year]!] : [])),
        ]),
      ],
      money: names,
      chart: { kind: 'column', title: 'Cash flow by year', of: 'year', values: names },
    },
  ];
}
