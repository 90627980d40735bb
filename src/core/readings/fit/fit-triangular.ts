/**
 * Triangular distribution by maximum likelihood. For given ends the most likely value is one of the readings (D. Johnson,
 * S. Kotz, *Beyond Beta*, after D. R. Oliver, 1972), so only the two ends are searched for.
 */
import { log } from '../../numbers/functions.js';
import { simplexSearch } from '../../statistics/simplex-search.js';
import type { Fitted, Fitter } from './fitted.js';
import { type Ends, endSearch, thinned } from './spread-ends.js';

export const fitTriangular: Fitter = (sorted) => {
  const few = thinned(sorted);
  const { endsAt, start } = endSearch(sorted);
  const found = simplexSearch(
    ([below, above]) => {
      const ends = endsAt(below!, above!);
      return ends.low < 0 ? Infinity : -best(few, ends).logLikelihood;
    },
    start,
    1,
  );
  return fitted(sorted, endsAt(found[0]!, found[1]!));
};

interface Peak {
  readonly at: number;
  readonly logLikelihood: number;
}

/** The reading that is best as the most likely value, by running sums from both sides. */
function best(sorted: Float64Array, { low, high }: Ends): Peak {
  const n = sorted.length;
  const above = new Float64Array(n + 1);
  for (let i = n - 1; i >= 0; i--) above[i] = above[i + 1]! + log(high - sorted[i]!);
  let [below, at, most] = [0, 0, -Infinity];
  for (let i = 0; i < n; i++) {
    const peak = sorted[i]!;
    const side = below - i * log(peak - low) + above[i + 1]! - (n - 1 - i) * log(high - peak);
    if (side > most) [most, at] = [side, peak];
    below += log(peak - low);
  }
  return { at, logLikelihood: most + n * log(2 / (high - low)) };
}

function fitted(sorted: Float64Array, ends: Ends): Fitted {
  const { low, high } = ends;
  const { at: peak, logLikelihood } = best(sorted, ends);
  const width = high - low;
  return {
    distribution: 'triangular',
    parameters: [low, peak, high],
    freeParameters: 3,
    logLikelihood,
    share: (x) => {
      if (x <= low || x >= high) return x <= low ? 0 : 1;
      return x < peak
        ? (x - low) ** 2 / (width * (peak - low))
        : 1 - (high - x) ** 2 / (width * (high - peak));
    },
  };
}
