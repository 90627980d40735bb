/**
 * Quantile of sorted readings by straight lines between them (Hyndman & Fan type 7: position (n - 1) p).
 *
 * @param sorted ascending, at least one
 * @param p 0 to 1
 * @throws RangeError where there is no reading or p is outside 0 to 1
 * @example quantile([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantile(sorted: ArrayLike<number>, p: number): number {
  if (sorted.length === 0) throw new RangeError('there must be at least one reading');
  if (!(p >= 0 && p <= 1)) throw new RangeError(`the share is ${p}: it must be from 0 to 1`);
  const position = (sorted.length - 1) * p;
  const below = Math.floor(position);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low + (high - low) * (position - below);
}
