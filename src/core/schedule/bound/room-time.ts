/** Room-seconds that parts take up in a station, for bounds that hold in any order. */

export interface RoomUse {
  /** close + cycle + ready. */
  readonly processS: number;
  /** Robot time to place and to pick one part. */
  readonly handlingS: number;
  /** Parts loaded before the station starts. */
  readonly batch: number;
  readonly capacity: number;
  /** Every step at the station fills it: then nothing else is inside while a batch is loaded, runs or is unloaded. */
  readonly wholeBatches: boolean;
}

/**
 * @returns at least the seconds for which one part takes up the room of one part. A batch is loaded part by part and
 * unloaded part by part: in a station that it fills all of its loading and unloading keeps the whole station from
 * working; elsewhere a part waits for half of the others.
 */
export function roomS({ processS, handlingS, batch, capacity, wholeBatches }: RoomUse): number {
  if (wholeBatches && capacity === batch) return processS + batch * handlingS;
  return processS + ((batch + 1) / 2) * handlingS;
}
