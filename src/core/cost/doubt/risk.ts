/**
 * Monte Carlo: every doubtful input drawn from its own distribution at once, many times over. Each item has its own
 * random stream, named after it, and one uniform number a trial turned by the inverse of its distribution: two cases
 * under one seed meet the same luck.
 */

import { quantile } from '../../statistics/quantile.js';
import { nextUniform, streamState } from '../../statistics/random-streams.js';
import { quantileStandardError, shareStandardError } from '../../statistics/standard-errors.js';
import { pert, triangular } from '../../statistics/three-point.js';
import { type CaseInputs, follow } from '../case-inputs.js';
import { copula, type RankCorrelation } from './correlation.js';
import { type Histogram, histogram } from './histogram.js';
import type { RangedItem } from './ranged-items.js';

export interface Risk {
  readonly trials: number;
  readonly seed: number;
  readonly distribution: 'pert' | 'triangular';
  /** Items that are drawn. */
  readonly items: readonly string[];
  /** Items that move together; all others are independent. */
  readonly correlations: readonly RankCorrelation[];
  /** Share of trials in which the boxes are worth more than the harness, 0 to 1. */
  readonly probabilityPays: number;
  readonly probabilityStandardError: number;
  readonly npv: {
    readonly mean: number;
    readonly meanStandardError: number;
    readonly sd: number;
    readonly p10: number;
    readonly p50: number;
    readonly p90: number;
    /** Standard errors of the three quantiles. */
    readonly quantileStandardErrors: { readonly p10: number; readonly p50: number; readonly p90: number };
    /** How the trials spread over the values. */
    readonly histogram: Histogram;
  };
}

export interface RiskOptions {
  readonly trials: number;
  readonly seed: number;
  readonly distribution: 'pert' | 'triangular';
  readonly correlations?: readonly RankCorrelation[];
}

/**
 * @param watched the figures that are watched, as many at any inputs
 * @returns the spread of each, all from the same draws
 * @throws RangeError unless there is at least one trial, a whole number, the seed is finite and the correlations can
 *   all hold
 */
export function risks(
  inputs: CaseInputs,
  items: readonly RangedItem[],
  watched: (inputs: CaseInputs) => readonly number[],
  { trials, seed, distribution, correlations = [] }: RiskOptions,
): Risk[] {
  if (!Number.isInteger(trials) || trials < 1)
    throw new RangeError(`the number of trials is ${trials}: it must be a whole number of 1 or more`);
  if (!Number.isFinite(seed)) throw new RangeError(`the seed is ${seed}: it must be a finite number`);
  const spreads = items.map((item) => (distribution === 'pert' ? pert(item) : triangular(item)));
  const states = new Int32Array(items.flatMap((item) => streamState(seed, `cost ${item.item}`, 0)));
  // One set of numbers, written over in every trial: copying it each time would take most of the work.
  const numbers: Record<string, number | null> = { ...inputs.numbers };
  const drawnCase: CaseInputs = { ...inputs, numbers };
  const names = items.map((item) => item.item);
  const together = correlations.length > 0 ? copula(names, correlations) : null;
  const told = { seed, distribution, items: names, correlations };
  if (items.length === 0)
    return watched(inputs).map((value) => ({ ...summary(new Float64Array(trials).fill(value)), ...told }));
  const values: Float64Array[] = [];
  const uniforms = new Float64Array(items.length);
  for (let trial = 0; trial < trials; trial++) {
    for (let k = 0; k < items.length; k++) uniforms[k] = nextUniform(states, k);
    together?.mix(uniforms);
    for (let k = 0; k < items.length; k++) {
      const amount = spreads[k]!.quantile(uniforms[k]!);
      numbers[items[k]!.item] = items[k]!.whole ? Math.round(amount) : amount;
    }
    follow(numbers, inputs.followers);
    watched(drawnCase).forEach((figure, w) => {
      values[w] ??= new Float64Array(trials);
      values[w][trial] = figure;
    });
  }
  return values.map((amounts) => ({ ...summary(amounts), ...told }));
}

function summary(values: Float64Array): Omit<Risk, 'seed' | 'distribution' | 'items' | 'correlations'> {
  const trials = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / trials;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const sd = trials > 1 ? Math.sqrt(squares / (trials - 1)) : 0;
  const probabilityPays = values.reduce((count, value) => count + (value > 0 ? 1 : 0), 0) / trials;
  const sorted = values.slice().sort();
  return {
    trials,
    probabilityPays,
    probabilityStandardError: shareStandardError(probabilityPays, trials),
    npv: {
      mean,
      meanStandardError: sd / Math.sqrt(trials),
      sd,
      p10: quantile(sorted, 0.1),
      p50: quantile(sorted, 0.5),
      p90: quantile(sorted, 0.9),
      quantileStandardErrors: {
        p10: errorOfQuantile(sorted, 0.1),
        p50: errorOfQuantile(sorted, 0.5),
        p90: errorOfQuantile(sorted, 0.9),
      },
      histogram: histogram(sorted),
    },
  };
}

/** With the density taken from the quantiles 2 points to either side. */
function errorOfQuantile(sorted: Float64Array, p: number): number {
  const width = quantile(sorted, p + 0.02) - quantile(sorted, p - 0.02);
  return width > 0 ? quantileStandardError(p, sorted.length, 0.04 / width) : 0;
}
