/**
 * Distributions of a value from its low, most likely and high: triangular and PERT, with their inverses; for times of the
 * simulation and for cost items alike.
 */
import { cos, exp, log } from '../numbers/functions.js';
import { incompleteBeta } from './incomplete-beta.js';
import { logBeta } from './log-beta.js';
import { tabulateFamily } from './tabulate-quantile.js';

export interface Spread {
  readonly mean: number;
  readonly variance: number;
  /** Value below which the share u of all outcomes lies, 0 < u < 1. */
  quantile(u: number): number;
}

/** A value that lies between low and high, most likely at `mode`. */
export interface ThreePoint {
  readonly low: number;
  readonly mode: number;
  readonly high: number;
}

/**
 * Mean (a + m + b)/3, variance (a2 + m2 + b2 - am - ab - mb)/18.
 *
 * @throws RangeError unless low <= mode <= high, all finite
 */
export function triangular(point: ThreePoint): Spread {
  requireOrder(point);
  const { low, mode, high } = point;
  const width = high - low;
  if (width === 0) return { mean: mode, variance: 0, quantile: () => mode };
  const turn = (mode - low) / width;
  return {
    mean: (low + mode + high) / 3,
    variance: (low * low + mode * mode + high * high - low * mode - low * high - mode * high) / 18,
    quantile: (u) =>
      u < turn
        ? low + Math.sqrt(u * width * (mode - low))
        : high - Math.sqrt((1 - u) * width * (high - mode)),
  };
}

const betaTables = tabulateFamily(betaInverse);

/**
 * PERT: a beta distribution with shape sum 6, mean mu = (a + 4m + b)/6 and variance (mu - a)(b - mu)/7 (Malcolm et al.,
 * Operations Research 7, 1959, in its usual modern form; the classical ((b - a)/6)^2 is an approximation of that variance).
 *
 * @throws RangeError unless low <= mode <= high, all finite
 */
export function pert(point: ThreePoint): Spread {
  requireOrder(point);
  const { low, mode, high } = point;
  const width = high - low;
  const mean = (low + 4 * mode + high) / 6;
  const variance = ((mean - low) * (high - mean)) / 7;
  if (width === 0) return { mean: mode, variance: 0, quantile: () => mode };
  const inverse = betaTables(1 + (4 * (mode - low)) / width, 1 + (4 * (high - mode)) / width);
  return { mean, variance, quantile: (u) => low + width * inverse(u) };
}

/** Beta quantile from a table of the distribution at 512 points, closer at the ends, and a cubic between them. */
function betaInverse(a: number, b: number): (u: number) => number {
  const cells = 512;
  const xs = new Float64Array(cells + 1);
  const below = new Float64Array(cells + 1);
  const density = new Float64Array(cells + 1);
  for (let k = 0; k <= cells; k++) {
    const x = (1 - cos((Math.PI * k) / cells)) / 2;
    xs[k] = x;
    below[k] = incompleteBeta(x, a, b);
    density[k] = exp((a - 1) * log(x || 1e-300) + (b - 1) * log(1 - x || 1e-300) - logBeta(a, b));
  }
  return (u) => {
    let [low, high] = [0, cells];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (below[middle]! <= u) low = middle;
      else high = middle;
    }
    const width = xs[high]! - xs[low]!;
    const t = solveCubic(u, below[low]!, below[high]!, density[low]! * width, density[high]! * width);
    return xs[low]! + t * width;
  };
}

/** t in [0, 1] at which the Hermite cubic through (0, from) and (1, to) with those slopes reaches u. */
function solveCubic(u: number, from: number, to: number, slopeFrom: number, slopeTo: number): number {
  let [low, high] = [0, 1];
  let t = to > from ? (u - from) / (to - from) : 0.5;
  for (let step = 0; step < 40; step++) {
    const s = t - 1;
    const value =
      from * s * s * (1 + 2 * t) + to * t * t * (3 - 2 * t) + slopeFrom * t * s * s + slopeTo * t * t * s - u;
    if (value > 0) high = t;
    else low = t;
    const slope = 6 * t * s * (from - to) + slopeFrom * (3 * t - 1) * s + slopeTo * t * (3 * t - 2);
    const next = t - value / slope;
    const kept = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(kept - t) < 1e-13) return kept;
    t = kept;
  }
  return t;
}

function requireOrder({ low, mode, high }: ThreePoint): void {
  if (![low, mode, high].every(Number.isFinite) || low > mode || mode > high)
    throw new RangeError(`low ${low}, most likely ${mode} and high ${high} must be finite and in that order`);
}
