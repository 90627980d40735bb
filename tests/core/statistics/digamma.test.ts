import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digamma, trigamma } from '../../../src/core/statistics/digamma.js';
import { logGamma } from '../../../src/core/statistics/log-gamma.js';

const EULER = 0.5772156649015329;

describe('derivatives of the logarithm of the gamma function', () => {
  it('have their known values', () => {
    // Abramowitz and Stegun 6.3.2, 6.3.3, 6.4.2 and 6.4.4.
    expect(digamma(1)).toBeCloseTo(-EULER, 13);
    expect(digamma(0.5)).toBeCloseTo(-EULER - 2 * Math.LN2, 13);
    expect(trigamma(1)).toBeCloseTo(Math.PI ** 2 / 6, 13);
    expect(trigamma(0.5)).toBeCloseTo(Math.PI ** 2 / 2, 12);
  });

  it('rise by 1/x and fall by 1/x^2 from x to x + 1', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e4, noNaN: true }), (x) => {
        expect(Math.abs(digamma(x + 1) - digamma(x) - 1 / x)).toBeLessThan(1e-11 * (1 + 1 / x));
        expect(Math.abs(trigamma(x) - trigamma(x + 1) - 1 / x ** 2)).toBeLessThan(1e-11 * (1 + 1 / x ** 2));
      }),
    );
  });

  it('are the slopes of the function', () => {
    for (const x of [0.7, 3, 25, 400]) {
      const h = 1e-4 * x;
      expect((logGamma(x + h) - logGamma(x - h)) / (2 * h)).toBeCloseTo(digamma(x), 6);
      expect((digamma(x + h) - digamma(x - h)) / (2 * h)).toBeCloseTo(trigamma(x), 6);
    }
  });

  it('are for values above 0', () => {
    expect(() => digamma(0)).toThrow('above 0');
  });
});
