/** From observed to normal to standard time (International Labour Office, *Introduction to Work Study*). */

/** `work`: a share of the normal time; `day`: a share of the whole time, allowances within. Textbooks have both. */
export type AllowanceBasis = 'work' | 'day';

/**
 * Observed time at the normal pace.
 *
 * @param seconds observed
 * @param ratingPct pace seen against the normal one, 100 = normal
 * @example normalTime(20, 120) // 24
 */
export function normalTime(seconds: number, ratingPct: number): number {
  return (seconds * ratingPct) / 100;
}

/**
 * Normal time with what people need beside the work: rest, personal needs, small delays.
 *
 * @param normalS normal time
 * @param allowancePct 0 or more; with the basis `day` below 100
 * @throws RangeError where the allowance is outside its range
 * @example standardTime(24, 20, 'work') // 28.8
 * @example standardTime(18, 10, 'day') // 20
 */
export function standardTime(normalS: number, allowancePct: number, basis: AllowanceBasis): number {
  if (!(allowancePct >= 0) || (basis === 'day' && allowancePct >= 100))
    throw new RangeError('an allowance is 0 or more, and below 100 where it is a share of the day');
  return basis === 'work' ? normalS * (1 + allowancePct / 100) : normalS / (1 - allowancePct / 100);
}
