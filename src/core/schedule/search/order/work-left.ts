/** What the robot has still to do in the period: how often each unit is to come, and the least time of all of them. */
import { type TourTable, tourTable } from './tour-table.js';
import type { Units } from './units.js';

export class WorkLeft {
  /** By unit: how often it is still to come. */
  readonly count: Int32Array;
  /** Null where it would be too large: then each unit counts with its quickest way in. */
  private readonly table: TourTable | null;
  private tableState = 0;
  private readonly wayInS: Float64Array;
  private looseS = 0;

  /** Of a period of which the first unit is done. */
  constructor(
    private readonly units: Units,
    private readonly first: number,
    tableLimit: number,
  ) {
    this.count = Int32Array.from(units.counts);
    this.count[first]!--;
    this.table = tourTable(this.count, units.ownS, units.wayS, first, tableLimit);
    this.wayInS = quickestWaysIn(units);
    for (const [u, count] of this.count.entries()) {
      if (this.table) this.tableState += count * this.table.stride[u]!;
      this.looseS += count * (units.ownS[u]! + this.wayInS[u]!);
    }
  }

  take(unit: number): void {
    this.count[unit]!--;
    if (this.table) this.tableState -= this.table.stride[unit]!;
    this.looseS -= this.units.ownS[unit]! + this.wayInS[unit]!;
  }

  giveBack(unit: number): void {
    this.count[unit]!++;
    if (this.table) this.tableState += this.table.stride[unit]!;
    this.looseS += this.units.ownS[unit]! + this.wayInS[unit]!;
  }

  /** Robot time from the start of the last unit, over all that is left, to the start of the next round. */
  fromS(last: number): number {
    if (this.table) return this.table.leastS[this.tableState * this.count.length + last]!;
    return this.units.ownS[last]! + this.looseS + this.wayInS[this.first]!;
  }

  /** The same from the start of a unit that would come next. */
  fromNextS(unit: number): number {
    if (this.table)
      return this.table.leastS[(this.tableState - this.table.stride[unit]!) * this.count.length + unit]!;
    return this.looseS - this.wayInS[unit]! + this.wayInS[this.first]!;
  }
}

function quickestWaysIn({ counts, wayS }: Units): Float64Array {
  const n = counts.length;
  const least = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  for (let u = 0; u < n; u++)
    for (let v = 0; v < n; v++)
      if (u !== v || counts[u]! > 1) least[u] = Math.min(least[u]!, wayS[v * n + u]!);
  return least;
}
