// Time between stops with its interval, against tables of chi-square.
import { expect, test } from 'vitest';
import { stopRate } from '../../../src/core/log/stop-rate.js';

// Quantiles of chi-square as printed in any table (from memory): 0.975 with 22 degrees of freedom 36.781, 0.025 with 20
// 9.591; 0.95 with 2: 5.991.
test('the interval holds 2 T over the quantiles of chi-square', () => {
  const rate = stopRate(10, 100 * 3600, 0.95);
  expect(rate.mtbfH).toBe(10);
  expect(rate.ciLow).toBeCloseTo(200 / 36.781, 3);
  expect(rate.ciHigh).toBeCloseTo(200 / 9.591, 2);
});

test('without a stop there is a lower limit only', () => {
  const rate = stopRate(0, 100 * 3600, 0.9);
  expect(rate.mtbfH).toBeNull();
  expect(rate.ciHigh).toBeNull();
  expect(rate.ciLow).toBeCloseTo(200 / 5.991, 2);
});
