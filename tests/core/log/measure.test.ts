// What is kept of many values in fixed memory agrees with what all of them say.
import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { BUCKET_ERROR } from '../../../src/core/log/log-buckets.js';
import { halfWidth, Measure, SAMPLE } from '../../../src/core/log/measure.js';
import { meanInterval } from '../../../src/core/statistics/mean-interval.js';
import { nextUniform, seedStream } from '../../../src/core/statistics/random-streams.js';

function measured(values: readonly number[]): Measure {
  const measure = new Measure();
  for (const value of values) measure.add(value);
  return measure;
}

function uniforms(n: number, seed: number): number[] {
  const stream = new Int32Array(4);
  seedStream(stream, 0, seed, 'test', 0);
  return Array.from({ length: n }, () => nextUniform(stream, 0));
}

const times = fc.array(fc.double({ min: 0, max: 1e5, noNaN: true }), { minLength: 2, maxLength: 63 });

describe('a measure', () => {
  test('of up to 63 values has their mean, deviation, quantiles and plain interval, not below 0', () => {
    fc.assert(
      fc.property(times, (values) => {
        const s = measured(values).summary(0.95)!;
        const scale = Math.max(1, ...values);
        const plain = meanInterval(values, 0.95);
        expect(Math.abs(s.mean - mean(values)) / scale).toBeLessThan(1e-12);
        expect(Math.abs(s.sd! - sampleStandardDeviation(values)) / scale).toBeLessThan(1e-9);
        expect(Math.abs(s.ciLow! - Math.max(0, plain.ciLow)) / scale).toBeLessThan(1e-9);
        expect(s.min).toBe(Math.min(...values));
        expect(s.max).toBe(Math.max(...values));
        expect(s.total).toBeCloseTo(
          values.reduce((a, b) => a + b, 0),
          4,
        );
      }),
    );
  });

  test('of one value has no interval, of none no summary', () => {
    expect(measured([]).summary(0.95)).toBeNull();
    expect(measured([7]).summary(0.95)).toMatchObject({
      n: 1,
      mean: 7,
      sd: null,
      ciLow: null,
      se: null,
      p50: 7,
    });
  });

  test('of many values has quantiles within the stated error', () => {
    const values = uniforms(50_000, 3).map((u) => -40 * Math.log(1 - u));
    const sorted = Float64Array.from(values).sort();
    const measure = measured(values);
    for (const p of [0, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999, 1]) {
      const exact = sorted[Math.floor((sorted.length - 1) * p)]!;
      expect(Math.abs(measure.quantile(p) / exact - 1)).toBeLessThanOrEqual(BUCKET_ERROR + 1e-12);
    }
  });

  test('keeps a fair draw of many values', () => {
    const values = uniforms(20_000, 5);
    const drawn = measured(values).sample();
    expect(drawn.length).toBe(SAMPLE);
    expect(new Set(drawn).size).toBe(SAMPLE);
    expect(drawn.every((v) => values.includes(v))).toBe(true);
    // Five standard errors of a uniform mean: a fair draw fails once in two million seeds, and the seed is fixed.
    expect(Math.abs(mean([...drawn]) - 0.5)).toBeLessThan(5 / Math.sqrt(12 * SAMPLE));
    const late = drawn.filter((v) => values.indexOf(v) >= 10_000).length;
    expect(Math.abs(late - SAMPLE / 2)).toBeLessThan(5 * Math.sqrt(SAMPLE / 4));
  });

  test('its interval is wide enough for values that hang together, where the plain one is far too narrow', () => {
    // x(i) = 0.95 x(i - 1) + e(i): the variance of the mean is (1 + 0.95) / (1 - 0.95) = 39 times that of free values.
    const noise = uniforms(64_000, 9);
    let x = 0;
    const values = noise.map((u) => {
      x = 0.95 * x + (u - 0.5);
      return x + 100;
    });
    const s = measured(values).summary(0.95)!;
    const free = s.sd! / Math.sqrt(values.length);
    expect(s.se! / free).toBeGreaterThan(Math.sqrt(39) * 0.7);
    expect(s.se! / free).toBeLessThan(Math.sqrt(39) * 1.4);
  });

  test('half the width is Student’s', () => {
    // t(0.975, 9) = 2.262, from any table.
    expect(halfWidth(1, 9, 0.95)).toBeCloseTo(2.262, 3);
  });
});
