// Cells as investments, worked by hand.
import { describe, expect, it } from 'vitest';
import {
  type CellMoney,
  type InvestmentTerms,
  weighInvestments,
} from '../../../../src/core/cost/invest/investments.js';

const cell = (name: string, moneyPerWeek: number, more: Partial<CellMoney> = {}): CellMoney => ({
  name,
  partsPerWeek: 100,
  moneyPerWeek,
  moneyPerWeekLow: null,
  moneyPerWeekHigh: null,
  moneyPerWeekOpen: moneyPerWeek,
  price: 0,
  lifeYears: 5,
  yearlyCost: 0,
  salvage: 0,
  ...more,
});
const TERMS: InvestmentTerms = {
  horizonYears: 5,
  discount: 0.1,
  tax: 0,
  depreciation: 'straight-line',
  inflation: 0,
  depreciationYears: 5,
  depreciationHalfYear: false,
  weeksPerYear: 52,
};
const NOW = cell('now', 1000);
const BETTER = cell('better', 1200, { price: 10_000, lifeYears: 3, yearlyCost: 500, salvage: 1000 });
const worth = (flows: readonly number[], rate = 0.1) =>
  flows.reduce((sum, flow, year) => sum + flow / (1 + rate) ** year, 0);

describe('one cell against the one that is there', () => {
  it('bought again after three years; a third of the second life is left at the end', () => {
    const { cells, best } = weighInvestments([NOW, BETTER], TERMS);
    // 200 a week more: 10,400 a year less 500; the second one fetches 1,000 and a third of 9,000.
    const flows = [-10_000, 9900, 9900, 9900 + 1000 - 10_000, 9900, 9900 + 4000];
    flows.forEach((flow, year) => {
      expect(cells[1]!.increment!.cashFlow[year]).toBeCloseTo(flow, 9);
    });
    expect(cells[1]!.increment!.npv).toBeCloseTo(worth(flows), 9);
    expect(cells[1]!.increment!.paybackYears).toBeCloseTo(1 + 100 / 9900, 9);
    expect(best).toBe('better');
    expect(cells[0]).toMatchObject({ increment: null, verdict: 'what is there' });
  });

  it('after tax: yearly money at 70%, a fifth written off a year, the rest set against what it fetches', () => {
    const lasting = { ...BETTER, lifeYears: 5 };
    const { cells } = weighInvestments([NOW, lasting], { ...TERMS, tax: 0.3 });
    const year = 9900 * 0.7 + 0.3 * 2000;
    const flows = [-10_000, year, year, year, year, year + 1000 - 0.3 * 1000];
    flows.forEach((flow, k) => {
      expect(cells[1]!.increment!.cashFlow[k]).toBeCloseTo(flow, 9);
    });
  });

  it('says how sure it is by both ends of the simulated difference', () => {
    const verdict = (low: number, high: number) =>
      weighInvestments([NOW, { ...BETTER, moneyPerWeekLow: low, moneyPerWeekHigh: high }], TERMS).cells[1]!
        .verdict;
    expect(verdict(1150, 1250)).toBe('pays');
    expect(verdict(1000, 1250)).toBe('not clear');
    const dear = { ...BETTER, price: 90_000, moneyPerWeekLow: 1190, moneyPerWeekHigh: 1210 };
    const { cells, best } = weighInvestments([NOW, dear], TERMS);
    expect(cells[1]!.verdict).toBe('does not pay');
    expect(best).toBe('now');
  });

  it('prices rise: yearly money, what is bought again, and what it fetches', () => {
    const { cells } = weighInvestments([NOW, BETTER], { ...TERMS, inflation: 0.04 });
    const at = (year: number) => 1.04 ** year;
    const flows = [-10_000, ...[1, 2, 3, 4, 5].map((year) => 9900 * at(year))];
    flows[3] = flows[3]! + (1000 - 10_000) * at(3);
    flows[5] = flows[5]! + 4000 * at(5);
    flows.forEach((flow, year) => {
      expect(cells[1]!.increment!.cashFlow[year]).toBeCloseTo(flow, 8);
    });
  });

  it('is not clear where a better sequence for the cell that earns less could turn it', () => {
    const unclear = (now: Partial<CellMoney>, better: Partial<CellMoney>) => {
      const { verdict, unclearBy } = weighInvestments(
        [
          { ...NOW, ...now },
          { ...BETTER, ...better },
        ],
        TERMS,
      ).cells[1]!;
      return `${verdict} ${unclearBy}`;
    };
    expect(unclear({}, {})).toBe('pays null');
    expect(unclear({ moneyPerWeekOpen: 1150 }, {})).toBe('not clear sequence');
    expect(unclear({ moneyPerWeekOpen: null }, {})).toBe('not clear sequence');
    expect(unclear({}, { moneyPerWeekOpen: 1400 })).toBe('pays null');
    expect(unclear({}, { price: 90_000 })).toBe('does not pay null');
    expect(unclear({}, { price: 30_000, moneyPerWeekOpen: 1500 })).toBe('not clear sequence');
    expect(unclear({ moneyPerWeekOpen: 1150 }, { moneyPerWeekLow: 1000, moneyPerWeekHigh: 1300 })).toBe(
      'not clear chance',
    );
  });

  it('the order of the others does not matter, and one that costs and brings nothing changes nothing', () => {
    const same = cell('same', 1000);
    const a = weighInvestments([NOW, BETTER, same], TERMS).cells;
    const b = weighInvestments([NOW, same, BETTER], TERMS).cells;
    expect(a[1]).toEqual(b[2]);
    expect(a[2]!.increment!.npv).toBe(0);
    expect(a[2]!.verdict).toBe('does not pay');
  });
});
