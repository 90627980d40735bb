/**
 * The distribution for the simulation. Each form is fitted by maximum likelihood and judged by Akaike's criterion
 * corrected for small samples (H. Akaike 1974; C. M. Hurvich, C.-L. Tsai, Biometrika 76, 1989). Forms within 2 of the least are as good
 * (K. P. Burnham, D. R. Anderson, *Model Selection and Multimodel Inference*); of these the one with the fewest parameters
 * that passes the test of fit is taken. Where none passes, or there are too few readings, the readings themselves are.
 */
import { mean as meanOf } from 'simple-statistics';
import { timeDistribution } from '../../distributions/distribution.js';
import type { Distribution } from '../../model/cell.js';
import { andersonDarling } from '../../statistics/anderson-darling.js';
import { fitExponential } from './fit-exponential.js';
import { fitGamma } from './fit-gamma.js';
import { fitLognormal } from './fit-lognormal.js';
import { fitPert } from './fit-pert.js';
import { fitTest } from './fit-test.js';
import { fitTriangular } from './fit-triangular.js';
import { fitWeibull } from './fit-weibull.js';
import type { Fitted, Fitter } from './fitted.js';
import { resolution } from './resolution.js';
import { withMean } from './with-mean.js';

export interface FitCandidate {
  readonly distribution: Distribution;
  readonly parameters: readonly number[];
  /** Corrected Akaike criterion; the less, the better. */
  readonly aicc: number;
  /** Above the least. */
  readonly aiccAboveBest: number;
  /** Anderson and Darling's distance. */
  readonly andersonDarling: number;
  /** Chance of so large a distance where the form is right; null where it was not worked out. */
  readonly pValue: number | null;
}

export interface FitChoice {
  readonly distribution: Distribution;
  /** In the unit of the readings, as variation.csv takes them; moved onto the mean of the readings. */
  readonly parameters: readonly number[];
  readonly mean: number;
  readonly sd: number;
  /** Why this one, as the end of a sentence. */
  readonly reason: string;
  /** Every form that was fitted, best first; empty where none was. */
  readonly candidates: readonly FitCandidate[];
}

/** Common practice: below this a form is a guess. */
const FEWEST_FOR_FORM = 20;
/** Below this even the readings themselves say little about the scatter. */
const FEWEST_FOR_SCATTER = 5;
/** The test of fit looks at no more than so many readings, every so-manieth of them in their order. */
const MOST_TESTED = 200;
const AS_GOOD = 2;
const REJECTED = 0.05;

const FITTERS: readonly Fitter[] = [
  fitLognormal,
  fitGamma,
  fitWeibull,
  fitExponential,
  fitPert,
  fitTriangular,
];

/**
 * @param values in the order of reading, all above 0, one or more
 * @throws RangeError for no values, or one that is not above 0
 */
export function chooseFit(values: readonly number[]): FitChoice {
  if (values.length === 0 || !values.every((v) => v > 0 && Number.isFinite(v)))
    throw new RangeError('a fit needs times above 0');
  const sorted = Float64Array.from(values).sort();
  if (sorted[0] === sorted.at(-1)) return constant(sorted, 'all readings are the same');
  if (values.length < FEWEST_FOR_SCATTER)
    return constant(sorted, `too few readings for a variation (${FEWEST_FOR_SCATTER} needed)`);
  if (values.length < FEWEST_FOR_FORM)
    return readingsChoice(sorted, `too few readings to fit a distribution (${FEWEST_FOR_FORM} needed)`, []);
  return chooseForm(values, sorted);
}

interface Ranked {
  readonly fit: Fitted;
  readonly fitter: Fitter;
  readonly aicc: number;
}

function chooseForm(values: readonly number[], sorted: Float64Array): FitChoice {
  const ranked = FITTERS.flatMap((fitter): Ranked[] => {
    const fit = fitter(sorted);
    return fit === null || !Number.isFinite(fit.logLikelihood)
      ? []
      : [{ fit, fitter, aicc: aiccOf(fit, sorted.length) }];
  }).sort((a, b) => a.aicc - b.aicc);
  const least = ranked[0]!.aicc;
  const asGood = ranked.filter((r) => r.aicc - least <= AS_GOOD).sort(bySimplicity);
  const tested = new Map<Ranked, number>();
  const chosen = asGood.find((r) => {
    const p = pValueOf(values, r.fitter);
    tested.set(r, p);
    return p >= REJECTED;
  });
  const candidates = ranked.map((r): FitCandidate => candidateOf(r, sorted, least, tested.get(r) ?? null));
  if (chosen === undefined) return readingsChoice(sorted, rejectedText(asGood), candidates);
  const { distribution } = chosen.fit;
  const fitted = timeDistribution(distribution, chosen.fit.parameters).mean;
  const parameters = withMean(distribution, chosen.fit.parameters, fitted, meanOf([...values]));
  const reason = chosenText(chosen, asGood);
  return { distribution, parameters, ...moments(distribution, parameters), reason, candidates };
}

function aiccOf({ freeParameters: k, logLikelihood }: Fitted, n: number): number {
  return 2 * k - 2 * logLikelihood + (2 * k * (k + 1)) / (n - k - 1);
}

/** Fewer parameters first, then the better fit. */
function bySimplicity(a: Ranked, b: Ranked): number {
  return a.fit.freeParameters - b.fit.freeParameters || a.aicc - b.aicc;
}

function pValueOf(values: readonly number[], fitter: Fitter): number {
  const step = Math.ceil(values.length / MOST_TESTED);
  const some = Float64Array.from(values.filter((_, i) => i % step === 0)).sort();
  const fit = some[0] === some.at(-1) ? null : fitter(some);
  return fit === null ? 0 : fitTest(some, fit, fitter, resolution(some));
}

function candidateOf(
  { fit, aicc }: Ranked,
  sorted: Float64Array,
  least: number,
  pValue: number | null,
): FitCandidate {
  const { distribution, parameters, share } = fit;
  return {
    distribution,
    parameters,
    aicc,
    aiccAboveBest: aicc - least,
    andersonDarling: andersonDarling(sorted, share),
    pValue,
  };
}

function chosenText(chosen: Ranked, asGood: readonly Ranked[]): string {
  const others = asGood.filter((r) => r !== chosen).map((r) => r.fit.distribution);
  if (others.length === 0) return 'it fits best by the corrected Akaike criterion';
  return `it fits as well as any by the corrected Akaike criterion; ${others.join(', ')} ${others.length === 1 ? 'is' : 'are'} as good`;
}

function rejectedText(asGood: readonly Ranked[]): string {
  const names = asGood.map((r) => r.fit.distribution).join(', ');
  return `no form fits: the best, ${names}, ${asGood.length === 1 ? 'is' : 'are'} rejected by the test of Anderson and Darling`;
}

function moments(distribution: Distribution, parameters: readonly number[]): { mean: number; sd: number } {
  const { mean, variance } = timeDistribution(distribution, parameters);
  return { mean, sd: Math.sqrt(variance) };
}

function constant(sorted: Float64Array, reason: string): FitChoice {
  const mean = sorted[0] === sorted.at(-1) ? sorted[0]! : meanOf([...sorted]);
  return { distribution: 'constant', parameters: [mean], mean, sd: 0, reason, candidates: [] };
}

function readingsChoice(
  sorted: Float64Array,
  reason: string,
  candidates: readonly FitCandidate[],
): FitChoice {
  const parameters = empirical(sorted);
  return { distribution: 'readings', parameters, ...moments('readings', parameters), reason, candidates };
}

/** The readings themselves as a distribution: each as likely as any other. */

/** So many stand for more: a cell of a table stays readable, and the mean is kept to a fraction of the spread. */
const MOST = 500;

/**
 * @param sorted readings ascending, two or more
 * @returns the readings, or from more than 500 of them the middles of 500 equal shares
 */
export function empirical(sorted: Float64Array): readonly number[] {
  const n = sorted.length;
  if (n <= MOST) return [...sorted];
  return Array.from({ length: MOST }, (_, i) => sorted[Math.floor(((i + 0.5) * n) / MOST)]!);
}
