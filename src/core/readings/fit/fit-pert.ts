/** PERT distribution (a beta distribution with shape sum 6) by maximum likelihood over its ends and its most likely value. */
import { exp, log } from '../../numbers/functions.js';
import { incompleteBeta } from '../../statistics/incomplete-beta.js';
import { logBeta } from '../../statistics/log-beta.js';
import { simplexSearch } from '../../statistics/simplex-search.js';
import type { Fitter } from './fitted.js';
import { type EndSearch, endSearch, thinned } from './spread-ends.js';

interface Three {
  readonly low: number;
  readonly mode: number;
  readonly high: number;
}

export const fitPert: Fitter = (sorted) => {
  const few = thinned(sorted);
  const search = endSearch(sorted);
  const found = simplexSearch(
    (at) => {
      const three = threeAt(search, at);
      return three.low < 0 ? Infinity : -logLikelihood(few, three);
    },
    [...search.start, 0],
    1,
  );
  const three = threeAt(search, found);
  const { low, mode, high } = three;
  const [a, b] = shapes(three);
  return {
    distribution: 'pert',
    parameters: [low, mode, high],
    freeParameters: 3,
    logLikelihood: logLikelihood(sorted, three),
    share: (x) => incompleteBeta((x - low) / (high - low), a, b),
  };
};

/** The most likely value lies between the ends by the logistic function of a free number. */
function threeAt({ endsAt }: EndSearch, [below, above, middle]: readonly number[]): Three {
  const { low, high } = endsAt(below!, above!);
  return { low, mode: low + (high - low) / (1 + exp(-middle!)), high };
}

function shapes({ low, mode, high }: Three): [number, number] {
  return [1 + (4 * (mode - low)) / (high - low), 1 + (4 * (high - mode)) / (high - low)];
}

function logLikelihood(sorted: Float64Array, three: Three): number {
  const { low, high } = three;
  const [a, b] = shapes(three);
  let sum = 0;
  for (const x of sorted) sum += (a - 1) * log(x - low) + (b - 1) * log(high - x);
  return sum - sorted.length * (logBeta(a, b) + 5 * log(high - low));
}
