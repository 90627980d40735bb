/** Fuse ratings in amperes that panel builders commonly stock (common practice, not one standard's whole series). */
export const STOCK_FUSES_A = [0.5, 1, 2, 3, 4, 5, 6, 7.5, 8, 10, 12, 15, 16, 20, 25, 30] as const;

/**
 * Least fuse rating for a current that flows for hours, and the next one in stock.
 *
 * A fuse is loaded continuously to a share of its rating, 80% by the usual rule (compare NEC 210.20(A)).
 *
 * @param amps continuous current, 0 or more
 * @param loadPct share of the rating that may be used, above 0 to 100
 * @returns `stockA` is null above the largest fuse of the list
 * @throws RangeError where an argument is outside its range
 * @example fuseFor(3.6, 80) // { leastA: 4.5, stockA: 5 }
 */
export function fuseFor(amps: number, loadPct: number): { leastA: number; stockA: number | null } {
  if (!(amps >= 0) || !Number.isFinite(amps))
    throw new RangeError(`the current is ${amps} A: it must be 0 or more`);
  if (!(loadPct > 0 && loadPct <= 100))
    throw new RangeError(`the share of the fuse is ${loadPct}%: it must be above 0 and at most 100`);
  const leastA = (amps * 100) / loadPct;
  return { leastA, stockA: STOCK_FUSES_A.find((rating) => rating >= leastA - 1e-9) ?? null };
}
