/**
 * Overall equipment effectiveness from counts of a shift or a week: availability x performance x quality, with what each
 * leaves out. S. Nakajima, *Introduction to TPM* (1988); the same factors as in SEMI E10/E79 and ISO 22400-2 under other
 * names.
 */

export interface EquipmentTime {
  /** Time in which production was planned, minutes; above 0. */
  readonly plannedMin: number;
  /** Stops within it, minutes; 0 to plannedMin. */
  readonly downMin: number;
  /** Shortest time for one part, minutes; 0 or more. */
  readonly idealMin: number;
  /** Parts made, good ones and others; 0 or more. */
  readonly total: number;
  /** Good parts; 0 to total. */
  readonly good: number;
}

/** Shares from 0 to 1; performance is above 1 where the ideal time was beaten. */
export interface EquipmentEffectiveness {
  readonly availability: number;
  readonly performance: number;
  readonly quality: number;
  readonly oee: number;
}

/**
 * @throws RangeError where a count or time is outside its range
 * @example overallEquipmentEffectiveness({ plannedMin: 900, downMin: 90, idealMin: 1.5, total: 525, good: 469 }).oee // 0.78167
 */
export function overallEquipmentEffectiveness(time: EquipmentTime): EquipmentEffectiveness {
  const { plannedMin, downMin, idealMin, total, good } = time;
  if (!(plannedMin > 0 && Number.isFinite(plannedMin)))
    throw new RangeError('the planned time must be above 0');
  if (!(downMin >= 0 && downMin <= plannedMin))
    throw new RangeError('stops must lie within the planned time');
  if (!(idealMin >= 0 && Number.isFinite(idealMin))) throw new RangeError('the ideal time must be 0 or more');
  if (!(total >= 0 && Number.isFinite(total) && good >= 0 && good <= total))
    throw new RangeError('good parts must be 0 or more and no more than all parts');
  const runMin = plannedMin - downMin;
  return {
    availability: runMin / plannedMin,
    performance: runMin > 0 ? (total * idealMin) / runMin : 0,
    quality: total > 0 ? good / total : 0,
    oee: (good * idealMin) / plannedMin,
  };
}
