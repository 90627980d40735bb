/** Two moments of a run as numbers. */
import { expect, it } from 'vitest';
import { floorState, isAlike } from '../../../src/core/floor/floor-state.js';
import { line } from '../simulate/cells.js';
import { told } from './told.js';

it('are alike where all numbers are, but for their last digits', () => {
  const alike = (a: readonly number[], b: readonly number[]) =>
    isAlike(Float64Array.from(a), Float64Array.from(b));
  expect(alike([1, 2], [1, 2])).toBe(true);
  expect(alike([1, 2], [1, 2, 3])).toBe(false);
  expect(alike([1, 2, 3], [1, 2])).toBe(false);
  expect([alike([1, 2], [1, 2 + 1e-7]), alike([1, 2], [1, 2 + 2e-7]), alike([1, 2], [1, 2 - 2e-7])]).toEqual([
    true,
    false,
    false,
  ]);
  expect([alike([1, Number.NaN], [1, 2]), alike([3, 2], [1, 2])]).toEqual([false, false]);
  const never = Number.POSITIVE_INFINITY;
  expect([alike([never], [never]), alike([never], [1])]).toEqual([true, false]);
});

it('a round later the state is the same, in the midst of it another', () => {
  // To 3 s of way, 2 s to pick and to place at each of rack, machine and outfeed: unload and out 7, back 3, fetch and fill 7.
  const { run } = told(line([30]), 'first', 100);
  const at = (timeS: number) => {
    run.to(timeS);
    return floorState(run);
  };
  const first = at(110);
  const after = at(110 + 17);
  expect(isAlike(first, after)).toBe(false);
  expect(isAlike(first, at(110 + 47))).toBe(true);
  expect(isAlike(first, at(110 + 2 * 47))).toBe(true);
});
