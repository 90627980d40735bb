/**
 * Time of a straight robot move from rest to rest.
 *
 * Trapezoidal speed profile: accelerate, run at full speed, brake; a move too short to reach full speed is a
 * triangle. Elementary kinematics: d/v + v/a when d >= v*v/a, else 2*sqrt(d/a).
 *
 * @param distanceM distance in metres, 0 or more
 * @param speedMS top speed in metres per second, above 0
 * @param accelMS2 acceleration and braking in metres per second squared, above 0; null = no ramp (d/v)
 * @returns seconds
 * @throws RangeError where an argument is outside its range
 * @example moveTime(0.2, 0.2, 0.5) // 1.4
 */
export function moveTime(distanceM: number, speedMS: number, accelMS2: number | null = null): number {
  if (!(distanceM >= 0) || !Number.isFinite(distanceM)) throw new RangeError('distance must be 0 m or more');
  if (!(speedMS > 0)) throw new RangeError('speed must be above 0 m/s');
  if (accelMS2 !== null && !(accelMS2 > 0)) throw new RangeError('acceleration must be above 0 m/s2');
  if (accelMS2 === null) return distanceM / speedMS;
  if (distanceM >= (speedMS * speedMS) / accelMS2) return distanceM / speedMS + speedMS / accelMS2;
  return 2 * Math.sqrt(distanceM / accelMS2);
}
