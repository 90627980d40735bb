import { describe, expect, it } from 'vitest';
import { batchMeans, mser5, mserScores } from '../../../src/core/simulate/warmup-pilot.js';
import { referenceChecks } from '../../support/reference.js';

interface Check {
  id: string;
  inputs: Record<string, unknown>;
  expected: unknown;
  tolerance: number;
}
const byId = (id: string): Check => referenceChecks<Check>('intervals').find((c) => c.id === id)!;

describe('MSER-5', () => {
  it('scores and cuts the published series', () => {
    const { inputs, expected, tolerance } = byId('mser5.simple');
    const scores = mserScores(batchMeans(inputs.x as number[], 5));
    for (const [d, score] of (expected as number[]).entries())
      expect(Math.abs(scores[d]! - score)).toBeLessThan(tolerance);
    const [batches, observations, mean] = byId('mser5.simple.dstar').expected as [number, number, number];
    const cut = mser5(inputs.x as number[]);
    expect(cut.observations).toBe(observations);
    expect(cut.observations / 5).toBe(batches);
    expect(cut.mean).toBeCloseTo(mean, 12);
  });

  it('a series that still climbs at its end has not settled', () => {
    expect(mser5(Array.from({ length: 200 }, (_, i) => i)).settled).toBe(false);
    expect(() => mser5([1, 2, 3])).toThrow('at least 10 observations');
  });
});
