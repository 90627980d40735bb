// Gamma and beta functions, complete and incomplete, against closed forms and sums of another kind.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { incompleteBeta } from '../../../src/core/statistics/incomplete-beta.js';
import { incompleteGamma } from '../../../src/core/statistics/incomplete-gamma.js';
import { logBeta } from '../../../src/core/statistics/log-beta.js';
import { logGamma } from '../../../src/core/statistics/log-gamma.js';
import { normalShare } from '../../../src/core/statistics/normal-share.js';

const shape = fc.double({ min: 0.05, max: 60, noNaN: true });
const unit = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

describe('the logarithm of the gamma function', () => {
  it('is that of the factorials', () => {
    let factorial = 1;
    for (let n = 1; n <= 20; n++) {
      expect(logGamma(n)).toBeCloseTo(Math.log(factorial), 12);
      factorial *= n;
    }
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 13);
    expect(logGamma(1e-5)).toBeCloseTo(Math.log(1e5) - 0.5772156649015329e-5, 9);
  });

  it('rises by ln x from x to x + 1, and doubles as Legendre says', () => {
    fc.assert(
      fc.property(shape, (x) => {
        expect(logGamma(x + 1) - logGamma(x)).toBeCloseTo(Math.log(x), 11);
        const doubled = (2 * x - 1) * Math.LN2 - Math.log(Math.PI) / 2 + logGamma(x) + logGamma(x + 0.5);
        expect(logGamma(2 * x)).toBeCloseTo(doubled, 10);
      }),
    );
  });

  it('is for values above 0', () => {
    for (const x of [0, -1, Number.NaN])
      expect(() => logGamma(x)).toThrow('the gamma function is used for values above 0 only');
  });

  it('makes that of the beta function', () => {
    expect(logBeta(2, 3)).toBeCloseTo(-Math.log(12), 13);
    expect(logBeta(0.5, 0.5)).toBeCloseTo(Math.log(Math.PI), 13);
    expect(logBeta(7, 1)).toBeCloseTo(-Math.log(7), 13);
  });
});

describe('the incomplete beta function', () => {
  it('is a power where a shape is 1', () => {
    fc.assert(
      fc.property(unit, shape, (x, a) => {
        expect(incompleteBeta(x, a, 1)).toBeCloseTo(x ** a, 11);
        expect(incompleteBeta(x, 1, a)).toBeCloseTo(1 - (1 - x) ** a, 11);
      }),
    );
  });

  it('is the chance of at least a of a + b - 1 trials', () => {
    for (const [a, b] of [
      [1, 1],
      [2, 5],
      [9, 3],
      [40, 30],
    ] as const)
      for (const x of [0.03, 0.2, 0.5, 0.61, 0.97]) {
        const n = a + b - 1;
        let [sum, ways] = [0, 1];
        for (let k = 0; k <= n; k++) {
          if (k >= a) sum += ways * x ** k * (1 - x) ** (n - k);
          ways *= (n - k) / (k + 1);
        }
        expect(incompleteBeta(x, a, b)).toBeCloseTo(sum, 11);
      }
  });

  it('and its mirror make 1; equal shapes are even', () => {
    fc.assert(
      fc.property(unit, shape, shape, (x, a, b) => {
        expect(incompleteBeta(x, a, b) + incompleteBeta(1 - x, b, a)).toBeCloseTo(1, 11);
        expect(incompleteBeta(0.5, a, a)).toBeCloseTo(0.5, 11);
      }),
    );
  });

  it('is 0 and 1 at the ends and beyond', () => {
    expect([-1, 0, 1, 2].map((x) => incompleteBeta(x, 2, 3))).toEqual([0, 0, 1, 1]);
  });
});

describe('the incomplete gamma function', () => {
  it('is the chance of a events or more where x are to be expected', () => {
    for (const a of [1, 2, 7, 30])
      for (const x of [0.01, 0.9, 3, 7.5, 8.1, 33, 90]) {
        let [below, term] = [0, Math.exp(-x)];
        for (let k = 0; k < a; k++) {
          below += term;
          term *= x / (k + 1);
        }
        expect(incompleteGamma(a, x)).toBeCloseTo(1 - below, 11);
      }
  });

  it('of shape 1/2 is the normal distribution', () => {
    for (const z of [0.01, 0.3, 1, 1.7, 2.5, 5])
      expect(incompleteGamma(0.5, (z * z) / 2)).toBeCloseTo(2 * normalShare(z) - 1, 12);
  });

  it('falls by one term from shape to shape', () => {
    fc.assert(
      fc.property(shape, shape, (a, x) => {
        const term = Math.exp(a * Math.log(x) - x - logGamma(a + 1));
        expect(incompleteGamma(a, x) - incompleteGamma(a + 1, x)).toBeCloseTo(term, 11);
      }),
    );
  });

  it('is 0 up to 0', () => {
    expect([-1, 0].map((x) => incompleteGamma(2, x))).toEqual([0, 0]);
  });
});
