import { describe, expect, it } from 'vitest';
import { estimate } from '../../../src/core/simulate/estimate.js';
import { meanInterval, pairedDifference } from '../../../src/core/statistics/mean-interval.js';
import { normalQuantile } from '../../../src/core/statistics/normal-quantile.js';
import { quantile } from '../../../src/core/statistics/quantile.js';
import { quantile7, quantileInterval } from '../../../src/core/statistics/quantile-interval.js';
import { studentQuantile } from '../../../src/core/statistics/student-quantile.js';
import { referenceChecks } from '../../support/reference.js';

interface Check {
  id: string;
  inputs: Record<string, unknown>;
  expected: unknown;
  tolerance: number;
}
const checks = referenceChecks<Check>('intervals');
const byId = (id: string): Check => checks.find((c) => c.id === id)!;

describe('Student quantile', () => {
  it.each(checks.filter((c) => c.id.startsWith('t.')))('$id', ({ inputs, expected, tolerance }) => {
    expect(
      Math.abs(studentQuantile(inputs.p as number, inputs.df as number) - (expected as number)),
    ).toBeLessThan(tolerance);
  });

  it('agrees with closed forms to 1e-10', () => {
    for (const p of [0.6, 0.75, 0.9, 0.975, 0.995, 0.9995]) {
      // One degree of freedom: tan(pi (p - 1/2)); two: a sqrt(2 / (1 - a^2)), a = 2p - 1.
      const one = Math.tan(Math.PI * (p - 0.5));
      const a = 2 * p - 1;
      expect(Math.abs(studentQuantile(p, 1) / one - 1)).toBeLessThan(1e-10);
      expect(Math.abs(studentQuantile(p, 2) / (a * Math.sqrt(2 / (1 - a * a))) - 1)).toBeLessThan(1e-10);
      expect(studentQuantile(1 - p, 2)).toBeCloseTo(-studentQuantile(p, 2), 10);
    }
  });

  it('agrees with the closed form of four degrees of freedom', () => {
    for (const p of [0.003, 0.2, 0.49, 0.51, 0.8, 0.95, 0.9999]) {
      const t = studentQuantile(p, 4);
      const s = 1 + (t * t) / 4;
      expect(0.5 + ((3 / 8) * t * (1 - (t * t) / (12 * s))) / Math.sqrt(s)).toBeCloseTo(p, 10);
    }
    expect(studentQuantile(0.5, 4)).toBe(0);
  });

  it('nears the normal quantile', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 14);
    expect(studentQuantile(0.975, 1e7)).toBeCloseTo(1.959963984540054, 6);
  });

  it('refuses what is no probability', () => {
    expect(() => studentQuantile(1, 4)).toThrow('a probability must lie between 0 and 1');
    for (const p of [0, -0.5, 1.5, Number.NaN])
      expect(() => studentQuantile(p, 4)).toThrow('a probability must lie between 0 and 1');
    for (const freedom of [0, -3, Number.NaN])
      expect(() => studentQuantile(0.5, freedom)).toThrow('degrees of freedom must be above 0');
  });
});

describe('intervals of means', () => {
  it.each(['rep.law.bank', 'ci.law.ten'])('%s', (id) => {
    const { inputs, expected, tolerance } = byId(id);
    const [mean, variance, half] = expected as [number, number, number];
    const m = meanInterval(inputs.x as number[], inputs.conf as number);
    expect(Math.abs(m.mean - mean)).toBeLessThan(tolerance);
    expect(Math.abs(m.sd ** 2 - variance)).toBeLessThan(tolerance);
    expect(Math.abs((m.ciHigh - m.ciLow) / 2 - half)).toBeLessThan(tolerance);
  });

  it('rep.gt3', () => {
    const { expected, tolerance } = byId('rep.gt3');
    const m = meanInterval([20, 10, 40], 0.95);
    const [low, high] = expected as [number, number];
    expect(Math.abs(m.ciLow - low)).toBeLessThan(tolerance);
    expect(Math.abs(m.ciHigh - high)).toBeLessThan(tolerance);
  });

  it('keeps digits of large values', () => {
    expect(meanInterval([10000001, 10000003, 10000002]).sd).toBeCloseTo(1, 12);
  });

  it('of pairs is that of their differences, as sure as asked', () => {
    const differences = [2, -1, 4];
    for (const confidence of [0.8, 0.95])
      expect(pairedDifference([5, 6, 7], [3, 7, 3], confidence)).toEqual(
        meanInterval(differences, confidence),
      );
    expect(meanInterval(differences)).toEqual(meanInterval(differences, 0.95));
  });

  it('pairs that differ by a constant have an interval of no width', () => {
    const d = pairedDifference([5, 9, 14], [3, 7, 12]);
    expect([d.mean, d.ciLow, d.ciHigh]).toEqual([2, 2, 2]);
  });

  it('one value has no bounds, and NaN never passes', () => {
    expect(estimate([4], 0.95)).toEqual({ mean: 4, ciLow: null, ciHigh: null });
    expect(() => meanInterval([1, Number.NaN])).toThrow('a mean needs finite values');
    expect(() => meanInterval([])).toThrow('a mean needs at least one value');
    expect(meanInterval([4])).toEqual({ mean: 4, ciLow: -Infinity, ciHigh: Infinity, sd: Number.NaN, n: 1 });
    for (const confidence of [0, 1, -1, 2, Number.NaN])
      expect(() => meanInterval([1, 2], confidence)).toThrow('the confidence must lie between 0 and 1');
    expect(() => pairedDifference([1, 2], [1])).toThrow('pairs need lists of the same length');
  });

  it('cover the true mean as often as they say', () => {
    // 2,000 samples of 5 from a sum of uniforms; the count of covering 90% intervals is binomial.
    let state = 12345;
    const uniform = (): number => {
      state = (state * 16807) % 2147483647;
      return state / 2147483647;
    };
    let covered = 0;
    for (let i = 0; i < 2000; i++) {
      const x = Array.from({ length: 5 }, () => uniform() + uniform() + uniform());
      const { ciLow, ciHigh } = meanInterval(x, 0.9);
      if (ciLow <= 1.5 && 1.5 <= ciHigh) covered++;
    }
    expect(Math.abs(covered / 2000 - 0.9)).toBeLessThan(4 * Math.sqrt(0.09 / 2000));
  });
});

describe('quantiles', () => {
  it('are type 7', () => {
    expect(quantile7([1, 2, 3, 4], 0.5)).toBe(2.5);
    expect(quantile7([10, 1, 7], 0.1)).toBeCloseTo(2.2, 12);
    expect(quantile7([5], 0.9)).toBe(5);
  });

  it('of like groups have an interval of no width', () => {
    const q = quantileInterval(
      [
        [1, 2, 3],
        [3, 2, 1],
      ],
      0.5,
    );
    expect(q).toEqual({ value: 2, ciLow: 2, ciHigh: 2 });
  });

  it('of unlike groups lie about that of all values, as far as the groups are apart', () => {
    // Medians 2 and 4: mean 3, standard deviation sqrt 2, so a half of t(0.975, 1 freedom) = 12.7062; all six: 2.5.
    const groups = [
      [3, 1, 2],
      [2, 9, 4],
    ];
    const q = quantileInterval(groups, 0.5);
    expect(q.value).toBe(2.5);
    expect(q.ciHigh - 2.5).toBeCloseTo(12.7062, 3);
    expect(2.5 - q.ciLow).toBeCloseTo(12.7062, 3);
    // t(0.9, 1 freedom) = tan(0.4 pi).
    expect(quantileInterval(groups, 0.5, 0.8).ciHigh - 2.5).toBeCloseTo(Math.tan(0.4 * Math.PI), 9);
  });

  it('at the ends are the least and the greatest; beyond there are none', () => {
    expect([quantile7([3, 1, 2], 0), quantile7([3, 1, 2], 1)]).toEqual([1, 3]);
    expect(() => quantile7([], 0.5)).toThrow('a quantile needs at least one value');
    expect(() => quantile([], 0.5)).toThrow('there must be at least one reading');
    for (const p of [-0.1, 1.1, Number.NaN])
      expect(() => quantile([1, 2], p)).toThrow(`the share is ${p}: it must be from 0 to 1`);
  });
});
