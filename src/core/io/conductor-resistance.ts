/** Resistance of copper conductors per kilometre. */

/**
 * Largest resistance at 20 C in ohm per km by section in mm2, plain copper, flexible (class 5): IEC 60228:2004, table 3.
 */
export const FLEXIBLE_OHM_PER_KM: Readonly<Record<string, number>> = {
  '0.5': 39,
  '0.75': 26,
  '1': 19.5,
  '1.5': 13.3,
  '2.5': 7.98,
};

/** Ohm per km times mm2 for sections that the table lacks, smaller and larger ones: the worst of its entries. */
const WORST_OHM_MM2_PER_KM = Math.max(
  ...Object.entries(FLEXIBLE_OHM_PER_KM).map(([section, ohm]) => Number(section) * ohm),
);

/**
 * Resistance of one conductor.
 *
 * From the table of flexible conductors; a section that it lacks is taken at the table's worst resistivity. With
 * temperature by the factor 1 + 0.004 (t - 20), which the correction table of IEC 60228 follows.
 *
 * @param sectionMm2 cross-section, above 0
 * @param temperatureC of the conductor, above -200; 20 when not given
 * @returns ohm per kilometre of one conductor
 * @throws RangeError where an argument is outside its range
 * @example conductorOhmPerKm(0.5) // 39
 */
export function conductorOhmPerKm(sectionMm2: number, temperatureC = 20): number {
  if (!(sectionMm2 > 0) || !Number.isFinite(sectionMm2))
    throw new RangeError(`the section is ${sectionMm2} mm2: it must be above 0`);
  if (!(temperatureC > -200) || !Number.isFinite(temperatureC))
    throw new RangeError(`the conductor temperature is ${temperatureC} C: it must be above -200`);
  const at20 = FLEXIBLE_OHM_PER_KM[String(sectionMm2)] ?? WORST_OHM_MM2_PER_KM / sectionMm2;
  return at20 * (1 + 0.004 * (temperatureC - 20));
}
