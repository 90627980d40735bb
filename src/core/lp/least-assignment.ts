/** The assignment problem: each row to a column of its own at the least total. */

export interface Assignment {
  /** Column of each row. */
  readonly columnOf: readonly number[];
  readonly total: number;
}

/** @param costs square, finite numbers; large entries stand for what is not allowed */
export function leastAssignment(costs: readonly (readonly number[] | Float64Array)[]): Assignment {
  const assigned = new RisingAssignment(costs.length);
  const total = assigned.leastTotal(costs);
  return { columnOf: assigned.columnOf(), total };
}

/**
 * Shortest augmenting paths with potentials (Kuhn 1955, Munkres 1957, in the O(n^3) form of Jonker & Volgenant 1987).
 * Where costs only rise from one question to the next the prices stay a bound, and only rows whose own column has risen
 * are assigned anew. Rows and columns are counted from 1; 0 is none.
 */
export class RisingAssignment {
  private readonly rowPrice: Float64Array;
  private readonly columnPrice: Float64Array;
  private readonly rowOf: Int32Array;
  private readonly way: Int32Array;
  private readonly least: Float64Array;
  private readonly used: Uint8Array;
  private readonly isAssigned: Uint8Array;

  constructor(private readonly n: number) {
    this.rowPrice = new Float64Array(n + 1);
    this.columnPrice = new Float64Array(n + 1);
    this.rowOf = new Int32Array(n + 1);
    this.way = new Int32Array(n + 1);
    this.least = new Float64Array(n + 1);
    this.used = new Uint8Array(n + 1);
    this.isAssigned = new Uint8Array(n + 1);
  }

  /** Starts anew, for any costs. */
  clear(): void {
    for (const list of [this.rowPrice, this.columnPrice, this.rowOf]) list.fill(0);
  }

  /** Starts from where another one stands: for costs that are nowhere lower than its last ones. */
  startFrom(other: RisingAssignment): void {
    this.rowPrice.set(other.rowPrice);
    this.columnPrice.set(other.columnPrice);
    this.rowOf.set(other.rowOf);
  }

  /** @param costs see {@link leastAssignment}; since `clear` nowhere lower than those before */
  leastTotal(costs: readonly (readonly number[] | Float64Array)[]): number {
    const { n, rowOf, isAssigned } = this;
    rowOf[0] = 0;
    isAssigned.fill(0);
    for (let j = 1; j <= n; j++) {
      if (rowOf[j] === 0) continue;
      if (this.hasRisen(costs, j)) rowOf[j] = 0;
      else isAssigned[rowOf[j]!] = 1;
    }
    for (let row = 1; row <= n; row++) if (isAssigned[row] === 0) this.assign(costs, row);
    return this.columnOf().reduce((sum, j, i) => sum + costs[i]![j]!, 0);
  }

  /** Column of each row, both counted from 0. */
  columnOf(): number[] {
    const columnOf = Array.from({ length: this.n }, () => 0);
    for (let j = 1; j <= this.n; j++) columnOf[this.rowOf[j]! - 1] = j - 1;
    return columnOf;
  }

  private hasRisen(costs: readonly (readonly number[] | Float64Array)[], column: number): boolean {
    const row = this.rowOf[column]!;
    const cost = costs[row - 1]![column - 1]!;
    return cost - this.rowPrice[row]! - this.columnPrice[column]! > 1e-9 * (1 + Math.abs(cost));
  }

  private assign(costs: readonly (readonly number[] | Float64Array)[], row: number): void {
    const { n, rowPrice, columnPrice, rowOf, way, least, used } = this;
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
}
