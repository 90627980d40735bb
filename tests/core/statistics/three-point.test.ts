// Distributions from low, most likely and high against their own definitions.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { incompleteBeta } from '../../../src/core/statistics/incomplete-beta.js';
import { pert, type ThreePoint, triangular } from '../../../src/core/statistics/three-point.js';

const points: readonly ThreePoint[] = [
  { low: 5, mode: 8, high: 14 },
  { low: 5, mode: 5, high: 14 },
  { low: 5, mode: 14, high: 14 },
  { low: -3, mode: 0, high: 1 },
];
const share = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

/** By the two right triangles under its density. */
function triangularShare({ low, mode, high }: ThreePoint, x: number): number {
  const width = high - low;
  return x <= mode && mode > low
    ? (x - low) ** 2 / (width * (mode - low))
    : 1 - (high - x) ** 2 / (width * (high - mode));
}

describe('triangular', () => {
  it.each(points)('$low $mode $high: the inverse gives the share back', (point) => {
    const { quantile } = triangular(point);
    fc.assert(
      fc.property(share, (u) => {
        expect(triangularShare(point, quantile(u))).toBeCloseTo(u, 9);
        expect(quantile(u)).toBeGreaterThanOrEqual(point.low);
        expect(quantile(u)).toBeLessThanOrEqual(point.high);
      }),
    );
  });

  it('has the mean and variance of the textbook', () => {
    // (a + m + b)/3 = 9; (25 + 64 + 196 - 40 - 70 - 112)/18 = 3.5.
    const { mean, variance } = triangular({ low: 5, mode: 8, high: 14 });
    expect(mean).toBeCloseTo(9, 12);
    expect(variance).toBeCloseTo(3.5, 12);
  });
});

describe('PERT', () => {
  it.each(points)('$low $mode $high: the inverse gives the share of the beta distribution back', (point) => {
    const { low, mode, high } = point;
    const { quantile } = pert(point);
    const [a, b] = [1 + (4 * (mode - low)) / (high - low), 1 + (4 * (high - mode)) / (high - low)];
    for (const u of [1e-6, 1e-4, 0.004, 0.1, 0.124, 0.126, 0.4, 0.5, 0.6, 0.8749, 0.8751, 0.99, 0.9999])
      expect(Math.abs(incompleteBeta((quantile(u) - low) / (high - low), a, b) - u)).toBeLessThan(1e-7);
  });

  it('turned about its middle is the PERT of the turned points', () => {
    const [one, other] = [pert({ low: 2, mode: 3, high: 9 }), pert({ low: 2, mode: 8, high: 9 })];
    expect(one.mean + other.mean).toBeCloseTo(11, 12);
    expect(one.variance).toBeCloseTo(other.variance, 12);
    fc.assert(
      fc.property(share, (u) => {
        expect(one.quantile(u) + other.quantile(1 - u)).toBeCloseTo(11, 5);
      }),
    );
  });

  it('has the mean (a + 4m + b)/6 and the variance of its beta distribution', () => {
    const { mean, variance } = pert({ low: 5, mode: 8, high: 14 });
    // Shapes 7/3 and 11/3: width^2 ab / ((a + b)^2 (a + b + 1)) = 81 x 77/9 / (36 x 7) = 2.75.
    expect(mean).toBeCloseTo(8.5, 12);
    expect(variance).toBeCloseTo(2.75, 12);
  });
});

describe.each([
  ['triangular', triangular],
  ['PERT', pert],
])('%s', (_, shape) => {
  it('without width is its one value', () => {
    const { mean, variance, quantile } = shape({ low: 7, mode: 7, high: 7 });
    expect([mean, variance, quantile(0.01), quantile(0.99)]).toEqual([7, 0, 7, 7]);
  });

  it('wants its points finite and in order', () => {
    for (const [low, mode, high] of [
      [5, 4, 9],
      [1, 4, 3],
      [Number.NEGATIVE_INFINITY, 4, 9],
      [1, Number.NaN, 9],
      [1, 2, Number.POSITIVE_INFINITY],
    ] as const)
      expect(() => shape({ low, mode, high })).toThrow(
        `low ${low}, most likely ${mode} and high ${high} must be finite and in that order`,
      );
  });
});
