/** The difference of the means of two unpaired samples, whatever their spreads and sizes. */
import type { MeanInterval } from './mean-interval.js';
import { studentQuantile } from './student-quantile.js';

export interface Difference {
  readonly mean: number;
  readonly ciLow: number;
  readonly ciHigh: number;
}

/**
 * Mean of a minus mean of b with the interval of B. L. Welch (Biometrika 34, 1947), degrees of freedom after
 * F. E. Satterthwaite (Biometrics Bulletin 2, 1946).
 *
 * @param a sample of two values or more, and so `b`
 * @param confidence 0 < confidence < 1
 * @returns null where a sample has fewer than two values
 */
export function welchDifference(
  a: Pick<MeanInterval, 'mean' | 'sd' | 'n'>,
  b: Pick<MeanInterval, 'mean' | 'sd' | 'n'>,
  confidence = 0.95,
): Difference | null {
  if (a.n < 2 || b.n < 2) return null;
  const [va, vb] = [a.sd ** 2 / a.n, b.sd ** 2 / b.n];
  const mean = a.mean - b.mean;
  if (va + vb === 0) return { mean, ciLow: mean, ciHigh: mean };
  const freedom = (va + vb) ** 2 / (va ** 2 / (a.n - 1) + vb ** 2 / (b.n - 1));
  const half = studentQuantile((1 + confidence) / 2, freedom) * Math.sqrt(va + vb);
  return { mean, ciLow: mean - half, ciHigh: mean + half };
}
