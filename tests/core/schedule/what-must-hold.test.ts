/**
 * What must hold of every schedule: no rule and no set of few parts makes more, no bound is exceeded, larger limits and
 * cells that can do more never give less. `HOLD_SEEDS=100-199 npm run test:deep` draws
 * other cells.
 */
import { describe, expect, test } from 'vitest';
import { atSize, isDeep } from '../../support/size.js';
import {
  cellKinds,
  drawnCell,
  faultsOfLimits,
  faultsOfMore,
  faultsOfRules,
} from '../../support/what-holds.js';

const [from, to] = (process.env.HOLD_SEEDS ?? `1-${atSize(1, 2, 20)}`).split('-').map(Number) as [
  number,
  number,
];
const seeds = Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** One gripper or two; in the quick run every other kind with two. */
function handsOf(kind: string): readonly (1 | 2)[] {
  return isDeep || process.env.HOLD_SEEDS !== undefined
    ? [1, 2]
    : [Object.keys(cellKinds).indexOf(kind) % 2 === 0 ? 1 : 2];
}

describe.each(Object.keys(cellKinds))('%s', (kind) => {
  const each = async (
    faultsOf: (cell: ReturnType<typeof drawnCell>, seed: number) => string[] | Promise<string[]>,
  ) => {
    const faults: string[] = [];
    for (const seed of seeds)
      for (const hands of handsOf(kind))
        for (const fault of await faultsOf(drawnCell(kind, seed, hands), seed))
          faults.push(`seed ${seed}, ${hands} hands: ${fault}`);
    expect(faults).toEqual([]);
  };

  test('no rule makes more than the schedule or a bound', () => each((cell) => faultsOfRules(cell)));
  test.runIf(isDeep)('larger limits never give less, and no set of up to three parts more', () =>
    each(faultsOfLimits),
  );
  test.runIf(isDeep)('a cell that can do more never makes less', () =>
    each((cell, seed) => faultsOfMore(cell, seed)),
  );
});
