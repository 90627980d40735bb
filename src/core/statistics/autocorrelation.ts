/** How strongly a value of a series hangs together with the one before it. */
import { mean as meanOf } from 'simple-statistics';

/**
 * Autocorrelation at lag 1: sum of (x[i] - m)(x[i+1] - m) over the sum of (x[i] - m)^2, m the mean of all values; the
 * definition of NIST's certified values (StRD, univariate summary statistics).
 *
 * @param values in order, two or more
 * @returns -1 to 1; null where all values are the same
 * @throws RangeError for fewer than two values
 * @example lag1Autocorrelation([1, 3, 2]) // -0.5
 */
export function lag1Autocorrelation(values: readonly number[]): number | null {
  if (values.length < 2) throw new RangeError('an autocorrelation needs at least two values');
  const mean = meanOf([...values]);
  let [across, own] = [0, 0];
  for (const [i, value] of values.entries()) {
    const apart = value - mean;
    own += apart * apart;
    if (i > 0) across += apart * (values[i - 1]! - mean);
  }
  return own === 0 ? null : across / own;
}
