/**
 * Key performance indicators of a work unit under the names of ISO 22400-2. The formulas follow public texts that quote
 * the standard (OPC 40001-1 annex C.2 among them), so look into the standard itself before you report by it.
 */

/** Times in one unit of the caller's choice, quantities in parts. */
export interface WorkUnitCounts {
  /** PBT, planned busy time; above 0. */
  readonly plannedBusyTime: number;
  /** APT, actual production time. */
  readonly actualProductionTime: number;
  /** AUBT, actual unit busy time. */
  readonly actualUnitBusyTime: number;
  /** AUST, actual unit setup time. */
  readonly actualUnitSetupTime: number;
  /** AUPT, actual unit processing time: production and setup. */
  readonly actualUnitProcessingTime: number;
  /** ADET, actual unit delay time. */
  readonly actualUnitDelayTime: number;
  /** PRI, planned run time per item. */
  readonly plannedRunTimePerItem: number;
  /** PQ, produced quantity. */
  readonly producedQuantity: number;
  /** GQ, good quantity. */
  readonly goodQuantity: number;
  /** SQ, scrap quantity. */
  readonly scrapQuantity: number;
}

/** Shares; null where what they are a share of is 0. */
export interface WorkUnitIndicators {
  /** APT / PBT. */
  readonly availability: number;
  /** PRI x PQ / APT. */
  readonly effectiveness: number | null;
  /** GQ / PQ. */
  readonly qualityRatio: number | null;
  /** Availability x effectiveness x quality ratio. */
  readonly overallEquipmentEffectivenessIndex: number | null;
  /** AUPT / PBT x effectiveness x quality ratio. */
  readonly netEquipmentEffectivenessIndex: number | null;
  /** AUBT / PBT. */
  readonly allocationEfficiency: number;
  /** APT / AUBT. */
  readonly utilizationEfficiency: number | null;
  /** AUST / AUPT. */
  readonly setupRatio: number | null;
  /** APT / (APT + ADET). */
  readonly technicalEfficiency: number | null;
  /** SQ / PQ. */
  readonly scrapRatio: number | null;
}

/** @throws RangeError where a time or quantity is below 0 or not finite, or the planned busy time is 0 */
export function workUnitIndicators(counts: WorkUnitCounts): WorkUnitIndicators {
  for (const [name, value] of Object.entries(counts))
    if (!(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${name} must be 0 or more, found ${value}`);
  const {
    plannedBusyTime: pbt,
    actualProductionTime: apt,
    actualUnitBusyTime: aubt,
    producedQuantity: pq,
  } = counts;
  if (pbt === 0) throw new RangeError('plannedBusyTime must be above 0');
  const effectiveness = share(counts.plannedRunTimePerItem * pq, apt);
  const qualityRatio = share(counts.goodQuantity, pq);
  const both = effectiveness === null || qualityRatio === null ? null : effectiveness * qualityRatio;
  return {
    availability: apt / pbt,
    effectiveness,
    qualityRatio,
    overallEquipmentEffectivenessIndex: both === null ? null : (apt / pbt) * both,
    netEquipmentEffectivenessIndex: both === null ? null : (counts.actualUnitProcessingTime / pbt) * both,
    allocationEfficiency: aubt / pbt,
    utilizationEfficiency: share(apt, aubt),
    setupRatio: share(counts.actualUnitSetupTime, counts.actualUnitProcessingTime),
    technicalEfficiency: share(apt, apt + counts.actualUnitDelayTime),
    scrapRatio: share(counts.scrapQuantity, pq),
  };
}

function share(of: number, whole: number): number | null {
  return whole > 0 ? of / whole : null;
}
