// How much the tests do, in one place.
import { test } from 'vitest';

/**
 * How much the tests do. `npm test` takes a sample of the cases of each property and the smaller of the large cells;
 * `npm run test:deep` runs the files that ask here once more, with some three times as many cases and with larger cells, in
 * some minutes; `npm run test:long` takes all cases, and the largest cells of data/ too, which takes too long for CI.
 */
export const isLong = process.env.TEST_SIZE === 'long';
export const isDeep = isLong || process.env.TEST_SIZE === 'deep';

/** A test that only the deep run has time for; what it holds for the whole, a smaller one holds in the quick run. */
export const deepTest: ReturnType<typeof test.runIf> = test.runIf(isDeep);

/** A test that only the long run has time for; the deep run holds the same of a smaller cell. */
export const longTest: ReturnType<typeof test.runIf> = test.runIf(isLong);

/** @param full cases of a property in the long run; the deep one takes one in five, the quick one in twenty */
export function cases(full: number): number {
  if (isLong) return full;
  const fewest = Math.min(full, 3);
  return Math.max(fewest, Math.ceil(full * (isDeep ? 0.2 : 1 / 20)));
}

/** What the quick run takes, what the deep one does, and the long one where it takes more. */
export function atSize<T>(quick: T, deep: T, long: T = deep): T {
  return isLong ? long : isDeep ? deep : quick;
}

/** One in three of a list of checks alike, the last among them; all of them in the deep run. */
export function sample<T>(checks: readonly T[]): readonly T[] {
  return isDeep ? checks : checks.filter((_, k) => (checks.length - 1 - k) % 3 === 0);
}
