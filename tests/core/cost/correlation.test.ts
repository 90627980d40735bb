// Items that move together in the risk trials.
import { sampleRankCorrelation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { correlationFault } from '../../../src/core/cost/doubt/correlation.js';
import { risks } from '../../../src/core/cost/doubt/risk.js';
import { readCase } from '../../../src/core/cost/read-case.js';
import { changeoverRow, costCell, PLAIN_ITEMS } from './support/cost-cell.js';

const inputs = readCase(costCell(PLAIN_ITEMS, [changeoverRow('mill', 100)]), null, null);
const items = ['box_price', 'cable_set_price', 'labour_per_h'].map((item) => ({
  item,
  low: 10,
  mode: 20,
  high: 60,
  whole: false,
}));

function drawn(correlations: { a: string; b: string; rank: number }[], distribution: 'pert' | 'triangular') {
  const columns: Record<string, number[]> = { box_price: [], cable_set_price: [], labour_per_h: [] };
  risks(
    inputs,
    items,
    ({ numbers }) => {
      for (const [item, list] of Object.entries(columns)) list.push(numbers[item]!);
      return [0];
    },
    { trials: 10_000, seed: 3, distribution, correlations },
  );
  return columns as Record<'box_price' | 'cable_set_price' | 'labour_per_h', number[]>;
}

describe('drawing together', () => {
  // The standard error of a rank correlation of 10,000 pairs is at most 0.01.
  test.each([0.6, -0.8, 0.2])('the stated rank correlation of %d comes out', (rank) => {
    for (const distribution of ['pert', 'triangular'] as const) {
      const columns = drawn([{ a: 'box_price', b: 'cable_set_price', rank }], distribution);
      expect(sampleRankCorrelation(columns.box_price, columns.cable_set_price)).toBeCloseTo(rank, 1);
      expect(Math.abs(sampleRankCorrelation(columns.box_price, columns.cable_set_price) - rank)).toBeLessThan(
        0.04,
      );
      expect(Math.abs(sampleRankCorrelation(columns.box_price, columns.labour_per_h))).toBeLessThan(0.04);
    }
  });

  test('at 1 both have the same ranks, at -1 opposite ones', () => {
    const same = drawn([{ a: 'box_price', b: 'cable_set_price', rank: 1 }], 'pert');
    same.box_price.forEach((value, k) => {
      expect(same.cable_set_price[k]).toBeCloseTo(value, 6);
    });
    const opposite = drawn([{ a: 'box_price', b: 'cable_set_price', rank: -1 }], 'triangular');
    expect(sampleRankCorrelation(opposite.box_price, opposite.cable_set_price)).toBeCloseTo(-1, 6);
  });

  test('each item keeps its own distribution, and the others their very draws', () => {
    const free = drawn([], 'pert');
    const tied = drawn([{ a: 'box_price', b: 'cable_set_price', rank: 0.7 }], 'pert');
    expect(tied.labour_per_h).toEqual(free.labour_per_h);
    const mean = (list: number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
    // PERT mean (10 + 4 x 20 + 60) / 6 = 25; standard deviation 9.26, so that of the mean is 0.09.
    expect(Math.abs(mean(tied.cable_set_price) - 25)).toBeLessThan(0.4);
  });
});

test.each([
  [
    [{ a: 'box_price', b: 'box_prise', rank: 0.5 }],
    'box_prise is not drawn in the risk trials: only an item with a low and a high can move together with another',
  ],
  [[{ a: 'a', b: 'a', rank: 0.5 }], 'a cannot be correlated with itself'],
  [[{ a: 'a', b: 'b', rank: 1.5 }], 'the correlation of a and b is 1.5: it must be from -1 to 1'],
  [
    [
      { a: 'a', b: 'b', rank: 0.5 },
      { a: 'b', b: 'a', rank: 0.5 },
    ],
    'the correlation of a and b is given twice',
  ],
  [
    [
      { a: 'a', b: 'b', rank: 0.9 },
      { a: 'b', b: 'c', rank: 0.9 },
      { a: 'a', b: 'c', rank: -0.9 },
    ],
    'the correlations contradict one another: no set of inputs can have them all',
  ],
  [
    [
      { a: 'a', b: 'b', rank: 1 },
      { a: 'b', b: 'c', rank: 1 },
      { a: 'a', b: 'c', rank: 1 },
    ],
    null,
  ],
])('what is wrong with %j', (correlations, fault) => {
  expect(correlationFault(['a', 'b', 'c', 'box_price'], correlations)).toBe(fault);
});
