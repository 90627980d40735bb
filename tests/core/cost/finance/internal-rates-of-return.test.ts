import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { internalRatesOfReturn } from '../../../../src/core/cost/finance/internal-rates-of-return.js';
import { netPresentValue } from '../../../../src/core/cost/finance/net-present-value.js';

/** Flows whose present value is zero exactly at the given rates: the product of (x - 1/(1+r)), scaled. */
function flowsWithRates(rates: readonly number[], scale = 1): number[] {
  let flows = [scale];
  for (const rate of rates) {
    const next = Array<number>(flows.length + 1).fill(0);
    flows.forEach((flow, k) => {
      next[k] = next[k]! - flow;
      next[k + 1] = next[k + 1]! + flow * (1 + rate);
    });
    flows = next;
  }
  return flows;
}

describe('internal rates of return', () => {
  it('double roots, also where rounding has parted or lifted them', () => {
    expect(internalRatesOfReturn([-1, 2.2, -1.21])).toEqual([0.1]);
    expect(internalRatesOfReturn([-1, 2.2, -(1.1 * 1.1)])[0]).toBeCloseTo(0.1, 12);
    expect(internalRatesOfReturn([-1, 2.2, -(1.1 * 1.1)]).length).toBe(1);
    expect(internalRatesOfReturn([-1, 2.2, -1.2099999999999997]).length).toBe(1);
    expect(internalRatesOfReturn([-1, 3.6, -4.31, 1.716])).toEqual([0.1, 0.2, 0.3]);
    expect(internalRatesOfReturn([1, -3.3, 3.63, -1.331])).toEqual([0.1]);
  });
  it('double and triple roots beside single ones leave those as they are', () => {
    // (-1 + 1.1x)^2 (-1 + 1.5x) and (-1 + 1.5x)^2 (-1 + 1.1x), multiplied out.
    expect(internalRatesOfReturn([-1, 3.7, -4.51, 1.815])).toEqual([0.1, 0.5]);
    expect(internalRatesOfReturn([-1, 4.1, -5.55, 2.475])).toEqual([0.1, 0.5]);
    // (-1 + 1.1x)^2 (-1 + 1.5x)^2 (-1 + 1.25x).
    const twice = [-1, 6.45, -16.56, 21.155, -13.4475, 3.403125];
    expect(netPresentValue(0.25, twice)).toBeCloseTo(0, 12);
    expect(internalRatesOfReturn(twice)).toEqual([0.1, 0.25, 0.5]);
  });
  it('a triple root that rounding has moved is where it was', () => {
    // By one unit in the last place the single crossing moves by its cube root, 6e-6; the turning points by 1e-8.
    for (const last of [1.3309999999999997, 1.331]) {
      const rates = internalRatesOfReturn([-1, 3.3, -3.63, last]);
      expect(rates.length).toBe(1);
      expect(Math.abs(rates[0]! - 0.1)).toBeLessThan(1e-7);
    }
    // (-1 + 1.1x)^3 times (-1 + 1.5x), and times (-1 + x).
    for (const [flows, single] of [
      [[1, -4.8, 8.58, -6.776, 1.9964999999999997], 0.5],
      [[1, -4.3, 6.93, -4.961, 1.3310000000000002], 0],
    ] as const) {
      const rates = internalRatesOfReturn(flows);
      expect(rates.length).toBe(2);
      expect(Math.min(...rates.map((rate) => Math.abs(rate - 0.1)))).toBeLessThan(1e-6);
      expect(Math.min(...rates.map((rate) => Math.abs(rate - single)))).toBeLessThan(1e-9);
    }
  });
  it('a near miss beyond rounding is no rate', () => {
    expect(internalRatesOfReturn([-1, 2, -1.00000000000001])).toEqual([]);
    expect(internalRatesOfReturn([-1, 2, -0.99999999999999]).length).toBe(2);
  });
  it('close rates are told apart', () => {
    const rates = internalRatesOfReturn([-1, 2.200001, -1.2100011]);
    expect(rates.length).toBe(2);
    expect(rates[0]).toBeCloseTo(0.1, 12);
    expect(rates[1]).toBeCloseTo(0.100001, 12);
  });
  it('rates near -100% and very large ones', () => {
    expect(internalRatesOfReturn([-1e12, 1])[0]! + 1).toBeCloseTo(1e-12, 15);
    expect(internalRatesOfReturn([-1e-6, 1e9])[0]! / 1e15).toBeCloseTo(1, 12);
    const wide = internalRatesOfReturn(flowsWithRates([-0.999, 0.05, 1e6]));
    expect(wide.length).toBe(3);
    expect(wide[0]).toBeCloseTo(-0.999, 9);
    expect(wide[1]).toBeCloseTo(0.05, 9);
    expect(wide[2]! / 1e6).toBeCloseTo(1, 9);
  });
  it('zeros at the ends, only one year, all zero, a rate of nothing', () => {
    expect(internalRatesOfReturn([0, 0, -100, 110, 0])).toEqual([0.1]);
    expect(internalRatesOfReturn([5])).toEqual([]);
    expect(internalRatesOfReturn([0, 0])).toEqual([]);
    expect(internalRatesOfReturn([-100, 0, 100])).toEqual([0]);
    expect(internalRatesOfReturn([100, 20, 3])).toEqual([]);
  });
  it('a long row of many sign changes', () => {
    const flows = Array.from({ length: 121 }, (_, k) => (k % 2 === 0 ? 100 + k : -101 - k / 2));
    for (const rate of internalRatesOfReturn(flows))
      expect(Math.abs(netPresentValue(rate, flows))).toBeLessThan(1e-6);
  });
  it('refuses what is not a number', () => {
    expect(() => internalRatesOfReturn([])).toThrow('flows must hold at least the amount of year 0');
    expect(() => internalRatesOfReturn([-1, Number.NaN])).toThrow('the flow of year 1 is NaN');
    expect(() => internalRatesOfReturn([Number.POSITIVE_INFINITY])).toThrow('must be a finite number');
  });
  it('finds all rates that the flows were built from, at any scale', () => {
    const rate = fc.integer({ min: -90, max: 300 });
    fc.assert(
      fc.property(
        fc.uniqueArray(rate, { minLength: 1, maxLength: 5 }),
        fc.constantFrom(1, 1e-9, 1e9),
        (percents, scale) => {
          // (1 + r) in whole hundredths, so that the flows are exact decimals up to rounding.
          const sorted = [...percents].sort((a, b) => a - b);
          const spaced = sorted.filter((pct, k) => k === 0 || pct - sorted[k - 1]! >= 5);
          const found = internalRatesOfReturn(
            flowsWithRates(
              spaced.map((pct) => pct / 100),
              scale,
            ),
          );
          expect(found.length).toBe(spaced.length);
          found.forEach((value, k) => {
            expect(Math.abs(value - spaced[k]! / 100)).toBeLessThan(1e-6);
          });
        },
      ),
      { numRuns: 150 },
    );
  });
  it('every rate found makes the present value vanish, and no sign change of it is missed', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 13 }),
        (flows) => {
          const found = internalRatesOfReturn(flows);
          const size = (rate: number) =>
            flows.reduce((sum, flow, year) => sum + Math.abs(flow) / (1 + rate) ** year, 0);
          for (const rate of found)
            expect(Math.abs(netPresentValue(rate, flows))).toBeLessThanOrEqual(1e-10 * size(rate));
          const grid = Array.from({ length: 600 }, (_, k) => 1e-3 * 1.03 ** k - 1 + 1e-9);
          for (let k = 1; k < grid.length; k++) {
            const [from, to] = [grid[k - 1]!, grid[k]!];
            const turned = netPresentValue(from, flows) > 0 !== netPresentValue(to, flows) > 0;
            if (turned && netPresentValue(from, flows) !== 0)
              expect(found.some((rate) => rate >= from - 1e-12 && rate <= to + 1e-12 * to)).toBe(true);
          }
        },
      ),
      { numRuns: 100 },
    );
  });
});
