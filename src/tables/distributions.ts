/**
 * The distributions of variation.csv and their parameters, as data. The mean stands first; triangular and PERT, which
 * people state by three guesses, take them in their order: low, likely, high.
 */
import type { Distribution } from '../core/model/cell.js';
import type { NumberRule } from './number-column.js';

export interface DistributionFormat {
  /** The parameters in columns a, b and c: each with what it is and its range. */
  readonly parameters: readonly (NumberRule & { readonly name: string })[];
  /** Column a holds any number of values with bars between them. */
  readonly isList: boolean;
  readonly meaning: string;
}

/** Seconds or minutes, as the element has it. */
const most = 1_000_000;
const positive = { min: 0.01, max: most } as const;
const mean = { name: 'mean', words: 'a mean', ...positive } as const;

export const distributionFormats: Readonly<Record<Distribution, DistributionFormat>> = {
  constant: {
    parameters: [{ name: 'value', words: 'a value', min: 0, least: 0.01, max: most }],
    isList: false,
    meaning: 'always the same',
  },
  exponential: { parameters: [mean], isList: false, meaning: 'mean' },
  gamma: {
    parameters: [mean, { name: 'shape', words: 'a shape', min: 0.01, max: 10_000 }],
    isList: false,
    meaning: 'mean, shape (1 is exponential; the larger, the narrower)',
  },
  erlang: {
    parameters: [mean, { name: 'stages', words: 'stages', min: 1, max: 1000, whole: true }],
    isList: false,
    meaning: 'mean, number of stages',
  },
  lognormal: {
    parameters: [mean, { name: 'standard deviation', words: 'a standard deviation', min: 0.0001, max: most }],
    isList: false,
    meaning: 'mean, standard deviation (both of the time itself, not of its logarithm)',
  },
  triangular: threePoint('low, likely, high'),
  pert: threePoint('low, likely, high (mean = (low + 4 likely + high) / 6)'),
  weibull: {
    parameters: [mean, { name: 'shape', words: 'a shape', min: 0.1, max: 100 }],
    isList: false,
    meaning: 'mean, shape (1 is exponential)',
  },
  readings: {
    parameters: [{ name: 'readings', words: 'readings', min: 0, max: most }],
    isList: true,
    meaning: 'readings with bars between them in column a, such as `12.1|12.4|11.9`; drawn again at random',
  },
};

function threePoint(meaning: string): DistributionFormat {
  const names = ['low value', 'likely value', 'high value'];
  return {
    parameters: names.map((name) => ({ name, words: `a ${name}`, min: 0, max: most })),
    isList: false,
    meaning,
  };
}
