/**
 * The least robot work still to do from any state of a period: a table over what remains and where the robot is,
 * filled from the end (M. Held, R. M. Karp, A dynamic programming approach to sequencing problems, J. SIAM 10, 1962).
 * Moves that are alike are counted, not named, so the table has (count + 1) * ... states instead of 2^n.
 */

export interface TourTable {
  /** Index step of each unit in the mixed-radix state. */
  readonly stride: Int32Array;
  /** leastS[state * units + last]: robot time from the start of `last` through all that remains to the first unit. */
  readonly leastS: Float64Array;
}

/** Largest table built: states times units. */
export const TOUR_TABLE_LIMIT = 6_000_000;

/**
 * @param counts units left after the first one is done, by kind
 * @param ownS robot time inside each unit
 * @param wayS wayS[a * units + b]: robot time from the end of unit a to the start of unit b
 * @param first the kind with which the period starts and to which the robot returns
 * @param limit states times units at most
 * @returns the table, or null where it would be larger than the limit
 */
export function tourTable(
  counts: Int32Array,
  ownS: Float64Array,
  wayS: Float64Array,
  first: number,
  limit: number = TOUR_TABLE_LIMIT,
): TourTable | null {
  const units = counts.length;
  const stride = new Int32Array(units);
  let states = 1;
  for (let u = 0; u < units; u++) {
    stride[u] = states;
    states *= counts[u]! + 1;
    if (states * units > limit) return null;
  }
  const leastS = new Float64Array(states * units);
  const digit = new Int32Array(units);
  for (let state = 0; state < states; state++) {
    for (let last = 0; last < units; last++) {
      let best = state === 0 ? wayS[last * units + first]! : Number.POSITIVE_INFINITY;
      for (let u = 0; u < units; u++) {
        if (digit[u]! === 0) continue;
        const via = wayS[last * units + u]! + leastS[(state - stride[u]!) * units + u]!;
        if (via < best) best = via;
      }
      leastS[state * units + last] = ownS[last]! + best;
    }
    for (let u = 0; u < units; u++) {
      if (digit[u]! < counts[u]!) {
        digit[u]!++;
        break;
      }
      digit[u] = 0;
    }
  }
  return { stride, leastS };
}
