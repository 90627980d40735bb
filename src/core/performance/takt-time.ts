/**
 * Time in which one part must come out so that the demand is met: net available time over demand (common practice).
 *
 * @param availableMin time of all shifts of a day less rests, minutes; above 0
 * @param demand parts wanted in that time; above 0
 * @returns minutes a part
 * @throws RangeError where an argument is outside its range
 * @example taktTimeMin(2 * (480 - 40 - 30), 80) // 10.25
 */
export function taktTimeMin(availableMin: number, demand: number): number {
  if (!(availableMin > 0 && Number.isFinite(availableMin))) throw new RangeError('the time must be above 0');
  if (!(demand > 0 && Number.isFinite(demand))) throw new RangeError('the demand must be above 0');
  return availableMin / demand;
}
