/** Cells as investments, as tables: parts, money, payback and present value; the cash flow by year. */
import type { Investments } from '../../core/cost/invest/investments.js';
import type { CsvValue } from '../csv.js';
import type { ResultTable } from './result-table.js';

export const INVESTMENT_TABLES = ['investments.csv', 'investment-flows.csv'] as const;

export function investmentTables({ cells, best }: Investments): ResultTable[] {
  const names = cells.map((cell) => cell.name);
  return [
    {
      file: 'investments.csv',
      rows: [
        [
          'cell',
          'parts_per_week',
          'money_per_week',
          'price',
          'payback_years',
          'discounted_payback_years',
          'present_value',
          'present_value_low',
          'present_value_high',
          'verdict',
          'not_clear_by',
          'best',
        ],
        ...cells.map((c): CsvValue[] => [
          c.name,
          c.partsPerWeek,
          c.moneyPerWeek,
          c.price,
          c.increment?.paybackYears ?? null,
          c.increment?.discountedPaybackYears ?? null,
          c.increment?.npv ?? null,
          c.npvLow,
          c.npvHigh,
          c.verdict,
          c.unclearBy,
          c.name === best,
        ]),
      ],
      money: ['money_per_week', 'price', 'present_value', 'present_value_low', 'present_value_high'],
      chart: {
        kind: 'column',
        title: `Present value against ${names[0]}`,
        of: 'cell',
        values: ['present_value'],
      },
    },
    {
      file: 'investment-flows.csv',
      rows: [
        ['year', ...names],
        ...cells[0]!.cashFlow.map((_, year) => [year, ...cells.map((c) => c.cashFlow[year] ?? null)]),
      ],
      money: names,
      chart: { kind: 'column', title: 'Cash flow by year', of: 'year', values: names },
    },
  ];
}
