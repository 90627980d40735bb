/** The money measures refuse what they cannot mean, in plain words, and keep to their definitions at the edges. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { annualEquivalent, capitalRecovery } from '../../../../src/core/cost/finance/annual-equivalent.js';
import { type DepreciationMethod, depreciation } from '../../../../src/core/cost/finance/depreciation.js';
import { incrementalAnalysis } from '../../../../src/core/cost/finance/incremental-analysis.js';
import { modifiedRateOfReturn } from '../../../../src/core/cost/finance/modified-rate-of-return.js';
import { netPresentValue } from '../../../../src/core/cost/finance/net-present-value.js';
import {
  discountedPaybackYears,
  payBackHolds,
  paybackYears,
} from '../../../../src/core/cost/finance/payback-years.js';

describe('arguments', () => {
  it.each([
    [
      'a rate of -100%',
      () => netPresentValue(-1, [1]),
      'the rate is -1: it must be a finite fraction above -1',
    ],
    ['a rate that is no number', () => discountedPaybackYears(Number.NaN, [1]), 'the rate is NaN'],
    ['no flows', () => paybackYears([]), 'flows must hold at least the amount of year 0'],
    [
      'an endless flow',
      () => netPresentValue(0, [1, Number.POSITIVE_INFINITY]),
      'the flow of year 1 is Infinity',
    ],
    [
      'a value beyond numbers',
      () => netPresentValue(-0.999999, Array(60).fill(1e9)),
      'is too large for a number',
    ],
    ['year 0 alone', () => annualEquivalent(0.1, [5]), 'the number of years is 0'],
    ['a finance rate', () => modifiedRateOfReturn([-1, 2], -2, 0), 'the finance rate is -2'],
    ['a negative basis', () => depreciation('macrs-5', -1), 'the basis is -1'],
    [
      'salvage above basis',
      () => depreciation('straight-line', 5, { salvage: 6 }),
      'the salvage value 6 is above',
    ],
    [
      'an unknown method',
      () => depreciation('sum-of-digits' as DepreciationMethod, 5),
      'must be one of none, straight',
    ],
    ['an endless rate', () => capitalRecovery(Number.POSITIVE_INFINITY, 3), '(0.08 means 8%)'],
    ['half a year', () => capitalRecovery(0.1, 1.5), 'is 1.5: it must be a whole number of 1 or more'],
    [
      'an endless basis',
      () => depreciation('none', Number.POSITIVE_INFINITY),
      'a finite amount of 0 or more',
    ],
    ['no years', () => depreciation('straight-line', 5, { years: 0 }), 'the number of years is 0'],
    ['salvage below 0', () => depreciation('straight-line', 5, { salvage: -1 }), 'the salvage value is -1'],
    ['a reinvestment rate', () => modifiedRateOfReturn([-1, 2], 0, -1), 'the reinvestment rate is -1'],
    ['a modified rate of what is no number', () => modifiedRateOfReturn([Number.NaN], 0, 0), 'year 0 is NaN'],
    ['a payback of what is no number', () => payBackHolds([1, Number.NaN]), 'the flow of year 1 is NaN'],
    ['an increment of what is no number', () => incrementalAnalysis([{ name: 'a', flows: [] }], 0), 'year 0'],
    ['an increment at no rate', () => incrementalAnalysis([{ name: 'a', flows: [1] }], -1), 'the rate is -1'],
    ['no alternative', () => incrementalAnalysis([], 0.1), 'there must be at least one alternative'],
    [
      'a name twice',
      () =>
        incrementalAnalysis(
          [
            { name: 'a', flows: [1] },
            { name: 'a', flows: [2] },
          ],
          0.1,
        ),
      'every alternative must have its own name',
    ],
  ])('%s', (_what, call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});

describe('edges', () => {
  it('payback: nothing to pay back, never, on the dot, and a later relapse', () => {
    expect(paybackYears([0, 5])).toBe(0);
    expect(paybackYears([5, 5])).toBe(0);
    expect(paybackYears([0, -5])).toBe(0);
    expect(paybackYears([-10, 5])).toBeNull();
    expect(paybackYears([-10, 5, 5])).toBe(2);
    expect(payBackHolds([-10, 20, -15])).toBe(false);
    expect(payBackHolds([-10, 20, -10])).toBe(true);
    expect(payBackHolds([-10, 5])).toBe(true);
    expect(payBackHolds([-5, 5, -1])).toBe(false);
  });
  it('payback within a year goes by the straight line, discounted by what a year is worth', () => {
    expect(paybackYears([-1000, 400, 400, 400])).toBe(2.5);
    // 400 / 1.25 = 320, 400 / 1.25^2 = 256: 76 of 256 are left to pay after the first year.
    expect(discountedPaybackYears(0.25, [-396, 400, 400])).toBeCloseTo(1 + 76 / 256, 12);
  });
  it('payback holds in spite of rounding, and not where a cent is lacking', () => {
    expect(0.3 - 0.1 - 0.2).toBeLessThan(0);
    expect(payBackHolds([0.3, -0.1, -0.2])).toBe(true);
    expect(payBackHolds([300, -100, -200.01])).toBe(false);
    expect(3e11 + 0.3 - (1e11 + 0.1) - (2e11 + 0.2)).toBeLessThan(0);
    expect(payBackHolds([3e11 + 0.3, -1e11 - 0.1, -2e11 - 0.2])).toBe(true);
    expect(payBackHolds([-5, 5, 3, -3, 2])).toBe(true);
  });
  it('a straight line, whole and with half a year at either end', () => {
    expect(depreciation('straight-line', 100)).toEqual([20, 20, 20, 20, 20]);
    expect(depreciation('straight-line', 100, { years: 2, salvage: 60 })).toEqual([20, 20]);
    expect(depreciation('straight-line', 90, { years: 3, halfYear: true })).toEqual([15, 30, 30, 15]);
    expect(depreciation('straight-line', 5, { years: 1, salvage: 5 })).toEqual([0]);
    expect(depreciation('straight-line', 0, { years: 1 })).toEqual([0]);
  });
  it('the challenger wins by more than 0 only; short rows are 0 in the years that they lack', () => {
    const tie = incrementalAnalysis(
      [
        { name: 'dear', flows: [-100, 110] },
        { name: 'none', flows: [0] },
        { name: 'cheap', flows: [-50, 60] },
      ],
      0.1,
    );
    expect(tie.challenges).toEqual([
      {
        challenger: 'cheap',
        defender: 'none',
        increment: [-50, 60],
        npv: expect.closeTo(60 / 1.1 - 50, 9),
        rates: [0.2],
        winner: 'cheap',
      },
      {
        challenger: 'dear',
        defender: 'cheap',
        increment: [-50, 50],
        npv: expect.closeTo(50 / 1.1 - 50, 9),
        rates: [0],
        winner: 'cheap',
      },
    ]);
    expect(tie.best).toBe('cheap');
    const even = [
      { name: 'first', flows: [-10, 11] },
      { name: 'second', flows: [-10, 11] },
    ];
    expect(incrementalAnalysis(even, 0.1).best).toBe('first');
  });
  it('without interest a level payment is the plain share', () => {
    expect([capitalRecovery(0, 1), capitalRecovery(0, 8)]).toEqual([1, 0.125]);
    // 1 at the end of the year repays 1 / 1.25.
    expect(capitalRecovery(0.25, 1)).toBeCloseTo(1.25, 12);
    expect(capitalRecovery(-0.5, 1)).toBeCloseTo(0.5, 12);
  });
  it('modified rate: null without an outlay, an income or a year', () => {
    expect(modifiedRateOfReturn([5, 5], 0.1, 0.1)).toBeNull();
    expect(modifiedRateOfReturn([-5, -5], 0.1, 0.1)).toBeNull();
    expect(modifiedRateOfReturn([-5], 0.1, 0.1)).toBeNull();
  });
  it('small rates keep their digits', () => {
    // 1/n + rate (n + 1) / 2n to first order.
    expect(Math.abs(capitalRecovery(1e-12, 10) - (0.1 + 0.55e-12))).toBeLessThan(1e-16);
  });
  it('what is written off adds up to the basis', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<DepreciationMethod>('straight-line', 'macrs-3', 'macrs-5', 'macrs-7'),
        fc.double({ min: 0.01, max: 1e7, noNaN: true }),
        fc.integer({ min: 1, max: 30 }),
        fc.boolean(),
        (method, basis, years, halfYear) => {
          const yearly = depreciation(method, basis, { years, halfYear });
          const sum = yearly.reduce((total, amount) => total + amount, 0);
          expect(Math.abs(sum - basis)).toBeLessThanOrEqual(1e-9 * basis);
        },
      ),
    );
    expect(depreciation('none', 100)).toEqual([]);
  });
  it('a level equivalent is worth as much as the flows', () => {
    const flow = fc.integer({ min: -1000, max: 1000 });
    fc.assert(
      fc.property(
        fc.array(flow, { minLength: 2, maxLength: 20 }),
        fc.constantFrom(-0.2, 0, 0.03, 0.5),
        (flows, rate) => {
          const yearly = annualEquivalent(rate, flows);
          const level = [0, ...Array(flows.length - 1).fill(yearly)];
          const size = flows.reduce((sum, f, y) => sum + Math.abs(f) / (1 + rate) ** y, 1);
          expect(Math.abs(netPresentValue(rate, level) - netPresentValue(rate, flows))).toBeLessThan(
            1e-11 * size,
          );
        },
      ),
    );
  });
});
