import fc from 'fast-check';
import { cumulativeStdNormalProbability } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../../src/core/statistics/normal-quantile.js';
import { normalShare } from '../../../src/core/statistics/normal-share.js';

describe('the normal distribution', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, table of the standard normal (1.3.6.7.1), and its critical values.
  test.each([
    [0, 0.5],
    [1, 0.84134],
    [1.96, 0.975],
    [2.33, 0.9901],
    [-1.645, 0.05],
  ])('below %d lie %d', (x, share) => {
    expect(normalShare(x)).toBeCloseTo(share, 4);
    // That package looks it up at two decimals of x.
    expect(normalShare(x)).toBeCloseTo(cumulativeStdNormalProbability(x), 2);
  });

  test('the inverse undoes it', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (u) => {
        expect(Math.abs(normalShare(normalQuantile(u)) - u)).toBeLessThan(1e-13);
      }),
    );
    expect(normalQuantile(0.5)).toBe(0);
    expect(normalQuantile(2 ** -60)).toBeLessThanOrEqual(-8);
  });

  test('has the quantiles of a published table', () => {
    // M. J. Wichura, Algorithm AS 241, Applied Statistics 37, 1988: the values given there for checking, from memory.
    expect(normalQuantile(0.25)).toBeCloseTo(-0.6744897501960817, 15);
    expect(normalQuantile(0.001)).toBeCloseTo(-3.090232306167813, 14);
    expect(normalQuantile(1e-20)).toBeCloseTo(-9.26234008979841, 13);
  });

  test('is even about 0, at the joints of its three ranges as elsewhere', () => {
    for (const p of [0.5, 0.3, 0.0750001, 0.0749999, 0.01, 1.4e-11, 1.3e-11, 1e-12])
      expect(normalQuantile(p) + normalQuantile(1 - p)).toBeCloseTo(0, p < 1e-9 ? 4 : 12);
    for (const joint of [0.075, 0.925, 1.388794386e-11])
      expect(normalQuantile(joint * (1 + 1e-9)) - normalQuantile(joint * (1 - 1e-9))).toBeCloseTo(0, 6);
    expect(() => normalQuantile(0)).toThrow('a probability must lie between 0 and 1');
    for (const p of [1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow('a probability must lie');
  });

  test('is 0 and 1 to double precision beyond 8, and not before', () => {
    expect([normalShare(-8), normalShare(8), normalShare(-20), normalShare(20)]).toEqual([0, 1, 0, 1]);
    expect(normalShare(-7.9)).not.toBe(0);
    // Abramowitz and Stegun, table 26.1 and 26.2.
    expect(normalShare(-5) * 1e7).toBeCloseTo(2.866516, 5);
    expect(normalShare(1)).toBeCloseTo(0.841344746068543, 14);
    expect(normalShare(2)).toBeCloseTo(0.977249868051821, 14);
  });
});
