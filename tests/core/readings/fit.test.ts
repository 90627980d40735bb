// Distributions fitted to readings: against parameters known by construction, closed forms, and other ways to the most
// likely parameters.
import fc from 'fast-check';
import { mean as meanOf } from 'simple-statistics';
import { describe, expect, it, test } from 'vitest';
import { timeDistribution } from '../../../src/core/distributions/distribution.js';
import type { Distribution } from '../../../src/core/model/cell.js';
import { chooseFit, empirical } from '../../../src/core/readings/fit/choose-fit.js';
import { fitExponential } from '../../../src/core/readings/fit/fit-exponential.js';
import { fitGamma } from '../../../src/core/readings/fit/fit-gamma.js';
import { fitLognormal } from '../../../src/core/readings/fit/fit-lognormal.js';
import { fitPert } from '../../../src/core/readings/fit/fit-pert.js';
import { fitTriangular } from '../../../src/core/readings/fit/fit-triangular.js';
import { fitWeibull } from '../../../src/core/readings/fit/fit-weibull.js';
import type { Fitter } from '../../../src/core/readings/fit/fitted.js';
import { resolution } from '../../../src/core/readings/fit/resolution.js';
import { andersonDarling } from '../../../src/core/statistics/anderson-darling.js';
import { normalShare } from '../../../src/core/statistics/normal-share.js';
import { nextUniform, seedStream } from '../../../src/core/statistics/random-streams.js';
import { atSize, cases } from '../../support/size.js';

/** Readings drawn from a distribution, in order of drawing. */
function drawn(name: Distribution, parameters: readonly number[], n: number, seed: number): number[] {
  const { quantile } = timeDistribution(name, parameters);
  const state = new Int32Array(4);
  seedStream(state, 0, seed, `readings ${name}`, n);
  return Array.from({ length: n }, () => quantile(nextUniform(state, 0)));
}

/** The middles of n equal shares: a sample without luck. */
function ideal(name: Distribution, parameters: readonly number[], n: number): Float64Array {
  const { quantile } = timeDistribution(name, parameters);
  return Float64Array.from({ length: n }, (_, i) => quantile((i + 0.5) / n));
}

const KNOWN: readonly (readonly [Distribution, readonly number[], Fitter])[] = [
  ['exponential', [4], fitExponential],
  ['gamma', [8, 2], fitGamma],
  ['gamma', [240, 2500], fitGamma],
  ['lognormal', [240, 4], fitLognormal],
  ['lognormal', [8, 6], fitLognormal],
  ['weibull', [20, 2.5], fitWeibull],
  ['weibull', [30, 0.8], fitWeibull],
  ['triangular', [3.5, 4.2, 6], fitTriangular],
  ['pert', [306, 311, 322], fitPert],
];

describe('the most likely parameters', () => {
  test.each(KNOWN)('%s %j come back from a sample without luck', (name, parameters, fitter) => {
    const fit = fitter(ideal(name, parameters, 4000))!;
    const spread = Math.sqrt(timeDistribution(name, parameters).variance);
    for (const [i, value] of parameters.entries()) {
      const isTime = name === 'triangular' || name === 'pert' || i === 0 || name === 'lognormal';
      const scale = isTime ? spread : value;
      expect(Math.abs(fit.parameters[i]! - value) / scale, `parameter ${i}`).toBeLessThan(0.05);
    }
  });

  test.each(KNOWN)(
    '%s %j: none nearby is likelier, by the density as slope of the share',
    (name, parameters, fitter) => {
      const sorted = Float64Array.from(drawn(name, parameters, 60, 3)).sort();
      const fit = fitter(sorted)!;
      expect(logLikelihood(name, fit.parameters, sorted)).toBeCloseTo(fit.logLikelihood, 2);
      const spread = Math.sqrt(timeDistribution(name, fit.parameters).variance);
      for (const i of parameters.keys())
        for (const sign of [-1, 1]) {
          const isShape = (name === 'gamma' || name === 'weibull') && i === 1;
          const step = 0.02 * sign * (isShape ? fit.parameters[i]! : spread);
          const moved = fit.parameters.map((v, k) => (k === i ? v + step : v));
          if (endsInside(name, moved, sorted)) continue;
          expect(logLikelihood(name, moved, sorted), `${i} ${sign}`).toBeLessThan(fit.logLikelihood + 0.01);
        }
    },
  );

  it('the share that a fit tells undoes the quantile that the simulation draws by', () => {
    for (const [name, parameters, fitter] of KNOWN) {
      const fit = fitter(Float64Array.from(drawn(name, parameters, 80, 4)).sort())!;
      const { quantile } = timeDistribution(name, fit.parameters);
      for (const u of [0.01, 0.2, 0.5, 0.9, 0.995])
        expect(fit.share(quantile(u)), `${name} ${u}`).toBeCloseTo(u, 4);
    }
  });

  it('scale with the unit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        (seed, unit) => {
          const sorted = Float64Array.from(drawn('gamma', [10, 4], 30, seed)).sort();
          const scaled = sorted.map((v) => v * unit);
          for (const fitter of [fitExponential, fitGamma, fitLognormal, fitWeibull]) {
            const [a, b] = [fitter(sorted)!, fitter(scaled)!];
            expect(b.parameters[0]! / unit / a.parameters[0]!).toBeCloseTo(1, 6);
            expect(b.logLikelihood).toBeCloseTo(a.logLikelihood - 30 * Math.log(unit), 4);
          }
        },
      ),
      { numRuns: 30 },
    );
  });
});

/** From the quantile function alone: density = 1 / slope of the quantile. */
function logLikelihood(name: Distribution, parameters: readonly number[], sorted: Float64Array): number {
  const { quantile } = timeDistribution(name, parameters);
  return sorted.reduce((sum, x) => sum + Math.log(densityAt(quantile, x)), 0);
}

function densityAt(quantile: (u: number) => number, x: number): number {
  let [low, high] = [1e-12, 1 - 1e-12];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (quantile(middle) < x) low = middle;
    else high = middle;
  }
  const u = (low + high) / 2;
  const h = 1e-4 * Math.min(u, 1 - u);
  return (2 * h) / (quantile(u + h) - quantile(u - h));
}

/** Ends are kept clear of the readings, so the likelihood there is not looked at. */
function endsInside(name: Distribution, parameters: readonly number[], sorted: Float64Array): boolean {
  if (name !== 'triangular' && name !== 'pert') return false;
  const [low, mode, high] = parameters;
  const clear = (sorted.at(-1)! - sorted[0]!) / (2 * sorted.length);
  return low! > sorted[0]! - clear || high! < sorted.at(-1)! + clear || mode! < low! || mode! > high!;
}

describe('the choice', () => {
  // Broad forms from 400 readings: unlike each other beyond doubt.
  test.each([
    ['exponential', [4]],
    ['gamma', [8, 2]],
    ['lognormal', [8, 8]],
    ['weibull', [20, 3.5]],
    ['triangular', [3.9, 4, 6]],
  ] as const)('%s %j is found among the others', (name, parameters) => {
    const fit = chooseFit(drawn(name, parameters, 400, 11));
    expect(fit.distribution).toBe(name);
    expect(fit.candidates[0]!.aiccAboveBest).toBe(0);
  });

  it('has the mean of the readings, and nearly their deviation', () => {
    for (const [name, parameters] of KNOWN) {
      const values = drawn(name, parameters, 300, 5);
      const fit = chooseFit(values);
      const mean = meanOf(values);
      const sd = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length);
      expect(fit.mean / mean).toBeCloseTo(1, 8);
      expect(Math.abs(fit.sd / sd - 1), `${name}`).toBeLessThan(0.12);
    }
  });

  it('has the mean of the readings where the lowest lies at 0, too', () => {
    let atZero = 0;
    for (let seed = 0; seed < cases(40); seed++)
      for (const parameters of [
        [0, 0.5, 6],
        [0, 3, 6],
        [0, 5.5, 6],
      ]) {
        const values = drawn('triangular', parameters, 30, seed);
        const fit = chooseFit(values);
        if (fit.distribution === 'triangular' || fit.distribution === 'pert') atZero++;
        expect(fit.mean / meanOf(values), `${seed} ${parameters}`).toBeCloseTo(1, 8);
      }
    expect(atZero).toBeGreaterThan(cases(40) / 2);
  });

  it('of two heaps is none of the forms but the readings', () => {
    const half = atSize(20, 60);
    const heaps = [...drawn('lognormal', [100, 2], half, 1), ...drawn('lognormal', [140, 2], half, 2)];
    const fit = chooseFit(heaps);
    expect(fit.distribution).toBe('readings');
    expect(fit.reason).toContain('no form fits');
    expect(fit.parameters).toHaveLength(2 * half);
  });

  it('does not mind that the watch was read in steps', () => {
    let rejected = 0;
    for (let seed = 0; seed < 20; seed++) {
      const coarse = drawn('lognormal', [148, 0.8], 60, seed).map((v) => Math.round(2 * v) / 2);
      if (chooseFit(coarse).distribution === 'readings') rejected++;
    }
    // At 5% one in twenty; four or more would happen once in sixty.
    expect(rejected).toBeLessThan(4);
  });

  it('waits for enough readings', () => {
    expect(chooseFit([12])).toMatchObject({ distribution: 'constant', parameters: [12], sd: 0 });
    expect(chooseFit([12, 12, 12])).toMatchObject({ distribution: 'constant', parameters: [12] });
    expect(chooseFit([12, 13, 14])).toMatchObject({ distribution: 'constant', parameters: [13] });
    expect(chooseFit([12, 13, 14, 12, 11])).toMatchObject({
      distribution: 'readings',
      parameters: [11, 12, 12, 13, 14],
      mean: 12.4,
    });
    expect(() => chooseFit([])).toThrow('times above 0');
    expect(() => chooseFit([1, 0])).toThrow('times above 0');
  });

  it('gives finite figures whatever the readings', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1e-3, max: 1e5, noNaN: true }), { minLength: 1, maxLength: 60 }),
        (values) => {
          const fit = chooseFit(values);
          for (const v of [fit.mean, fit.sd, ...fit.parameters]) expect(Number.isFinite(v)).toBe(true);
          for (const c of fit.candidates)
            for (const v of [c.aicc, c.andersonDarling, ...c.parameters])
              expect(Number.isFinite(v)).toBe(true);
          expect(() => timeDistribution(fit.distribution, fit.parameters)).not.toThrow();
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('parts of it', () => {
  it('the distance of Anderson and Darling, by hand', () => {
    // One value at the middle of a uniform distribution: -1 - (ln 1/2 + ln 1/2) = 2 ln 2 - 1.
    expect(andersonDarling([0.5], (x) => x)).toBeCloseTo(2 * Math.LN2 - 1, 12);
    // D'Agostino and Stephens: for a known distribution values above 2.492 come once in twenty.
    let above = 0;
    for (let seed = 0; seed < 2000; seed++) {
      const sample = Float64Array.from(drawn('lognormal', [1, 1], 20, seed)).sort();
      const s = Math.sqrt(Math.LN2);
      if (andersonDarling(sample, (x) => normalShare((Math.log(x) + (s * s) / 2) / s)) > 2.492) above++;
    }
    expect(Math.abs(above / 2000 - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / 2000));
  });

  it('the step of the watch', () => {
    expect(resolution([12.2, 12.4, 13])).toBe(0.2);
    expect(resolution([12, 15])).toBe(1);
    expect(resolution([12.005, 15])).toBe(0.005);
    expect(resolution([Math.PI])).toBe(0);
  });

  it('very many readings are stood for by 500 with nearly the same mean', () => {
    const values = Float64Array.from(drawn('gamma', [8, 2], 5000, 1)).sort();
    const few = empirical(values);
    expect(few).toHaveLength(500);
    expect(meanOf([...few]) / meanOf([...values])).toBeCloseTo(1, 2);
  });
});
