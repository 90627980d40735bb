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
});
