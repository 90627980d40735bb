/** Exact shortest round tour by dynamic programming over sets (Held & Karp 1962; Bellman 1962): small numbers only. */

/**
 * @param minutes square; minutes[i][j] from i to j
 * @returns the best tour, from 0
 */
export function shortestTourByTable(minutes: readonly (readonly number[])[]): number[] {
  const n = minutes.length;
  if (n <= 2) return Array.from({ length: n }, (_, k) => k);
  const m = n - 1;
  const sets = 1 << m;
  const least = new Float64Array(sets * m).fill(Number.POSITIVE_INFINITY);
  const from = new Int8Array(sets * m).fill(-1);
  for (let j = 0; j < m; j++) least[(1 << j) * m + j] = minutes[0]![j + 1]!;
  for (let set = 1; set < sets; set++) {
    for (let last = 0; last < m; last++) {
      const here = least[set * m + last]!;
      if (here === Number.POSITIVE_INFINITY) continue;
      const line = minutes[last + 1]!;
      for (let next = 0; next < m; next++) {
        if (set & (1 << next)) continue;
        const at = (set | (1 << next)) * m + next;
        const value = here + line[next + 1]!;
        if (value < least[at]!) {
          least[at] = value;
          from[at] = last;
        }
      }
    }
  }
  return readBack(minutes, least, from, m);
}

function readBack(
  minutes: readonly (readonly number[])[],
  least: Float64Array,
  from: Int8Array,
  m: number,
): number[] {
  let set = (1 << m) - 1;
  let last = 0;
  for (let j = 1; j < m; j++) {
    const closing = (k: number) => least[set * m + k]! + minutes[k + 1]![0]!;
    if (closing(j) < closing(last)) last = j;
  }
  const tour: number[] = [];
  while (last >= 0) {
    tour.push(last + 1);
    const before = from[set * m + last]!;
    set ^= 1 << last;
    last = before;
  }
  return [0, ...tour.reverse()];
}
