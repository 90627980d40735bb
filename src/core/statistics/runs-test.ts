/**
 * Whether values above and below the middle come mixed or in stretches: the number of runs (A. Wald, J. Wolfowitz, Annals
 * of Mathematical Statistics 11, 1940; NIST/SEMATECH e-Handbook 1.3.5.13).
 */
import { normalShare } from './normal-share.js';
import { quantile } from './quantile.js';

export interface RunsTest {
  /** Stretches on one side of the median; values on it are left out. */
  readonly runs: number;
  /** Stretches to be expected of values in random order. */
  readonly expected: number;
  /** Chance of a count at least this far from the expected one in random order (normal approximation, two-sided). */
  readonly pValue: number;
}

/**
 * @param values in order
 * @returns null where fewer than two values lie on a side of the median
 */
export function runsTest(values: readonly number[]): RunsTest | null {
  if (values.length === 0) return null;
  const median = quantile(Float64Array.from(values).sort(), 0.5);
  const sides = values.filter((v) => v !== median).map((v) => v > median);
  const above = sides.filter((side) => side).length;
  const below = sides.length - above;
  if (above < 2 || below < 2) return null;
  const runs = sides.filter((side, i) => i === 0 || side !== sides[i - 1]).length;
  const n = sides.length;
  const product = 2 * above * below;
  const expected = product / n + 1;
  const variance = (product * (product - n)) / (n * n * (n - 1));
  const z = Math.abs(runs - expected) / Math.sqrt(variance);
  return { runs, expected, pValue: Math.min(1, 2 * (1 - normalShare(z))) };
}
