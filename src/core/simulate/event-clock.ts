/**
 * The next events of all elements, one timer each, in total order: by time, then by the timer's number. Numbers are
 * given by priority (stations, operators, racks, robot, calendar) and within it in the order of the cell's tables, so
 * that equal times always fall in the same order on every machine.
 *
 * A winner tree over typed arrays: setting a timer costs one comparison a level, the next event stands at the root,
 * nothing is allocated.
 */
export class EventClock {
  /** Time of each timer in seconds; Infinity = not set. */
  readonly times: Float64Array;
  private readonly winners: Int32Array;
  private readonly leaves: number;

  /** @param count number of timers, 1 or more */
  constructor(count: number) {
    let leaves = 1;
    while (leaves < count) leaves *= 2;
    this.leaves = leaves;
    this.times = new Float64Array(leaves).fill(Number.POSITIVE_INFINITY);
    this.winners = new Int32Array(2 * leaves);
    for (let i = 0; i < leaves; i++) this.winners[leaves + i] = i;
    for (let n = leaves - 1; n > 0; n--) this.winners[n] = this.winners[2 * n]!;
  }

  /** Number of the timer that comes next. */
  first(): number {
    return this.winners[1]!;
  }

  /** Sets timer i to a time; Infinity takes it out. */
  set(i: number, timeS: number): void {
    const times = this.times;
    const winners = this.winners;
    times[i] = timeS;
    for (let n = (i + this.leaves) >> 1; n > 0; n >>= 1) {
      const left = winners[n << 1]!;
      const right = winners[(n << 1) | 1]!;
      winners[n] = times[left]! <= times[right]! ? left : right;
    }
  }
}
