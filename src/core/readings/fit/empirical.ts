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
