/**
 * Longest paths over the graph of a prefix, at any period. A time is kept as the walk that gives it (its value and its
 * count of period ends), so it stays a valid bound at every other period, and a positive closed walk through the first
 * event raises the period to its ratio at once. Where longest waits make circuits that ask for a shorter period, the
 * circuits themselves are looked for.
 */
import type { OrderPrefix } from './order-prefix.js';
import { NONE } from './timed-stations.js';

/** Sweeps after which warm times that do not come to rest are given up for a run that watches for circuits. */
const WARM_SWEEPS = 6;

/** The time of a position that no walk has come to. */
const NEVER = Number.NEGATIVE_INFINITY;

/** Bits of `settled`: the arcs of the prefix hold at the times, and at those of the longest period of interest. */
const AT_BOUND = 1;
const AT_LIMIT = 2;

/**
 * The times of a prefix lie in a slot of long lists: one slot for each child at every depth, so that a child is bounded
 * where it stays. `at` is where those of the current prefix begin.
 */
export class PrefixTimes {
  readonly time: Float64Array;
  /** Period ends on the walk that gives each time. */
  readonly ends: Int32Array;
  /** The same at the longest period of interest: what is impossible there is cut before it is bounded. */
  readonly timeHigh: Float64Array;
  readonly endsHigh: Int32Array;
  /** Where the times of the current prefix begin. */
  at = 0;
  /** The period for which `timeHigh` stands. */
  highS = Number.POSITIVE_INFINITY;
  /** By slot, which times stand: the arcs of the prefix need not be looked at again until one of its times changes. */
  private readonly settled: Uint8Array;
  private readonly by: Int32Array;
  private readonly mark: Int32Array;
  /** Length of a slot. */
  private readonly positions: number;

  /** @param limitS the longest period of interest; comes down with every order found */
  constructor(
    private readonly prefix: OrderPrefix,
    public limitS: number,
  ) {
    this.positions = prefix.positions.count;
    this.by = new Int32Array(this.positions);
    this.mark = new Int32Array(this.positions);
    // The first slot is that of the first unit alone.
    const children = 1 + (prefix.length + 1) * prefix.units.events.length;
    const slots = children * this.positions;
    this.time = new Float64Array(slots);
    this.ends = new Int32Array(slots);
    this.timeHigh = new Float64Array(slots);
    this.endsHigh = new Int32Array(slots);
    this.settled = new Uint8Array(children);
  }

  /** The times of the first unit, from none. */
  start(): void {
    for (const time of [this.time, this.timeHigh]) time.fill(NEVER, 1, this.positions);
    this.highS = this.limitS;
  }

  /** Where the times of a child of a prefix of that depth are. */
  slotOf(depth: number, child: number): number {
    return (1 + depth * this.prefix.units.events.length + child) * this.positions;
  }

  /**
   * Goes on to a child whose unit was just appended, with the times of the prefix before it; its own positions have none
   * yet.
   *
   * @param parentAt slot of that prefix
   */
  enter(at: number, parentAt: number): void {
    const { time, ends, timeHigh, endsHigh, positions } = this;
    const { top, parentTop } = this.prefix;
    for (let i = 0; i < parentTop; i++) {
      time[at + i] = time[parentAt + i]!;
      ends[at + i] = ends[parentAt + i]!;
      timeHigh[at + i] = timeHigh[parentAt + i]!;
      endsHigh[at + i] = endsHigh[parentAt + i]!;
    }
    for (let i = parentTop; i < top; i++) {
      time[at + i] = NEVER;
      timeHigh[at + i] = NEVER;
    }
    this.at = at;
    this.settled[at / positions] = this.settled[parentAt / positions]!;
  }

  /** The times stand at this period; those of the longest period of interest come down with it. */
  stepTo(periodS: number): void {
    const { at, timeHigh, endsHigh, limitS, positions } = this;
    const { top } = this.prefix;
    if (this.highS === limitS) return;
    if (this.highS < Number.POSITIVE_INFINITY) this.moveHigh(limitS - this.highS);
    else {
      // Nothing was kept for an endless period: the times at the bound are walks as good as any.
      for (let i = at; i < at + top; i++) {
        timeHigh[i] = this.time[i]!;
        endsHigh[i] = this.ends[i]!;
      }
      this.moveHigh(limitS - periodS);
    }
    this.settled[at / positions]! &= AT_BOUND;
    this.highS = limitS;
  }

  /**
   * Least period of the prefix from `fromS` up; Infinity when none of interest can mend it. Leaves the times
   * at that period (`time`) and at the longest period of interest (`timeHigh`).
   */
  boundPrefix(fromS: number): number {
    const { prefix, limitS } = this;
    const own = prefix.arcs.count;
    const periodS = prefix.addOpenArcs(limitS) ? this.boundArcs(fromS) : Number.POSITIVE_INFINITY;
    prefix.arcs.count = own;
    return periodS;
  }

  private boundArcs(fromS: number): number {
    const { at, time, ends, timeHigh, endsHigh, limitS } = this;
    const { chainBoundS } = this.prefix.arcs;
    const slot = at / this.positions;
    const settled = this.settled[slot]!;
    this.settled[slot] = 0;
    if (limitS < Number.POSITIVE_INFINITY) {
      const met = this.relax(timeHigh, endsHigh, limitS, (settled & AT_LIMIT) !== 0);
      // A closed walk that is positive at the longest period of interest is so at every shorter one.
      if (met === 1 && endsHigh[at]! >= 0) return Number.POSITIVE_INFINITY;
      if (met !== 0) return this.boundAfresh(fromS);
      this.settled[slot] = AT_LIMIT;
    }
    let periodS = fromS;
    let stands = (settled & AT_BOUND) !== 0;
    if (chainBoundS > fromS + 1e-9 * (1 + fromS)) {
      this.forgetTimes();
      stands = false;
      periodS = chainBoundS;
    }
    for (;;) {
      const met = this.relax(time, ends, periodS, stands);
      if (met === 0) {
        this.settled[slot]! |= AT_BOUND;
        return periodS;
      }
      const walkEnds = ends[at]!;
      if (met === 1 && walkEnds === 0) return Number.POSITIVE_INFINITY;
      if (met === 2 || walkEnds < 0) {
        this.settled[slot] = 0;
        return this.boundAfresh(fromS);
      }
      const nextS = periodS + time[at]! / walkEnds;
      if (nextS >= limitS) return Number.POSITIVE_INFINITY;
      // Walks through the first event hold that closed walk; at the new period start from plain ones.
      this.forgetTimes();
      stands = false;
      periodS = nextS;
    }
  }

  private forgetTimes(): void {
    this.time.fill(NEVER, this.at, this.at + this.prefix.top);
    this.time[this.at] = 0;
    this.ends[this.at] = 0;
  }

  /** Moves the times of the longest period of interest to one longer by `byS`, along the same walks. */
  private moveHigh(byS: number): void {
    const { timeHigh, endsHigh } = this;
    for (let i = this.at; i < this.at + this.prefix.top; i++) timeHigh[i] = timeHigh[i]! - endsHigh[i]! * byS;
  }

  /**
   * Longest paths from the first event, from valid times on. Returns 0 when they stand, 1 when the first event would
   * have to start after itself (time[0] > 0), 2 when they do not come to rest.
   *
   * @param stands the arcs of the prefix before the last unit hold: they are looked at only once a time there changes
   */
  private relax(time: Float64Array, ends: Int32Array, periodS: number, stands: boolean): 0 | 1 | 2 {
    const { at, prefix } = this;
    const { from: arcFrom, to: arcTo, weightS, periods, count } = prefix.arcs;
    const { parentTop } = prefix;
    const tolerance = 1e-9 * (1 + periodS);
    let first = stands ? prefix.parentArcs : 0;
    for (let sweep = 0; sweep < WARM_SWEEPS; sweep++) {
      let changed = false;
      let lowest = parentTop;
      for (let a = first; a < count; a++) {
        const from = arcFrom[a]!;
        const to = arcTo[a]!;
        const reach = time[at + from]! + weightS[a]! - periods[a]! * periodS;
        if (reach > time[at + to]! + tolerance) {
          time[at + to] = reach;
          ends[at + to] = ends[at + from]! + periods[a]!;
          if (to === 0) return 1;
          changed = true;
          if (to < lowest) lowest = to;
        }
      }
      if (!changed) return 0;
      if (lowest < parentTop) first = 0;
    }
    return 2;
  }

  /** The careful way: from no times at all, with the circuits themselves. Needed where longest waits take part. */
  private boundAfresh(fromS: number): number {
    if (this.isHopeless()) return Number.POSITIVE_INFINITY;
    let periodS = fromS;
    for (;;) {
      const circuit = this.relaxAfresh(periodS);
      if (circuit === NONE) break;
      const { weightS, periods } = this.circuitSums(circuit);
      if (periods <= 0) return Number.POSITIVE_INFINITY;
      const nextS = weightS / periods;
      if (nextS >= this.limitS) return Number.POSITIVE_INFINITY;
      if (nextS <= periodS) break;
      periodS = nextS;
    }
    // Walks valid at any period: what was found here, moved to the longest period of interest.
    for (let i = this.at; i < this.at + this.prefix.top; i++) {
      this.timeHigh[i] = this.time[i]!;
      this.endsHigh[i] = this.ends[i]!;
    }
    if (this.limitS < Number.POSITIVE_INFINITY) this.moveHigh(this.limitS - periodS);
    return periodS;
  }

  /** A circuit that is positive at the longest period of interest and does not ask for a shorter one. */
  private isHopeless(): boolean {
    if (this.limitS === Number.POSITIVE_INFINITY) return false;
    const circuit = this.relaxAfresh(this.limitS);
    return circuit !== NONE && this.circuitSums(circuit).periods >= 0;
  }

  /** Of the circuit on which a node is. */
  private circuitSums(start: number): { readonly weightS: number; readonly periods: number } {
    const { arcs } = this.prefix;
    let weightS = 0;
    let periods = 0;
    let node = start;
    do {
      const a = this.by[node]!;
      weightS += arcs.weightS[a]!;
      periods += arcs.periods[a]!;
      node = arcs.from[a]!;
    } while (node !== start);
    return { weightS, periods };
  }

  /** Longest paths from the first event alone. Returns NONE, or a node on a positive circuit. */
  private relaxAfresh(periodS: number): number {
    const { time, ends, at, by } = this;
    const { top } = this.prefix;
    const { from: arcFrom, to: arcTo, weightS, periods, count } = this.prefix.arcs;
    const tolerance = 1e-9 * (1 + periodS);
    time.fill(NEVER, at, at + top);
    ends.fill(0, at, at + top);
    time[at] = 0;
    by.fill(NONE, 0, top);
    for (let sweep = 0; ; sweep++) {
      let changed = false;
      for (let a = 0; a < count; a++) {
        const from = arcFrom[a]!;
        const to = arcTo[a]!;
        const reach = time[at + from]! + weightS[a]! - periods[a]! * periodS;
        if (reach > time[at + to]! + tolerance) {
          time[at + to] = reach;
          ends[at + to] = ends[at + from]! + periods[a]!;
          by[to] = a;
          changed = true;
          if (to === 0) {
            const met = this.circuitFrom(0);
            if (met !== NONE) return met;
          }
        }
      }
      if (!changed) return NONE;
      if (sweep >= 2) {
        const met = this.anyCircuit();
        if (met !== NONE) return met;
      }
    }
  }

  private circuitFrom(start: number): number {
    let node = start;
    for (let steps = 0; steps <= this.prefix.top; steps++) {
      const a = this.by[node]!;
      if (a === NONE) return NONE;
      node = this.prefix.arcs.from[a]!;
      if (node === start) return start;
    }
    // The walk runs into a circuit that does not hold the start.
    return node;
  }

  private anyCircuit(): number {
    const mark = this.mark;
    mark.fill(NONE, 0, this.prefix.top);
    for (let start = 0; start < this.prefix.top; start++) {
      let node = start;
      while (mark[node] === NONE) {
        mark[node] = start;
        const a = this.by[node]!;
        if (a === NONE) break;
        node = this.prefix.arcs.from[a]!;
        if (mark[node] === start) return node;
      }
    }
    return NONE;
  }
}
