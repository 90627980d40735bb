/**
 * Mean time per unit against that of the first, by the learning curve of cumulative averages (Wright, "Factors affecting
 * the cost of airplanes", *Journal of the Aeronautical Sciences* 3, 1936): units^log2(rate).
 *
 * @param units made, 0 or more; up to 1 the factor is 1
 * @param rate share to which the mean falls with each doubling, above 0 to 1 (0.8 for an 80% curve)
 * @throws RangeError where an argument is outside its range
 * @example learningFactor(4, 0.8) // 0.64
 */
import { log, power } from '../numbers/functions.js';

export function learningFactor(units: number, rate: number): number {
  if (!(units >= 0) || !Number.isFinite(units))
    throw new RangeError(`the units are ${units}: they must be 0 or more`);
  if (!(rate > 0 && rate <= 1))
    throw new RangeError(`the learning rate is ${rate}: it must be above 0 and at most 1`);
  return units <= 1 ? 1 : power(units, log(rate) / Math.LN2);
}
