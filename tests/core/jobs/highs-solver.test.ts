/** The solver's adapter: small programs whose best is known by trying all, limits, and programs without an answer. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { MixedProgram } from '../../../src/core/lp/solve-linear-program.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import { cases } from '../../support/size.js';

const solve = await highsSolver();

/** Which things to pack, by value and weight. */
function packing(values: readonly number[], weights: readonly number[], limit: number): MixedProgram {
  const terms = (of: readonly number[]) => Object.fromEntries(of.map((value, i) => [`x${i}`, value]));
  const most = values.map((_, i) => ({ name: `one x${i}`, terms: { [`x${i}`]: 1 }, most: 1 }));
  return {
    sense: 'most',
    objective: terms(values),
    rows: [{ name: 'weight', terms: terms(weights), most: limit }, ...most],
    whole: values.map((_, i) => `x${i}`),
  };
}

function bestPacking(values: readonly number[], weights: readonly number[], limit: number): number {
  let best = 0;
  for (let set = 0; set < 1 << values.length; set++) {
    const sum = (of: readonly number[]) => of.reduce((s, v, i) => s + ((set >> i) & 1 ? v : 0), 0);
    if (sum(weights) <= limit) best = Math.max(best, sum(values));
  }
  return best;
}

const amounts = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 8, maxLength: 8 });

test('packs as trying all does', () => {
  fc.assert(
    fc.property(amounts, amounts, fc.integer({ min: 10, max: 200 }), (values, weights, limit) => {
      const answer = solve(packing(values, weights, limit), 100_000);
      const best = bestPacking(values, weights, limit);
      expect(answer).toMatchObject({ status: 'optimal' });
      if (answer.status !== 'optimal') return;
      expect(answer.value).toBeCloseTo(best, 6);
      expect(answer.bound).toBeCloseTo(best, 6);
    }),
    { numRuns: cases(30) },
  );
});

test('a program without whole numbers, and one without an answer', () => {
  const rows = [{ name: 'sum', terms: { a: 1, b: 2 }, least: 4 }];
  const low = { sense: 'least', objective: { a: 3, b: 5 }, rows } as const;
  expect(solve(low, 1)).toMatchObject({ status: 'optimal', value: 10, at: { a: 0, b: 2 } });
  const never = [...rows, { name: 'little', terms: { a: 1, b: 1 }, most: 1 }];
  expect(solve({ ...low, rows: never }, 1)).toEqual({ status: 'infeasible' });
});

test('stopped at its limit it tells the best found and a bound that holds', () => {
  const count = 30;
  const amountsOf = (k: number) =>
    Array.from({ length: count }, (_, i) => 20 + ((i * (37 + k * 12) + k * k * 7) % 71));
  const limits = [0, 1, 2, 3, 4].map((k) => {
    const { rows } = packing(
      amountsOf(k),
      amountsOf(k),
      Math.floor(amountsOf(k).reduce((a, b) => a + b) / 2),
    );
    return { ...rows[0]!, name: `weight ${k}` };
  });
  const plain = packing(amountsOf(7), amountsOf(7), 1e6);
  const program = { ...plain, rows: [...plain.rows, ...limits] };
  const best = solve(program, 1_000_000);
  const stopped = solve(program, 1);
  if (best.status !== 'optimal') throw new Error('the program was not solved to the end');
  if (stopped.status === 'infeasible' || stopped.status === 'unsure') throw new Error('nothing was found');
  expect(stopped.status).toBe('limit');
  expect(stopped.value).toBeLessThanOrEqual(best.value + 1e-6);
  expect(stopped.bound).toBeGreaterThanOrEqual(best.value - 1e-6);
});
