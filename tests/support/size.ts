// How much the tests do, in one place.
import { test } from 'vitest';

/**
 * How much the tests do. `npm test` takes a sample of the cases of each property and the smaller of the large cells;
 * `npm run test:deep` runs the files that ask here once more, with all of them.
 */
export const isDeep = process.env.TEST_SIZE === 'deep';

/** A test that only the deep run has time for; what it holds for the whole, a smaller one holds in the quick run. */
export const deepTest: ReturnType<typeof test.runIf> = test.runIf(isDeep);

/** @param full cases of a property in the deep run */
export function cases(full: number): number {
  return isDeep ? full : Math.max(Math.min(full, 3), Math.ceil(full / 16));
}

/** What the quick run takes, and what the deep one does. */
export function atSize<T>(quick: T, deep: T): T {
  return isDeep ? deep : quick;
}

/** One in three of a list of checks alike, the last among them; all of them in the deep run. */
export function sample<T>(checks: readonly T[]): readonly T[] {
  return isDeep ? checks : checks.filter((_, k) => (checks.length - 1 - k) % 3 === 0);
}
