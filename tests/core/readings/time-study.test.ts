// Numbers of readings, normal and standard times against textbooks, and properties of both.
import fc from 'fast-check';
import { mean, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  readingsByNormal,
  readingsByStudent,
  twoSidedZ,
} from '../../../src/core/readings/readings-needed.js';
import { normalTime, standardTime } from '../../../src/core/readings/standard-time.js';
import { studentQuantile } from '../../../src/core/statistics/student-quantile.js';
import { referenceChecks } from '../../support/reference.js';

interface Inputs {
  readonly x: readonly number[];
  readonly mean: number;
  readonly sd: number;
  readonly z: number;
  readonly t: number;
  readonly accuracyPct: number;
  readonly ratingPct: number;
  readonly allowancePct: number;
}
const byId = (id: string) => {
  const { inputs, expected, tolerance } = referenceChecks('time-study').find((c) => c.id === id)!;
  return { inputs: inputs as Partial<Inputs> as Inputs, expected: expected as number | number[], tolerance };
};

describe('readings needed', () => {
  it('needed.ilo: the form with sums', () => {
    const { inputs, expected, tolerance } = byId('needed.ilo');
    const x = [...inputs.x];
    const n = readingsByNormal(mean(x), standardDeviation(x), inputs.z, inputs.accuracyPct);
    const [sum, squares] = [x.reduce((a, v) => a + v, 0), x.reduce((a, v) => a + v * v, 0)];
    expect(n).toBeCloseTo(((40 * Math.sqrt(x.length * squares - sum * sum)) / sum) ** 2, 10);
    expect(Math.abs(n - (expected as number))).toBeLessThan(tolerance);
  });

  it('needed.ten', () => {
    const { inputs, expected, tolerance } = byId('needed.ten');
    const x = [...inputs.x];
    const n = readingsByNormal(mean(x), standardDeviation(x), inputs.z, inputs.accuracyPct);
    expect(Math.abs(n - (expected as number))).toBeLessThan(tolerance);
  });

  it.each(['needed.mean3sd1', 'needed.niebel.t', 'needed.niebel.25'])('%s', (id) => {
    const { inputs, expected, tolerance } = byId(id);
    const n = readingsByNormal(inputs.mean, inputs.sd, inputs.z ?? inputs.t, inputs.accuracyPct);
    expect(Math.abs(n - (expected as number))).toBeLessThan(tolerance);
  });

  it('z of 95 and 99.73%', () => {
    expect(twoSidedZ(95)).toBeCloseTo(1.959963984540054, 12);
    expect(twoSidedZ(99.73)).toBeCloseTo(3, 3);
  });

  it('by Student: enough with so many, not with one fewer, and never fewer than by the normal', () => {
    const drawn = fc.record({
      cv: fc.double({ min: 0.002, max: 3, noNaN: true }),
      accuracyPct: fc.double({ min: 1, max: 40, noNaN: true }),
      confidencePct: fc.constantFrom(80, 90, 95, 99),
    });
    fc.assert(
      fc.property(drawn, ({ cv, accuracyPct, confidencePct }) => {
        const n = readingsByStudent(200, 200 * cv, { accuracyPct, confidencePct });
        const half = (k: number) =>
          studentQuantile((1 + confidencePct / 100) / 2, k - 1) * (cv / Math.sqrt(k));
        expect(half(n)).toBeLessThanOrEqual((accuracyPct / 100) * (1 + 1e-12));
        if (n > 2) expect(half(n - 1)).toBeGreaterThan((accuracyPct / 100) * (1 - 1e-12));
        expect(n).toBeGreaterThanOrEqual(readingsByNormal(1, cv, twoSidedZ(confidencePct), accuracyPct));
      }),
    );
  });

  it('no scatter needs two readings by Student; a wish beyond reason is told, not looped over', () => {
    expect(readingsByStudent(10, 0, { accuracyPct: 5, confidencePct: 95 })).toBe(2);
    expect(readingsByStudent(1, 1e6, { accuracyPct: 0.001, confidencePct: 99 })).toBeGreaterThan(1e15);
    expect(() => readingsByNormal(0, 1, 2, 5)).toThrow('must be above 0');
  });
});

describe('standard time', () => {
  it.each([
    ['standard.work', 'work'],
    ['standard.day', 'day'],
  ] as const)('%s', (id, basis) => {
    const { inputs, expected, tolerance } = byId(id);
    const observed = mean([...inputs.x]);
    const normal = normalTime(observed, inputs.ratingPct);
    const found = [observed, normal, standardTime(normal, inputs.allowancePct, basis)];
    for (const [i, value] of (expected as number[]).entries())
      expect(Math.abs(found[i]! - value)).toBeLessThan(tolerance);
  });

  it('the two bases agree where the allowance is told for both', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 90, noNaN: true }), (pct) => {
        const asShareOfWork = (100 * pct) / (100 - pct);
        expect(standardTime(60, pct, 'day')).toBeCloseTo(standardTime(60, asShareOfWork, 'work'), 8);
      }),
    );
    expect(() => standardTime(60, 100, 'day')).toThrow('below 100');
  });
});
