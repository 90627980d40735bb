// The measures of an increment belong together: the running value ends at the present value, and payback is where it turns.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { incrementResult } from '../../../src/core/cost/increment-result.js';

const rates = { discount: 0.08, finance: 0.08, reinvest: 0.08 };

test('by hand: 100 spent, 60 back in each of two years', () => {
  const { runningPresentValue } = incrementResult([-100, 60, 60], rates);
  expect(runningPresentValue[0]).toBe(-100);
  expect(runningPresentValue[1]).toBeCloseTo(-100 + 60 / 1.08, 9);
  expect(runningPresentValue[2]).toBeCloseTo(-100 + 60 / 1.08 + 60 / 1.08 ** 2, 9);
});

test('it ends at the present value, and is at or over 0 from the payback with interest on', () => {
  const flow = fc.double({ min: 0, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(flow, fc.array(flow, { minLength: 1, maxLength: 30 }), (spent, back) => {
      const {
        runningPresentValue: running,
        npv,
        discountedPaybackYears: payback,
      } = incrementResult([-spent - 1, ...back], rates);
      expect(running).toHaveLength(back.length + 1);
      expect(running.at(-1)).toBeCloseTo(npv, 6);
      const first = running.findIndex((value) => value >= 0);
      if (payback === null) expect(running.every((value) => value < 1e-6)).toBe(true);
      else expect(Math.abs(Math.ceil(payback - 1e-9) - first)).toBe(0);
    }),
    { seed: 3 },
  );
});
