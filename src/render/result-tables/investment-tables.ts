/** Cells as investments, as tables: parts, money, payback and present value; the cash flow by year. */

import type { Investment, Investments } from '../../core/cost/invest/investments.js';
import { amountText } from '../../core/model/amount-text.js';
import { type Column, figures, fileTable, readTable, words } from '../columns.js';
import { numberText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import type { ResultTable } from './result-table.js';

export const INVESTMENT_TABLES = ['investments.csv', 'investment-flows.csv'] as const;

export function investmentTables(result: Investments): ResultTable[] {
  const { cells } = result;
  const names = cells.map((cell) => cell.name);
  return [
    ...fileTable('investments.csv', investmentColumns(result), cells, {
      chart: {
        kind: 'column',
        title: `Present value against ${names[0]}`,
        of: 'cell',
        values: ['present_value'],
      },
    }),
    ...fileTable('investment-flows.csv', flowColumns(result), yearsOf(result), {
      chart: { kind: 'column', title: 'Cash flow by year', of: 'year', values: names },
    }),
  ];
}

function flowColumns({ cells }: Investments): Column<number>[] {
  return [
    figures<number>('year', 'year', 0, (year) => year),
    ...cells.map((cell) =>
      figures<number>(cell.name, cell.name, 0, (year) => cell.cashFlow[year] ?? null, { isMoney: true }),
    ),
  ];
}

function yearsOf({ cells }: Investments): number[] {
  return cells[0]!.cashFlow.map((_, year) => year);
}

export function investmentFlowTable(result: Investments): TableData {
  return readTable(flowColumns(result), yearsOf(result));
}

/** Nothing is paid back where nothing is spent. */
function paybackText({ increment }: Investment): string {
  if (increment === null || increment.cashFlow[0]! >= 0) return '-';
  const years = increment.paybackYears;
  return years === null ? 'never' : years < 0.05 ? '<0.1' : numberText(years, 1);
}

/** Whole money where people read. */
const money = (value: number): string => amountText(Math.round(value));

function investmentColumns({ best }: Investments): Column<Investment>[] {
  return [
    words('cell', 'cell', (c) => c.name),
    figures('parts_per_week', 'parts\na week', 0, (c) => c.partsPerWeek),
    figures('margin_per_week', 'margin\na week', 0, (c) => c.moneyPerWeek, { isMoney: true }),
    figures('price', 'price', 0, (c) => c.price, { isMoney: true }),
    figures('payback_years', 'payback\nyears', 1, (c) => c.increment?.paybackYears ?? null, {
      isShown: () => true,
      text: paybackText,
      none: paybackText,
    }),
    figures('discounted_payback_years', undefined, 1, (c) => c.increment?.discountedPaybackYears ?? null),
    figures('present_value', 'present\nvalue', 0, (c) => c.increment?.npv ?? null, { isMoney: true }),
    figures('present_value_low', 'at 95%\nconfidence', 0, (c) => c.npvLow, {
      isMoney: true,
      text: (c) => `${money(c.npvLow!)} to ${money(c.npvHigh!)}`,
    }),
    figures('present_value_high', undefined, 0, (c) => c.npvHigh, { isMoney: true }),
    words('verdict', 'verdict', (c) => c.verdict),
    words('not_clear_by', undefined, (c) => c.unclearBy),
    words('best', undefined, (c) => c.name === best),
  ];
}

export function investmentTable(result: Investments): TableData {
  return readTable(investmentColumns(result), result.cells);
}
