// Order in a series: rank correlation, slope, autocorrelation; and the difference of two samples.
import fc from 'fast-check';
import { linearRegression, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { lag1Autocorrelation } from '../../../src/core/statistics/autocorrelation.js';
import { kendallTrend } from '../../../src/core/statistics/kendall-trend.js';
import { meanInterval } from '../../../src/core/statistics/mean-interval.js';
import { normalShare } from '../../../src/core/statistics/normal-share.js';
import { slopeInterval } from '../../../src/core/statistics/slope-interval.js';
import { studentQuantile } from '../../../src/core/statistics/student-quantile.js';
import { welchDifference } from '../../../src/core/statistics/welch-difference.js';

const values = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 3, maxLength: 40 });

function permutations(x: readonly number[]): number[][] {
  if (x.length < 2) return [[...x]];
  return x.flatMap((v, i) => permutations(x.filter((_, k) => k !== i)).map((rest) => [v, ...rest]));
}

describe('rank correlation with the order', () => {
  it('counts every pair', () => {
    fc.assert(
      fc.property(values, (x) => {
        let [score, pairs, ties] = [0, 0, 0];
        for (const [i, a] of x.entries())
          for (const b of x.slice(i + 1)) {
            score += Math.sign(b - a);
            pairs++;
            if (a === b) ties++;
          }
        const trend = kendallTrend(x);
        if (ties === pairs) expect(trend).toBeNull();
        else expect(trend!.tau).toBeCloseTo(score / Math.sqrt(pairs * (pairs - ties)), 12);
      }),
    );
  });

  it('has about the chance that counting all orders gives', () => {
    const orders = permutations([1, 2, 3, 4, 5, 6, 7]);
    const far = Math.abs(kendallTrend([1, 2, 3, 4, 7, 6, 5])!.tau);
    const share = orders.filter((x) => Math.abs(kendallTrend(x)!.tau) >= far - 1e-12).length / orders.length;
    expect(share).toBeCloseTo(0.0302, 3);
    expect(Math.abs(kendallTrend([1, 2, 3, 4, 7, 6, 5])!.pValue - share)).toBeLessThan(0.01);
  });

  it('with ties has the normal chance of the spread that counting all orders gives', () => {
    const values = [1, 3, 1, 2, 3, 3];
    const score = (x: readonly number[]): number =>
      x.reduce((sum, a, i) => sum + x.slice(i + 1).reduce((own, b) => own + Math.sign(b - a), 0), 0);
    const scores = permutations(values.map((_, i) => i)).map((order) => score(order.map((i) => values[i]!)));
    const variance = scores.reduce((sum, s) => sum + s * s, 0) / scores.length;
    const z = (Math.abs(score(values)) - 1) / Math.sqrt(variance);
    expect(kendallTrend(values)!.pValue).toBeCloseTo(2 * (1 - normalShare(z)), 12);
    // No more is at stake than one pair that could stand the other way.
    expect(kendallTrend([2, 3, 1, 2])!.pValue).toBe(1);
  });

  it('is 1 for a rising series, -1 for a falling one', () => {
    expect(kendallTrend([1, 2, 3, 5])!.tau).toBe(1);
    expect(kendallTrend([9, 7, 1])!.tau).toBe(-1);
    expect(() => kendallTrend([1, 2])).toThrow('at least three values');
  });
});

describe('the line through a series', () => {
  it('is that of least squares', () => {
    fc.assert(
      fc.property(values, (x) => {
        const { m } = linearRegression(x.map((v, i) => [i, v]));
        const { slope, ciLow, ciHigh } = slopeInterval(x);
        expect(slope).toBeCloseTo(m, 9);
        expect(ciLow).toBeLessThanOrEqual(slope);
        expect(ciHigh).toBeGreaterThanOrEqual(slope);
      }),
    );
  });

  it('has the interval of a case by hand', () => {
    // 1, 2, 4: slope 1.5, residuals 1/6, -1/3, 1/6, their squares 1/6, over 1 freedom and a spread of 2: 0.288675; t = 12.706205.
    const { slope, ciHigh } = slopeInterval([1, 2, 4]);
    expect(slope).toBeCloseTo(1.5, 12);
    expect(ciHigh - slope).toBeCloseTo(12.706205 * 0.2886751, 5);
  });
});

describe('the slope', () => {
  it('is surer of less, and needs three values', () => {
    const [usual, less] = [slopeInterval([1, 2, 4]), slopeInterval([1, 2, 4], 0.8)];
    expect(usual).toEqual(slopeInterval([1, 2, 4], 0.95));
    // t(0.9, 1 freedom) = tan(0.4 pi), about the same slope.
    expect(less.ciHigh - 1.5).toBeCloseTo(Math.tan(0.4 * Math.PI) * 0.2886751, 6);
    expect(1.5 - less.ciLow).toBeCloseTo(less.ciHigh - 1.5, 12);
    expect(() => slopeInterval([1, 2])).toThrow('at least three values');
    // 1, 2, 4, 5: slope 7 / 5, squares left 0.2 over 2 freedoms and a spread of 5: 0.1414214; t(0.975) = 4.302653.
    const four = slopeInterval([1, 2, 4, 5]);
    expect(four.slope).toBeCloseTo(1.4, 12);
    expect(four.ciHigh - 1.4).toBeCloseTo(4.302653 * 0.1414214, 5);
  });
});

describe('autocorrelation', () => {
  it('of a saw is -1 as it grows long, of a step nearly 1', () => {
    expect(lag1Autocorrelation([1, 3, 2])).toBeCloseTo(-0.5, 12);
    // 2n values of -1 and 1 by turns: 2n - 1 products of -1 over 2n.
    expect(lag1Autocorrelation(Array.from({ length: 20 }, (_, i) => (-1) ** i))).toBeCloseTo(-19 / 20, 12);
    expect(lag1Autocorrelation(Array.from({ length: 20 }, (_, i) => (i < 10 ? 5 : 9)))).toBeCloseTo(
      17 / 20,
      12,
    );
    expect(lag1Autocorrelation([1, 2])).toBeCloseTo(-0.5, 12);
  });

  it('cannot be told of equal values', () => {
    expect(lag1Autocorrelation([3, 3, 3])).toBeNull();
    expect(() => lag1Autocorrelation([3])).toThrow('at least two values');
  });
});

describe('the difference of two means', () => {
  it("has Welch's interval", () => {
    // Freedom by hand: variances 10 / 5 = 2 and 2.5 / 5 = 0.5; (2.5)^2 / (4 / 4 + 0.25 / 4) = 5.8824; t(0.975) = 2.4588 there.
    const a = meanInterval([2, 4, 6, 8, 10]);
    const b = meanInterval([1, 2, 3, 4, 5]);
    const d = welchDifference(a, b)!;
    expect(d.mean).toBe(3);
    expect((d.ciHigh - d.ciLow) / 2).toBeCloseTo(2.4588 * Math.sqrt(2.5), 2);
    expect(welchDifference(meanInterval([1]), b)).toBeNull();
    expect(welchDifference(b, meanInterval([1]))).toBeNull();
    expect(d).toEqual(welchDifference(a, b, 0.95));
  });

  it('without spread has no width; of one spread has the freedom of that sample alone', () => {
    expect(welchDifference(meanInterval([1, 3]), meanInterval([4, 8]))!.mean).toBe(-4);
    const [seven, four] = [meanInterval([7, 7]), meanInterval([4, 4, 4])];
    expect(welchDifference(seven, four)).toEqual({ mean: 3, ciLow: 3, ciHigh: 3 });
    const a = meanInterval([1, 2, 6]);
    const d = welchDifference(a, four, 0.9)!;
    const own = meanInterval([1, 2, 6], 0.9);
    expect([d.mean, d.ciLow, d.ciHigh].map((v) => v + 4)).toEqual(
      [own.mean, own.ciLow, own.ciHigh].map((v) => expect.closeTo(v, 9)),
    );
  });

  it('of equal sizes and spreads is the pooled one of Student', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 3, maxLength: 12 }), (x) => {
        const n = x.length;
        const d = welchDifference(meanInterval(x.map((v) => v + 7)), meanInterval(x))!;
        expect(d.mean).toBeCloseTo(7, 9);
        const half = studentQuantile(0.975, 2 * n - 2) * sampleStandardDeviation(x) * Math.sqrt(2 / n);
        expect((d.ciHigh - d.ciLow) / 2).toBeCloseTo(half, 8);
      }),
    );
  });
});
