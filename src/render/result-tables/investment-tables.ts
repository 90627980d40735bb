/** Cells as investments, as tables: parts, money, payback and present value; the cash flow by year. */

import type { Investment, Investments } from '../../core/cost/invest/investments.js';
import { amountText } from '../../core/model/amount-text.js';
import { type Column, declared, figures, words } from '../columns.js';
import { numberText } from '../numbers.js';
import { drawn, type ResultTable } from './result-table.js';

function flowColumns({ cells }: Investments): Column<number>[] {
  return [
    figures<number>('year', 'year', 0, (year) => year),
    ...cells.map((cell) =>
      figures<number>(cell.name, cell.name, 0, (year) => cell.cashFlow[year] ?? null, { isMoney: true }),
    ),
  ];
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

export const investmentTable = declared('investments.csv', investmentColumns, ({ cells }) => cells);
export const investmentFlowTable = declared('investment-flows.csv', flowColumns, ({ cells }: Investments) =>
  cells[0]!.cashFlow.map((_, year) => year),
);

export const INVESTMENT_TABLES = [investmentTable.file, investmentFlowTable.file];

export function investmentTables(result: Investments): ResultTable[] {
  const names = result.cells.map((cell) => cell.name);
  const charts = [
    drawn('column', `Present value against ${names[0]}`, 'cell', ['present_value']),
    drawn('column', 'Cash flow by year', 'year', names),
  ];
  return [investmentTable, investmentFlowTable].flatMap((table, k) =>
    table.inFile(result).map((found) => ({ ...found, ...charts[k] })),
  );
}
