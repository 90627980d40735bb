import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { timeDistribution } from '../../../src/core/distributions/distribution.js';
import type { Distribution } from '../../../src/core/model/cell.js';
import { incompleteGamma } from '../../../src/core/statistics/incomplete-gamma.js';

const CASES: readonly [Distribution, number[]][] = [
  ['constant', [12]],
  ['exponential', [12]],
  ['gamma', [12, 16]],
  ['gamma', [12, 0.4]],
  ['erlang', [12, 1]],
  ['erlang', [12, 4]],
  ['lognormal', [12, 5]],
  ['triangular', [6, 9, 21]],
  ['triangular', [6, 6, 21]],
  ['pert', [6, 11, 21]],
  ['pert', [6, 21, 21]],
  ['weibull', [12, 1.7]],
  ['weibull', [12, 0.8]],
  ['readings', [11, 14, 9, 14, 12]],
];

describe('every distribution knows its own mean and variance', () => {
  it.each(CASES)('%s %j', (name, parameters) => {
    const d = timeDistribution(name, parameters);
    const n = 200_000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const x = d.quantile((i + 0.5) / n);
      sum += x;
      squares += (x - d.mean) ** 2;
    }
    expect(sum / n).toBeCloseTo(d.mean, 2);
    expect(Math.abs(squares / n - d.variance)).toBeLessThan(0.005 * d.variance + 1e-9);
  });

  it.each(CASES)('%s %j rises and is never below 0', (name, parameters) => {
    const d = timeDistribution(name, parameters);
    fc.assert(
      fc.property(
        fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }),
        fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }),
        (u, v) => {
          const [low, high] = u < v ? [u, v] : [v, u];
          expect(d.quantile(low)).toBeGreaterThanOrEqual(0);
          expect(d.quantile(high)).toBeGreaterThanOrEqual(d.quantile(low) - 1e-9);
        },
      ),
    );
  });
});

describe('the tabulated gamma quantile', () => {
  it.each([0.5, 1, 2, 16, 144])('inverts the incomplete gamma function, shape %d', (shape) => {
    const d = timeDistribution('gamma', [shape, shape]);
    for (const u of [1e-7, 1e-4, 0.004, 0.06, 0.124, 0.126, 0.3, 0.5, 0.77, 0.874, 0.876, 0.99, 0.99999])
      expect(Math.abs(incompleteGamma(shape, d.quantile(u)) - u)).toBeLessThan(2e-6 * Math.min(1, 50 * u));
  });

  it('an erlang of one stage is the exponential', () => {
    const erlang = timeDistribution('erlang', [10, 1]);
    const exponential = timeDistribution('exponential', [10]);
    for (let u = 0.0005; u < 1; u += 0.0173)
      expect(Math.abs(erlang.quantile(u) / exponential.quantile(u) - 1)).toBeLessThan(1e-6);
  });
});

describe('parameters', () => {
  it('triangular and pert: low, likely, high', () => {
    expect(timeDistribution('triangular', [6, 9, 21]).mean).toBeCloseTo(12, 12);
    expect(timeDistribution('pert', [6, 9, 21]).mean).toBeCloseTo((6 + 4 * 9 + 21) / 6, 12);
  });

  it.each([
    ['exponential', [0], 'an exponential distribution needs the mean above 0, found 0'],
    ['gamma', [12], 'a gamma distribution needs the shape'],
    ['erlang', [12, 2.5], 'an erlang distribution has a whole number of stages, found 2.5'],
    ['lognormal', [-1, 2], 'a lognormal distribution takes numbers of 0 or more, found -1'],
    [
      'pert',
      [6, 30, 21],
      'a pert distribution has its most likely value between the lowest and the highest; found 6, 30, 21',
    ],
    ['readings', [], 'readings need at least one value'],
  ] as const)('%s %j is refused', (name, parameters, text) => {
    expect(() => timeDistribution(name, parameters)).toThrow(new RegExp(text));
  });
});
