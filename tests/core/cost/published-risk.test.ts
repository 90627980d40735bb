/** Doubt: distributions, standard errors and the tornado against published and recomputed values. */
import { describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { incompleteBeta } from '../../../src/core/statistics/incomplete-beta.js';
import { quantileStandardError, shareStandardError } from '../../../src/core/statistics/standard-errors.js';
import { pert, type Spread, type ThreePoint, triangular } from '../../../src/core/statistics/three-point.js';
import { referenceChecks } from '../../support/reference.js';
import { changeoverRow, costCell } from './support/cost-cell.js';

interface Check {
  readonly id: string;
  readonly inputs: Record<string, number>;
  readonly expected: number | readonly number[] | readonly string[];
  readonly tolerance: number;
}
const checks = referenceChecks<Check>('risk');
const check = (id: string): Check => checks.find((c) => c.id === id)!;
const point = (id: string): ThreePoint => {
  const { a, m, b } = check(id).inputs;
  return { low: a!, mode: m!, high: b! };
};
function expectClose(id: string, ...actual: number[]): void {
  const { expected, tolerance } = check(id);
  const wanted = [expected].flat() as number[];
  expect(actual.length).toBe(wanted.length);
  wanted.forEach((value, k) => {
    expect(Math.abs(actual[k]! - value), `${id} [${k}] ${actual[k]}`).toBeLessThanOrEqual(tolerance + 1e-12);
  });
}

/** Mean and variance from the inverse alone, by the middles of 40,000 equal shares. */
function momentsOf(spread: Spread): { mean: number; variance: number } {
  const n = 40_000;
  const values = Array.from({ length: n }, (_, k) => spread.quantile((k + 0.5) / n));
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  return { mean, variance: values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / n };
}

describe('three-point distributions', () => {
  it('PERT means and variance', () => {
    expectClose('risk.pert.100_140_185', pert(point('risk.pert.100_140_185')).mean);
    expectClose('risk.pert.25_35_50', pert(point('risk.pert.25_35_50')).mean);
    const { low, high } = point('risk.pert.5_8_14');
    // The second figure is the classical spread, a sixth of the range.
    expectClose('risk.pert.5_8_14', pert(point('risk.pert.5_8_14')).mean, (high - low) / 6);
    const exact = pert(point('risk.pert.exact_identity'));
    expectClose('risk.pert.exact_identity', exact.variance);
    const [alpha, beta, variance] = check('risk.pert.exact_var').expected as number[];
    expect(exact.variance).toBeCloseTo(variance!, 9);
    for (const u of [0.001, 0.05, 0.3, 0.5, 0.77, 0.99, 0.9999])
      expect(incompleteBeta((exact.quantile(u) - low) / (high - low), alpha!, beta!)).toBeCloseTo(u, 8);
  });
  it('triangular mean and variance', () => {
    const spread = triangular(point('risk.tri.5_8_14'));
    expectClose('risk.tri.5_8_14', spread.mean, spread.variance);
  });
  it('the inverses carry the means and variances that the formulas say', () => {
    for (const shape of [triangular, pert]) {
      for (const [low, mode, high] of [
        [5, 8, 14],
        [0, 0, 1],
        [-3, 2, 2],
        [10, 10.001, 900],
      ] as const) {
        const spread = shape({ low, mode, high });
        const found = momentsOf(spread);
        const width = high - low;
        expect(Math.abs(found.mean - spread.mean)).toBeLessThan(2e-5 * width);
        expect(Math.abs(found.variance - spread.variance)).toBeLessThan(2e-5 * width * width);
      }
    }
  });
  it('no range, no spread; a wrong order is refused', () => {
    expect(pert({ low: 3, mode: 3, high: 3 }).quantile(0.9)).toBe(3);
    expect(triangular({ low: 3, mode: 3, high: 3 }).quantile(0.1)).toBe(3);
    expect(() => pert({ low: 4, mode: 3, high: 5 })).toThrow('low 4, most likely 3 and high 5');
    expect(() => triangular({ low: Number.NaN, mode: 3, high: 5 })).toThrow(
      'must be finite and in that order',
    );
  });
  it('the incomplete beta function on values with a closed form', () => {
    // I_x(1, b) = 1 - (1 - x)^b; I_x(2, 2) = 3x^2 - 2x^3.
    expect(incompleteBeta(0.3, 1, 4)).toBeCloseTo(1 - 0.7 ** 4, 13);
    expect(incompleteBeta(0.3, 2, 2)).toBeCloseTo(3 * 0.09 - 2 * 0.027, 13);
    expect(incompleteBeta(0.9, 5, 1)).toBeCloseTo(0.9 ** 5, 13);
  });
});

describe('standard errors', () => {
  it('of sample quantiles', () => {
    for (const id of ['risk.qse.uniform.0.5', 'risk.qse.uniform.0.25']) {
      const { p, n } = check(id).inputs;
      expectClose(id, quantileStandardError(p!, n!, 1) ** 2);
    }
    const normalAt95 = Math.exp(-(1.6448536269514722 ** 2) / 2) / Math.sqrt(2 * Math.PI);
    expectClose('risk.qse.normal95', quantileStandardError(0.95, 100, normalAt95));
    expectClose('risk.qse.median', quantileStandardError(0.5, 100, 1 / Math.sqrt(2 * Math.PI)) / (1 / 10));
    const tri = triangular({ low: 5, mode: 8, high: 14 });
    const density = (2 * (14 - tri.quantile(0.9))) / (9 * 6);
    expectClose('risk.qse.tri90', quantileStandardError(0.9, 10_000, density));
  });
  it('of a mean and of a share', () => {
    const [forMean, forShare] = check('risk.mcse').expected as number[];
    expect(1 / Math.sqrt(forMean!)).toBeCloseTo(0.01, 12);
    expect(shareStandardError(0.9, forShare!)).toBeCloseTo(0.005, 12);
  });
});

describe('tornado', () => {
  const { min_saved, rate, changeovers, box_cost, years, i } = check('risk.tornado.base').inputs;
  const ranges = (
    check('risk.tornado.order').inputs as unknown as { ranges: Record<string, [number, number]> }
  ).ranges;
  const share = (count: number) => (100 * count) / changeovers!;
  const found = costCase(
    costCell(
      {
        labour_per_h: [rate!, ...ranges.rate!],
        box_price: [box_cost!, ...ranges.box_cost!],
        harness_connectors: 1,
        harness_elsewhere_per_year: 1e6,
        harness_min_per_connector: [min_saved!, ...ranges.min_saved!],
        horizon_years: [years!, ...ranges.years!],
        discount_pct: 100 * i!,
        changeover_count_pct: [100, share(ranges.changeovers![0]), share(ranges.changeovers![1])],
      },
      [changeoverRow('mill', changeovers!)],
    ),
    null,
  );
  if (found.status !== 'found') throw new Error(found.recommendation);
  const nameOf: Record<string, string> = {
    changeover_count_pct: 'changeovers',
    harness_min_per_connector: 'min_saved',
    horizon_years: 'years',
    labour_per_h: 'rate',
    box_price: 'box_cost',
  };

  it('base value, order of the bars, swings', () => {
    expectClose('risk.tornado.base', found.increment.npv);
    expect(found.tornado.map((bar) => nameOf[bar.item])).toEqual(check('risk.tornado.order').expected);
    expectClose('risk.tornado.swings', ...found.tornado.map((bar) => bar.npvHigh - bar.npvLow));
  });
});
