/**
 * Inputs that move together in the risk trials: a Gaussian copula. Each item keeps its own distribution; their ranks
 * get the stated correlation. The rank correlation of two normals with correlation r is (6 / pi) asin(r / 2), so r is
 * taken as 2 sin(pi rank / 6) (K. Pearson, 1907; W. H. Kruskal, *Ordinal Measures of Association*, J. Am. Stat. Assoc. 53, 1958).
 */
import { sin } from '../../numbers/functions.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';
import { normalShare } from '../../statistics/normal-share.js';

export interface RankCorrelation {
  readonly a: string;
  readonly b: string;
  /** Rank correlation, -1 to 1. */
  readonly rank: number;
}

export interface Copula {
  /** Turns independent uniform numbers, one an item, into ones that move together; in place. */
  mix(uniforms: Float64Array): void;
}

/** A pivot of less than this is none: some of the items then follow from the others. */
const LEAST_PIVOT = 1e-10;

/**
 * What is wrong with the stated correlations, as a sentence; null where nothing is.
 *
 * @param items the items that are drawn
 */
export function correlationFault(
  items: readonly string[],
  correlations: readonly RankCorrelation[],
): string | null {
  const seen = new Set<string>();
  for (const { a, b, rank } of correlations) {
    const strange = [a, b].find((item) => !items.includes(item));
    if (strange !== undefined)
      return `${strange} is not drawn in the risk trials: only an item with a low and a high can move together with another`;
    if (a === b) return `${a} cannot be correlated with itself`;
    if (!(rank >= -1 && rank <= 1))
      return `the correlation of ${a} and ${b} is ${rank}: it must be from -1 to 1`;
    const pair = [a, b].sort().join(' and ');
    if (seen.has(pair)) return `the correlation of ${pair} is given twice`;
    seen.add(pair);
  }
  return factorOf(items, correlations) === null
    ? 'the correlations contradict one another: no set of inputs can have them all'
    : null;
}

/** @throws RangeError where `correlationFault` finds one */
export function copula(items: readonly string[], correlations: readonly RankCorrelation[]): Copula {
  const fault = correlationFault(items, correlations);
  if (fault !== null) throw new RangeError(fault);
  const factor = factorOf(items, correlations)!;
  const tied = items.flatMap((item, k) =>
    correlations.some(({ a, b }) => a === item || b === item) ? [k] : [],
  );
  const normals = new Float64Array(items.length);
  return {
    mix(uniforms) {
      for (const k of tied) normals[k] = normalQuantile(uniforms[k]!);
      for (const k of tied) {
        let sum = 0;
        for (const j of tied) if (j <= k) sum += factor[k]![j]! * normals[j]!;
        // A hair inside 0 and 1, where every distribution has its inverse.
        uniforms[k] = Math.min(1 - 2 ** -53, Math.max(2 ** -60, normalShare(sum)));
      }
    },
  };
}

/** Cholesky factor of the normals' correlation matrix; null where it is none. */
function factorOf(items: readonly string[], correlations: readonly RankCorrelation[]): number[][] | null {
  const count = items.length;
  const matrix = items.map((_, i) => items.map((_item, j): number => (i === j ? 1 : 0)));
  for (const { a, b, rank } of correlations) {
    const [i, j] = [items.indexOf(a), items.indexOf(b)];
    matrix[i]![j] = matrix[j]![i] = 2 * sin((Math.PI * rank) / 6);
  }
  const factor = matrix.map((row) => row.map(() => 0));
  for (let k = 0; k < count; k++) {
    for (let i = k; i < count; i++) {
      let left = matrix[i]![k]!;
      for (let j = 0; j < k; j++) left -= factor[i]![j]! * factor[k]![j]!;
      if (i === k) {
        if (left < -LEAST_PIVOT) return null;
        factor[k]![k] = left < LEAST_PIVOT ? 0 : Math.sqrt(left);
      } else if (factor[k]![k]! > 0) factor[i]![k] = left / factor[k]![k]!;
      else if (Math.abs(left) > Math.sqrt(LEAST_PIVOT)) return null;
    }
  }
  return factor;
}
