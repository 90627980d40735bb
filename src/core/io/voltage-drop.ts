import { conductorOhmPerKm } from './conductor-resistance.js';

/**
 * Voltage lost on the way to a load and back: 2 x length x current x resistance per length (direct current, two equal
 * conductors).
 *
 * @param amps current, 0 or more
 * @param lengthM one way, 0 or more
 * @param sectionMm2 of each conductor, above 0
 * @param temperatureC of the conductors; 20 when not given
 * @returns volts
 * @throws RangeError where an argument is outside its range
 * @example voltageDrop(0.5, 20, 0.5) // 0.78
 */
export function voltageDrop(amps: number, lengthM: number, sectionMm2: number, temperatureC = 20): number {
  if (!(amps >= 0) || !Number.isFinite(amps))
    throw new RangeError(`the current is ${amps} A: it must be 0 or more`);
  if (!(lengthM >= 0) || !Number.isFinite(lengthM))
    throw new RangeError(`the cable length is ${lengthM} m: it must be 0 or more`);
  return (2 * lengthM * amps * conductorOhmPerKm(sectionMm2, temperatureC)) / 1000;
}
