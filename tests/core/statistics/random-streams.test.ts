import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import {
  nextBits,
  nextUniform,
  seedStream,
  streamState,
} from '../../../src/core/statistics/random-streams.js';

describe('random streams', () => {
  it('give the bits of pure-rand from the same state', () => {
    const states = new Int32Array(12);
    for (const [i, name] of ['cycle mill_1', 'load mill_1', 'yield cap'].entries()) {
      seedStream(states, i, 42, name, 3);
      const reference = xoroshiro128plusFromState(streamState(42, name, 3));
      const [ours, theirs]: number[][] = [[], []];
      for (let k = 0; k < 10_000; k++) {
        ours.push(nextBits(states, i));
        theirs.push(reference.next());
      }
      expect(ours).toEqual(theirs);
    }
  });

  it('start apart for near seeds, names and replications', () => {
    const firsts = new Set<number>();
    for (let seed = 0; seed < 10; seed++)
      for (const name of ['a', 'b', 'ab', 'ba'])
        for (let replication = 0; replication < 10; replication++) {
          const states = new Int32Array(4);
          seedStream(states, 0, seed, name, replication);
          firsts.add(nextBits(states, 0));
        }
    expect(firsts.size).toBe(400);
  });

  it('spread evenly from the first draw on', () => {
    const counts = new Array<number>(10).fill(0);
    for (let seed = 0; seed < 20_000; seed++) {
      const states = new Int32Array(4);
      seedStream(states, 0, seed, 'first', 0);
      counts[Math.floor(nextUniform(states, 0) * 10)]++;
    }
    // Chi-square with 9 degrees of freedom: 0.999 quantile 27.88 (tables).
    const chi2 = counts.reduce((sum, c) => sum + (c - 2000) ** 2 / 2000, 0);
    expect(chi2).toBeLessThan(27.88);
  });

  it('two streams of one seed are not correlated', () => {
    const states = new Int32Array(8);
    seedStream(states, 0, 1, 'one', 0);
    seedStream(states, 1, 1, 'two', 0);
    const n = 50_000;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += (nextUniform(states, 0) - 0.5) * (nextUniform(states, 1) - 0.5);
    // The product has standard deviation 1/12; 4 standard errors.
    expect(Math.abs(sum / n)).toBeLessThan(4 / 12 / Math.sqrt(n));
  });

  it('stay strictly between 0 and 1', () => {
    const states = new Int32Array(4);
    seedStream(states, 0, 9, 'edge', 0);
    let [least, most] = [1, 0];
    for (let i = 0; i < 100_000; i++) {
      const u = nextUniform(states, 0);
      least = Math.min(least, u);
      most = Math.max(most, u);
    }
    expect(least).toBeGreaterThan(0);
    expect(most).toBeLessThan(1);
  });
});
