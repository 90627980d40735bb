/**
 * Cells weighed against each other as investments: the first is what is there, each of the others what would be bought in
 * its place. Parts and hours come from the floor; the money from the same finance code as the cost case.
 */
import { type DepreciationMethod, depreciation } from '../finance/depreciation.js';
import { incrementOf } from '../finance/incremental-analysis.js';
import { incrementResult } from '../increment-result.js';
import type { IncrementResult } from '../result.js';

/** What one cell takes in and costs. */
export interface CellMoney {
  readonly name: string;
  /** Good parts a week. */
  readonly partsPerWeek: number;
  /** Contribution of the parts sold less labour and running cost of the stations, a week. */
  readonly moneyPerWeek: number;
  /** The same where the simulated difference in parts to the first cell is at the ends of its interval; null = not simulated. */
  readonly moneyPerWeekLow: number | null;
  readonly moneyPerWeekHigh: number | null;
  /** Bought in year 0, and again at the end of each life. */
  readonly price: number;
  readonly lifeYears: number;
  readonly yearlyCost: number;
  /** What it fetches at the end of its life. */
  readonly salvage: number;
}

export interface InvestmentTerms {
  readonly horizonYears: number;
  /** Fractions. */
  readonly discount: number;
  readonly tax: number;
  readonly depreciation: DepreciationMethod;
  readonly depreciationYears: number;
  readonly weeksPerYear: number;
}

export interface Investment extends CellMoney {
  /** By year from 0, after tax where there is one. */
  readonly cashFlow: readonly number[];
  /** Against the first cell; null for the first itself. */
  readonly increment: IncrementResult | null;
  readonly npvLow: number | null;
  readonly npvHigh: number | null;
  readonly verdict: 'what is there' | 'pays' | 'does not pay' | 'not clear';
}

export interface Investments {
  readonly cells: readonly Investment[];
  /** Largest present value against the first; the first where none is above 0. */
  readonly best: string;
}

/** @throws RangeError where a life or the horizon is below a year */
export function weighInvestments(cells: readonly CellMoney[], terms: InvestmentTerms): Investments {
  const [first] = cells;
  if (first === undefined) throw new RangeError('there must be at least one cell');
  const base = flowsOf(first, first.moneyPerWeek, terms);
  const against = (cell: CellMoney, moneyPerWeek: number) =>
    incrementOf(flowsOf(cell, moneyPerWeek, terms), base);
  const rates = { discount: terms.discount, finance: terms.discount, reinvest: terms.discount };
  const weighed = cells.map((cell): Investment => {
    const cashFlow = flowsOf(cell, cell.moneyPerWeek, terms);
    if (cell === first)
      return { ...cell, cashFlow, increment: null, npvLow: null, npvHigh: null, verdict: 'what is there' };
    const increment = incrementResult(against(cell, cell.moneyPerWeek), rates);
    const at = (money: number | null) =>
      money === null ? null : incrementResult(against(cell, money), rates).npv;
    const [npvLow, npvHigh] = [at(cell.moneyPerWeekLow), at(cell.moneyPerWeekHigh)];
    return {
      ...cell,
      cashFlow,
      increment,
      npvLow,
      npvHigh,
      verdict: verdictOf(increment.npv, npvLow, npvHigh),
    };
  });
  const worth = (cell: Investment) => cell.increment?.npv ?? 0;
  return {
    cells: weighed,
    best: weighed.reduce((most, cell) => (worth(cell) > worth(most) ? cell : most)).name,
  };
}

function verdictOf(npv: number, low: number | null, high: number | null): Investment['verdict'] {
  const ends = [npv, low ?? npv, high ?? npv];
  if (ends.every((value) => value > 0)) return 'pays';
  return ends.every((value) => value <= 0) ? 'does not pay' : 'not clear';
}

/**
 * Bought in year 0 and again whenever a life is over before the horizon; what is left of the last life at the horizon
 * counts as the same share of what was paid above the salvage, and that.
 */
function flowsOf(cell: CellMoney, moneyPerWeek: number, terms: InvestmentTerms): number[] {
  const { horizonYears: years, tax, weeksPerYear } = terms;
  if (!(years >= 1 && cell.lifeYears >= 1)) throw new RangeError('horizon and life must be a year or more');
  const yearly = moneyPerWeek * weeksPerYear - cell.yearlyCost;
  const flows = Array.from({ length: years + 1 }, (_, year) => (year === 0 ? 0 : yearly * (1 - tax)));
  for (let bought = 0; bought < years; bought += cell.lifeYears) {
    flows[bought] = flows[bought]! - cell.price;
    const end = Math.min(years, bought + cell.lifeYears);
    const left = (bought + cell.lifeYears - end) / cell.lifeYears;
    const sold = cell.salvage + left * (cell.price - cell.salvage);
    const written = depreciation(terms.depreciation, cell.price, { years: terms.depreciationYears });
    let book = cell.price;
    for (let year = bought + 1; year <= end; year++) {
      const amount = written[year - bought - 1] ?? 0;
      book -= amount;
      flows[year] = flows[year]! + tax * amount;
    }
    const onSale = terms.depreciation === 'none' ? 0 : tax * (sold - book);
    flows[end] = flows[end]! + sold - onSale;
  }
  return flows;
}
