/** The assignment problem: each row to a column of its own at the least total. */

export interface Assignment {
  /** Column of each row. */
  readonly columnOf: readonly number[];
  readonly total: number;
}

/**
 * Shortest augmenting paths with potentials (Kuhn 1955, Munkres 1957, in the O(n^3) form of Jonker & Volgenant 1987).
 *
 * @param costs square, finite numbers; large entries stand for what is not allowed
 */
export function leastAssignment(costs: readonly (readonly number[] | Float64Array)[]): Assignment {
  const n = costs.length;
  const rowPrice = new Float64Array(n + 1);
  const columnPrice = new Float64Array(n + 1);
  const rowOf = new Int32Array(n + 1);
  const way = new Int32Array(n + 1);
  const least = new Float64Array(n + 1);
  const used = new Uint8Array(n + 1);
  for (let row = 1; row <= n; row++) {
    rowOf[0] = row;
    let column = 0;
    least.fill(Number.POSITIVE_INFINITY);
    used.fill(0);
    do {
      used[column] = 1;
      const at = rowOf[column]!;
      const line = costs[at - 1]!;
      let delta = Number.POSITIVE_INFINITY;
      let next = 0;
      for (let j = 1; j <= n; j++) {
        if (used[j]) continue;
        const reduced = line[j - 1]! - rowPrice[at]! - columnPrice[j]!;
        if (reduced < least[j]!) {
          least[j] = reduced;
          way[j] = column;
        }
        if (least[j]! < delta) {
          delta = least[j]!;
          next = j;
        }
      }
      for (let j = 0; j <= n; j++) {
        if (used[j]) {
          rowPrice[rowOf[j]!] = rowPrice[rowOf[j]!]! + delta;
          columnPrice[j] = columnPrice[j]! - delta;
        } else least[j] = least[j]! - delta;
      }
      column = next;
    } while (rowOf[column] !== 0);
    while (column !== 0) {
      const before = way[column]!;
      rowOf[column] = rowOf[before]!;
      column = before;
    }
  }
  const columnOf = Array.from({ length: n }, () => 0);
  for (let j = 1; j <= n; j++) columnOf[rowOf[j]! - 1] = j - 1;
  return { columnOf, total: columnOf.reduce((sum, j, i) => sum + costs[i]![j]!, 0) };
}
