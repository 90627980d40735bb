// Mean, standard deviation and lag-1 autocorrelation against NIST's certified values.
import { describe, expect, it } from 'vitest';
import { lag1Autocorrelation } from '../../../src/core/statistics/autocorrelation.js';
import { meanInterval } from '../../../src/core/statistics/mean-interval.js';
import published from '../../reference/published/strd.json' with { type: 'json' };

const data: Readonly<Record<string, readonly number[]>> = published.data;

interface Inputs {
  readonly dataset?: string;
  readonly x?: readonly number[];
  readonly a?: number;
  readonly b?: number;
  readonly c?: number;
}

function valuesOf({ dataset, x, a, b, c }: Inputs): readonly number[] {
  if (dataset !== undefined) return data[dataset.toLowerCase()]!;
  if (x !== undefined) return x;
  return [a!, ...Array.from({ length: 500 }, () => [b!, c!]).flat()];
}

/** Significant digits on which a value agrees with the certified one (log relative error). */
function digits(value: number, certified: number): number {
  return value === certified ? 15 : -Math.log10(Math.abs((value - certified) / certified));
}

/**
 * Digits that doubles can hold here: values such as 10000000.1 are not doubles themselves, and the deviations of
 * NumAcc3 and NumAcc4 are what is left after 7 and 8 of their 16 digits cancel.
 */
const HELD: Readonly<Record<string, readonly [mean: number, sd: number, r: number]>> = {
  'strd.NumAcc3': [15, 9, 9],
  'strd.NumAcc4': [15, 8, 8],
};

describe('NIST StRD, univariate', () => {
  it.each(published.checks)('$id', ({ id, inputs, expected }) => {
    const values = valuesOf(inputs as Inputs);
    const { mean, sd } = meanInterval(values);
    const r = lag1Autocorrelation(values)!;
    const [meanDigits, sdDigits, rDigits] = HELD[id] ?? [13, 12, 11];
    expect(digits(mean, expected[0]!), 'mean').toBeGreaterThanOrEqual(meanDigits);
    expect(digits(sd, expected[1]!), 'standard deviation').toBeGreaterThanOrEqual(sdDigits);
    expect(digits(r, expected[2]!), 'autocorrelation').toBeGreaterThanOrEqual(rDigits);
  });

  it('all eight sets are there', () => {
    expect(published.checks).toHaveLength(8);
  });
});
