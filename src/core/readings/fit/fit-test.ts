/**
 * Whether readings could well have come from a fitted distribution: the share of samples drawn from it, each fitted anew,
 * that lie farther from their fit than the readings do from theirs (parametric bootstrap; W. Stute, W. Gonzáles Manteiga,
 * M. Presedo Quindimil, Metrika 40, 1993). Samples are rounded as the watch was read, else every rounded reading would seem
 * strange. Drawing stops early when the answer is plain (J. Besag, P. Clifford, Biometrika 78, 1991).
 */
import { timeDistribution } from '../../distributions/distribution.js';
import { andersonDarling } from '../../statistics/anderson-darling.js';
import { nextUniform, seedStream } from '../../statistics/random-streams.js';
import type { Fitted, Fitter } from './fitted.js';

const MOST_SAMPLES = 99;
/** So many farther samples tell that the fit is good enough. */
const ENOUGH_FARTHER = 10;
const SEED = 1;

/**
 * @param sorted the readings that `fit` was made from, ascending
 * @param stepS step in which they were read, 0 for none
 * @returns chance of so large a distance where the form is right; never 0
 */
export function fitTest(sorted: Float64Array, fit: Fitted, fitter: Fitter, stepS: number): number {
  const own = andersonDarling(sorted, fit.share);
  const { quantile } = timeDistribution(fit.distribution, fit.parameters);
  const state = new Int32Array(4);
  let farther = 0;
  for (let sample = 0; sample < MOST_SAMPLES; sample++) {
    seedStream(state, 0, SEED, `fit ${fit.distribution}`, sample);
    const drawn = sorted.map(() => rounded(quantile(nextUniform(state, 0)), stepS)).sort();
    if (distance(drawn, fitter) >= own) farther++;
    if (farther === ENOUGH_FARTHER) return farther / (sample + 1);
  }
  return (farther + 1) / (MOST_SAMPLES + 1);
}

/** A drawn sample that is all alike, or that the form does not fit, says nothing against the readings. */
function distance(drawn: Float64Array, fitter: Fitter): number {
  const fit = drawn[0] === drawn.at(-1) ? null : fitter(drawn);
  return fit === null ? Infinity : andersonDarling(drawn, fit.share);
}

function rounded(value: number, stepS: number): number {
  if (stepS === 0) return Math.max(value, Number.MIN_VALUE);
  return Math.max(1, Math.round(value / stepS)) * stepS;
}
