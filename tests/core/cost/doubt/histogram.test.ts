// Counts of values by even steps: nothing lost, and those above 0 apart from the rest.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { histogram } from '../../../../src/core/cost/doubt/histogram.js';

const sum = (counts: readonly number[]): number => counts.reduce((a, b) => a + b, 0);

test('by hand', () => {
  const { from, step, counts } = histogram([-0.5, 0, 2]);
  expect(step).toBe(0.1);
  expect(from).toBeCloseTo(-0.6, 12);
  // -0.5 ends the first step, 0 the sixth, 2 the last.
  expect(counts.flatMap((count, k) => (count > 0 ? [k] : []))).toEqual([0, 5, 25]);
});

test('values that are all alike fall into one step', () => {
  expect(histogram([7, 7, 7])).toEqual({ from: 5, step: 5, counts: [3] });
  expect(sum(histogram([0, 0]).counts)).toBe(2);
});

test('no values, no histogram', () => {
  expect(() => histogram([])).toThrow('a histogram needs at least one value');
});

test('all values are counted; above 0 are as many as there are; steps are few and round', () => {
  const value = fc.oneof(
    fc.constantFrom(0, 1e-300, -1e-300, 1e12, -1e12),
    fc.double({ min: -1e9, max: 1e9, noNaN: true }),
  );
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 300 }), (values) => {
      const sorted = Float64Array.from(values).sort();
      const { from, step, counts } = histogram(sorted);
      expect(sum(counts)).toBe(values.length);
      const first = Math.round(from / step);
      expect(first * step).toBeCloseTo(from, 6);
      expect(sum(counts.filter((_, k) => first + k >= 0))).toBe(values.filter((v) => v > 0).length);
      expect(counts.length).toBeLessThanOrEqual(46);
      expect(step).toBeGreaterThan(0);
      expect(['1', '2', '5']).toContain(step.toExponential(6)[0]);
    }),
    { seed: 7 },
  );
});
