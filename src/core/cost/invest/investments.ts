/**
 * Cells weighed against each other as investments: the first is what is there, each of the others what would be bought in
 * its place. Parts and hours come from the floor; the money from the same finance code as the cost case.
 */

import { YEAR_WEEKS } from '../../calendar/year.js';
import { power } from '../../numbers/functions.js';
import { type CaseInputs, num } from '../case-inputs.js';
import { discountRate } from '../discount-rate.js';
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
  /** The same with all that a better robot sequence could add; null = no bound is known. */
  readonly moneyPerWeekOpen: number | null;
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
  /** Yearly rise of all amounts after year 0. */
  readonly inflation: number;
  readonly depreciation: DepreciationMethod;
  readonly depreciationYears: number;
  readonly depreciationHalfYear: boolean;
  readonly weeksPerYear: number;
}

/** The terms of the cost case: its rate on the basis that decides, its tax, its prices. */
export function investmentTerms(inputs: CaseInputs): InvestmentTerms {
  const tax = num(inputs, 'tax_pct') / 100;
  return {
    horizonYears: num(inputs, 'horizon_years'),
    discount: discountRate(inputs, tax > 0 ? 'after tax' : 'before tax'),
    tax,
    inflation: num(inputs, 'inflation_pct') / 100,
    depreciation: inputs.depreciation,
    depreciationYears: num(inputs, 'depreciation_years'),
    depreciationHalfYear: inputs.depreciationHalfYear,
    weeksPerYear: YEAR_WEEKS,
  };
}

export interface Investment extends CellMoney {
  /** By year from 0, after tax where there is one. */
  readonly cashFlow: readonly number[];
  /** Against the first cell; null for the first itself. */
  readonly increment: IncrementResult | null;
  readonly npvLow: number | null;
  readonly npvHigh: number | null;
  readonly verdict: 'what is there' | 'pays' | 'does not pay' | 'not clear';
  /** What could turn it where it is not clear: chance, or a better robot sequence than those found. */
  readonly unclearBy: 'chance' | 'sequence' | null;
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
  const rates = { discount: terms.discount, finance: terms.discount, reinvest: terms.discount };
  const against = (cell: CellMoney, moneyPerWeek: number, than = base) =>
    incrementResult(incrementOf(flowsOf(cell, moneyPerWeek, terms), than), rates);
  const improved = first.moneyPerWeekOpen === null ? null : flowsOf(first, first.moneyPerWeekOpen, terms);
  const weighed = cells.map((cell): Investment => {
    const cashFlow = flowsOf(cell, cell.moneyPerWeek, terms);
    if (cell === first)
      return {
        ...{ ...cell, cashFlow, increment: null, npvLow: null, npvHigh: null },
        ...{ verdict: 'what is there', unclearBy: null },
      };
    const increment = against(cell, cell.moneyPerWeek);
    const at = (money: number | null) => (money === null ? null : against(cell, money).npv);
    const [npvLow, npvHigh] = [at(cell.moneyPerWeekLow), at(cell.moneyPerWeekHigh)];
    const pays = increment.npv > 0;
    const turned = pays
      ? improved === null || against(cell, cell.moneyPerWeek, improved).npv <= 0
      : cell.moneyPerWeekOpen === null || against(cell, cell.moneyPerWeekOpen).npv > 0;
    const byChance = [npvLow, npvHigh].some((npv) => npv !== null && npv > 0 !== pays);
    const unclearBy = byChance ? 'chance' : turned ? 'sequence' : null;
    const verdict = unclearBy !== null ? 'not clear' : pays ? 'pays' : 'does not pay';
    return { ...cell, cashFlow, increment, npvLow, npvHigh, verdict, unclearBy };
  });
  const worth = (cell: Investment) => cell.increment?.npv ?? 0;
  return {
    cells: weighed,
    best: weighed.reduce((most, cell) => (worth(cell) > worth(most) ? cell : most)).name,
  };
}

/**
 * Bought in year 0 and again whenever a life is over before the horizon; what is left of the last life at the horizon
 * counts as the same share of what was paid above the salvage, and that.
 */
function flowsOf(cell: CellMoney, moneyPerWeek: number, terms: InvestmentTerms): number[] {
  const {
    horizonYears: years,
    tax,
    inflation,
    weeksPerYear,
    depreciationYears,
    depreciationHalfYear,
  } = terms;
  if (!(years >= 1 && cell.lifeYears >= 1)) throw new RangeError('horizon and life must be a year or more');
  const yearly = (moneyPerWeek * weeksPerYear - cell.yearlyCost) * (1 - tax);
  const risen = (year: number) => power(1 + inflation, year);
  const flows = Array.from({ length: years + 1 }, (_, year) => (year === 0 ? 0 : yearly * risen(year)));
  for (let bought = 0; bought < years; bought += cell.lifeYears) {
    const price = cell.price * risen(bought);
    flows[bought] = flows[bought]! - price;
    const end = Math.min(years, bought + cell.lifeYears);
    const left = (bought + cell.lifeYears - end) / cell.lifeYears;
    const sold = (cell.salvage + left * (cell.price - cell.salvage)) * risen(end);
    const written = depreciation(terms.depreciation, price, {
      years: depreciationYears,
      halfYear: depreciationHalfYear,
    });
    let book = price;
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
