/**
 * The next events of all elements, one timer each, in total order: by time, then by the timer's number. Numbers are
 * given by priority (stations, operators, racks, calendar) and within it in the order of the cell's tables, so that
 * equal times always fall in the same order on every machine.
 *
 * Timers stand in blocks of eight with the first of each block kept, and the first of all: most settings cost one or
 * two comparisons, the rest a scan of a block and of the blocks' firsts. For the counts met here (up to some hundreds)
 * this beat a heap and a winner tree, whose branches no processor can guess. Nothing is allocated.
 */
export class EventClock {
  /** Time of each timer in seconds; Infinity = not set. */
  readonly times: Float64Array;
  /** Number of the timer that comes next. */
  first = 0;
  private readonly blockFirst: Int32Array;

  /** @param count number of timers, 1 or more */
  constructor(count: number) {
    const blocks = Math.ceil(count / 8);
    this.times = new Float64Array(blocks * 8).fill(Number.POSITIVE_INFINITY);
    this.blockFirst = Int32Array.from({ length: blocks }, (_, b) => b * 8);
  }

  /** Sets timer i to a time; Infinity takes it out. */
  set(i: number, timeS: number): void {
    const { times, blockFirst } = this;
    const block = i >> 3;
    const leader = blockFirst[block]!;
    times[i] = timeS;
    if (i === leader) this.scanBlock(block);
    else {
      const least = times[leader]!;
      if (timeS > least || (timeS === least && i > leader)) return;
      blockFirst[block] = i;
    }
    if (this.first >> 3 === block) this.scanFirsts();
    else {
      const own = blockFirst[block]!;
      const least = times[this.first]!;
      if (times[own]! < least || (times[own]! === least && own < this.first)) this.first = own;
    }
  }

  private scanBlock(block: number): void {
    const { times } = this;
    const start = block << 3;
    let best = start;
    let least = times[start]!;
    for (let k = start + 1; k < start + 8; k++) {
      const t = times[k]!;
      if (t < least) {
        least = t;
        best = k;
      }
    }
    this.blockFirst[block] = best;
  }

  private scanFirsts(): void {
    const { times, blockFirst } = this;
    let best = blockFirst[0]!;
    let least = times[best]!;
    for (let b = 1; b < blockFirst.length; b++) {
      const leader = blockFirst[b]!;
      const t = times[leader]!;
      if (t < least) {
        least = t;
        best = leader;
      }
    }
    this.first = best;
  }
}
