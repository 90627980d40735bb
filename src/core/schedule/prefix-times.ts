/**
 * Longest paths over the graph of a prefix, at any period. A time is kept as the walk that gives it (its value and its
 * count of period ends), so it stays a valid bound at every other period, and a positive closed walk through the first
 * event raises the period to its ratio at once. Where longest waits make circuits that ask for a shorter period, the
 * circuits themselves are looked for.
 */
import { NONE, type OrderPrefix, PERIOD_TOLERANCE_S } from './order-prefix.js';

/** Sweeps after which warm times that do not come to rest are given up for a run that watches for circuits. */
const WARM_SWEEPS = 6;

export class PrefixTimes {
  readonly time: Float64Array;
  /** Period ends on the walk that gives each time. */
  readonly ends: Int32Array;
  /** The same at the longest period of interest: what is impossible there is cut before it is bounded. */
  readonly timeHigh: Float64Array;
  readonly endsHigh: Int32Array;
  /** Best period for which `timeHigh` stands. */
  highS = Number.POSITIVE_INFINITY;
  /** Copies of the times, by slot: one for each child and one for the parent, at every depth. */
  private readonly kept: Float64Array;
  private readonly keptEnds: Int32Array;
  readonly keptHigh: Float64Array;
  readonly keptEndsHigh: Int32Array;
  private readonly by: Int32Array;
  private readonly mark: Int32Array;

  constructor(private readonly prefix: OrderPrefix) {
    const { positions } = prefix;
    this.time = new Float64Array(positions);
    this.by = new Int32Array(positions);
    this.mark = new Int32Array(positions);
    this.ends = new Int32Array(positions);
    this.timeHigh = new Float64Array(positions);
    this.endsHigh = new Int32Array(positions);
    const slots = (prefix.length + 1) * (prefix.n + 1) * positions;
    this.kept = new Float64Array(slots);
    this.keptEnds = new Int32Array(slots);
    this.keptHigh = new Float64Array(slots);
    this.keptEndsHigh = new Int32Array(slots);
  }

  startAfresh(): void {
    for (const time of [this.time, this.timeHigh]) {
      time.fill(Number.NEGATIVE_INFINITY);
      time[0] = 0;
    }
    this.ends.fill(0);
    this.endsHigh.fill(0);
    this.highS = this.prefix.bestS;
  }

  /** Where the times of a child of a prefix of that depth are kept; those of the prefix itself as of child n. */
  slotOf(depth: number, child: number): number {
    const { n, positions } = this.prefix;
    return (depth * (n + 1) + child) * positions;
  }

  keep(at: number): void {
    const { top } = this.prefix;
    for (let i = 0; i < top; i++) {
      this.kept[at + i] = this.time[i]!;
      this.keptEnds[at + i] = this.ends[i]!;
      this.keptHigh[at + i] = this.timeHigh[i]!;
      this.keptEndsHigh[at + i] = this.endsHigh[i]!;
    }
  }

  restore(at: number): void {
    this.restoreUpTo(at, this.prefix.top);
  }

  /** The times of the prefix before the unit that was just appended, whose own positions have none yet. */
  restoreParent(at: number, parentTop: number): void {
    this.restoreUpTo(at, parentTop);
    const { top } = this.prefix;
    for (let i = parentTop; i < top; i++) {
      this.time[i] = Number.NEGATIVE_INFINITY;
      this.timeHigh[i] = Number.NEGATIVE_INFINITY;
    }
  }

  private restoreUpTo(at: number, top: number): void {
    for (let i = 0; i < top; i++) {
      this.time[i] = this.kept[at + i]!;
      this.ends[i] = this.keptEnds[at + i]!;
      this.timeHigh[i] = this.keptHigh[at + i]!;
      this.endsHigh[i] = this.keptEndsHigh[at + i]!;
    }
  }

  /** The times stand at this period; those of the longest period of interest come down to the best found meanwhile. */
  stepTo(periodS: number): void {
    const { bestS, top } = this.prefix;
    if (this.highS === bestS) return;
    if (this.highS < Number.POSITIVE_INFINITY) this.moveTo(this.timeHigh, this.endsHigh, bestS - this.highS);
    else {
      // Nothing was kept for an endless period: the times at the bound are walks as good as any.
      for (let i = 0; i < top; i++) {
        this.timeHigh[i] = this.time[i]!;
        this.endsHigh[i] = this.ends[i]!;
      }
      this.moveTo(this.timeHigh, this.endsHigh, bestS - PERIOD_TOLERANCE_S - periodS);
    }
    this.highS = bestS;
  }

  /**
   * Least period of the prefix from `fromS` up; Infinity when no period below the best can mend it. Leaves the times
   * at that period (`time`) and at the longest period of interest (`timeHigh`).
   */
  boundPrefix(fromS: number): number {
    const own = this.prefix.arcs;
    const periodS = this.prefix.addOpenArcs() ? this.boundArcs(fromS) : Number.POSITIVE_INFINITY;
    this.prefix.arcs = own;
    return periodS;
  }

  private boundArcs(fromS: number): number {
    const limitS = this.prefix.bestS - PERIOD_TOLERANCE_S;
    if (limitS < Number.POSITIVE_INFINITY) {
      const met = this.relax(this.timeHigh, this.endsHigh, limitS);
      // A closed walk that is positive at the longest period of interest is so at every shorter one.
      if (met === 1 && this.endsHigh[0]! >= 0) return Number.POSITIVE_INFINITY;
      if (met !== 0) return this.boundAfresh(fromS);
    }
    let periodS = fromS;
    if (this.prefix.chainBoundS > fromS + 1e-9 * (1 + fromS)) {
      this.time.fill(Number.NEGATIVE_INFINITY, 0, this.prefix.top);
      this.time[0] = 0;
      this.ends[0] = 0;
      periodS = this.prefix.chainBoundS;
    }
    for (;;) {
      const met = this.relax(this.time, this.ends, periodS);
      if (met === 0) return periodS;
      const ends = this.ends[0]!;
      if (met === 1 && ends === 0) return Number.POSITIVE_INFINITY;
      if (met === 2 || ends < 0) return this.boundAfresh(fromS);
      const nextS = periodS + this.time[0]! / ends;
      if (nextS >= limitS) return Number.POSITIVE_INFINITY;
      // Walks through the first event hold that closed walk; at the new period start from plain ones.
      this.time.fill(Number.NEGATIVE_INFINITY, 0, this.prefix.top);
      this.time[0] = 0;
      this.ends[0] = 0;
      periodS = nextS;
    }
  }

  /** Times at a period longer by `byS`, along the same walks. */
  private moveTo(time: Float64Array, ends: Int32Array, byS: number): void {
    for (let i = 0; i < this.prefix.top; i++) time[i] = time[i]! - ends[i]! * byS;
  }

  /**
   * Longest paths from the first event, from valid times on. Returns 0 when they stand, 1 when the first event would
   * have to start after itself (time[0] > 0), 2 when they do not come to rest.
   */
  private relax(time: Float64Array, ends: Int32Array, periodS: number): 0 | 1 | 2 {
    const { arcFrom, arcTo, arcW, arcK, arcs } = this.prefix;
    const tolerance = 1e-9 * (1 + periodS);
    for (let sweep = 0; sweep < WARM_SWEEPS; sweep++) {
      let changed = false;
      for (let a = 0; a < arcs; a++) {
        const from = arcFrom[a]!;
        const to = arcTo[a]!;
        const reach = time[from]! + arcW[a]! - arcK[a]! * periodS;
        if (reach > time[to]! + tolerance) {
          time[to] = reach;
          ends[to] = ends[from]! + arcK[a]!;
          if (to === 0) return 1;
          changed = true;
        }
      }
      if (!changed) return 0;
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
      let weight = 0;
      let periods = 0;
      let node = circuit;
      do {
        const a = this.by[node]!;
        weight += this.prefix.arcW[a]!;
        periods += this.prefix.arcK[a]!;
        node = this.prefix.arcFrom[a]!;
      } while (node !== circuit);
      if (periods <= 0) return Number.POSITIVE_INFINITY;
      const nextS = weight / periods;
      if (nextS >= this.prefix.bestS - PERIOD_TOLERANCE_S) return Number.POSITIVE_INFINITY;
      if (nextS <= periodS) break;
      periodS = nextS;
    }
    // Walks valid at any period: what was found here, moved to the longest period of interest.
    for (let i = 0; i < this.prefix.top; i++) {
      this.timeHigh[i] = this.time[i]!;
      this.endsHigh[i] = this.ends[i]!;
    }
    const limitS = this.prefix.bestS - PERIOD_TOLERANCE_S;
    if (limitS < Number.POSITIVE_INFINITY) this.moveTo(this.timeHigh, this.endsHigh, limitS - periodS);
    return periodS;
  }

  /** A circuit that is positive at the longest period of interest and does not ask for a shorter one. */
  private isHopeless(): boolean {
    const limitS = this.prefix.bestS - PERIOD_TOLERANCE_S;
    if (limitS === Number.POSITIVE_INFINITY) return false;
    const circuit = this.relaxAfresh(limitS);
    if (circuit === NONE) return false;
    let periods = 0;
    let node = circuit;
    do {
      periods += this.prefix.arcK[this.by[node]!]!;
      node = this.prefix.arcFrom[this.by[node]!]!;
    } while (node !== circuit);
    return periods >= 0;
  }

  /** Longest paths from the first event alone. Returns NONE, or a node on a positive circuit. */
  private relaxAfresh(periodS: number): number {
    const { time, ends } = this;
    const depth = this.prefix.top;
    const tolerance = 1e-9 * (1 + periodS);
    time.fill(Number.NEGATIVE_INFINITY, 0, depth);
    ends.fill(0, 0, depth);
    time[0] = 0;
    this.by.fill(NONE, 0, depth);
    for (let sweep = 0; ; sweep++) {
      let changed = false;
      for (let a = 0; a < this.prefix.arcs; a++) {
        const from = this.prefix.arcFrom[a]!;
        const to = this.prefix.arcTo[a]!;
        const reach = time[from]! + this.prefix.arcW[a]! - this.prefix.arcK[a]! * periodS;
        if (reach > time[to]! + tolerance) {
          time[to] = reach;
          ends[to] = ends[from]! + this.prefix.arcK[a]!;
          this.by[to] = a;
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
      node = this.prefix.arcFrom[a]!;
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
        node = this.prefix.arcFrom[a]!;
        if (mark[node] === start) return node;
      }
    }
    return NONE;
  }
}
