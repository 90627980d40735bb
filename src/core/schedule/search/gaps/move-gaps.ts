/**
 * The starts of a round's moves at a given period, as bounds of every difference: bound[a * n + b] is the least
 * seconds from start a to start b. The robot keeps two moves apart in every round alike, so a difference may lie in
 * one of several intervals, a period apart (P. Serafini, W. Ukovich, A mathematical model for periodic scheduling
 * problems, SIAM J. Discrete Math. 2, 1989; R. Dechter, I. Meiri, J. Pearl, Temporal constraint networks, Artificial
 * Intelligence 49, 1991). A bound that falls between two intervals moves on to the next one,
 * and with it all sums of bounds that it is part of; where none is left, no order has this period.
 *
 * Flat typed arrays that are laid out once; every change is kept on a trail, so that it can be taken back.
 */
import type { RoundMoves } from './round-moves.js';

/** No pair. */
const NONE = -1;

export class MoveGaps {
  private readonly n: number;
  private readonly bound: Float64Array;
  private periodS = 0;
  private toleranceS = 0;

  private trailAt = new Int32Array(1 << 14);
  private trailWas = new Float64Array(1 << 14);
  private trailTop = 0;

  /** Pairs whose bounds have changed, as a ring; each at most once. */
  private readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private queueHead = 0;
  private queueTail = 0;

  private readonly isOpen: Uint8Array;
  private readonly rows: Int32Array;
  private readonly columns: Int32Array;

  /** By place in the list of pairs: the pair the other way round, and the least seconds from either start to the other. */
  private readonly backAt: Int32Array;
  private readonly aheadS: Float64Array;
  private readonly backS: Float64Array;

  /** By bound, the stretch of the trail in which it was last kept: within one it is kept once. */
  private readonly keptIn: Int32Array;
  private stretch = 0;

  constructor(private readonly moves: RoundMoves) {
    const n = moves.count;
    this.n = n;
    this.bound = new Float64Array(n * n);
    this.queue = new Int32Array(moves.pairs.length + 1);
    this.queued = new Uint8Array(n * n);
    this.isOpen = new Uint8Array(n * n);
    for (let i = 0; i < moves.pairs.length; i++) this.isOpen[moves.pairs[i]!] = 1;
    this.rows = new Int32Array(n);
    this.columns = new Int32Array(n);
    this.backAt = new Int32Array(moves.pairs.length);
    this.aheadS = new Float64Array(moves.pairs.length);
    this.backS = new Float64Array(moves.pairs.length);
    for (let i = 0; i < moves.pairs.length; i++) {
      const pair = moves.pairs[i]!;
      const a = Math.floor(pair / n);
      const back = (pair - a * n) * n + a;
      this.backAt[i] = back;
      this.aheadS[i] = moves.leastS[pair]!;
      this.backS[i] = moves.leastS[back]!;
    }
    this.keptIn = new Int32Array(n * n);
  }

  /** Begins anew at this period; false when no order can have it. */
  begin(periodS: number): boolean {
    const { n, moves } = this;
    this.periodS = periodS;
    this.toleranceS = 1e-11 * (1 + periodS);
    this.trailTop = 0;
    this.stretch++;
    this.bound.fill(Number.NEGATIVE_INFINITY);
    for (let i = 0; i < n; i++) this.bound[i * n + i] = 0;
    for (const arc of moves.arcs) {
      if (!this.raise(arc.from, arc.to, arc.weightS - arc.periods * periodS)) return this.giveUp();
    }
    const gap = moves.shortestGap;
    if (gap !== null && !this.raise(gap.to, gap.from, -periodS / gap.visits)) return this.giveUp();
    for (const pair of moves.pairs) this.note(pair);
    return this.settle();
  }

  mark(): number {
    this.stretch++;
    return this.trailTop;
  }

  takeBack(mark: number): void {
    while (this.trailTop > mark) {
      this.trailTop--;
      this.bound[this.trailAt[this.trailTop]!] = this.trailWas[this.trailTop]!;
    }
    this.stretch++;
  }

  /**
   * The pair with the least freedom among those with more than one interval left, or NONE (-1) when all are decided.
   * It is to be decided between its lower and its upper intervals.
   */
  tightestPair(): number {
    const { pairs } = this.moves;
    const { bound, backAt, aheadS, backS, periodS, toleranceS } = this;
    let tightest = NONE;
    let leastS = Number.POSITIVE_INFINITY;
    for (let i = 0; i < pairs.length; i++) {
      const ahead = bound[pairs[i]!]!;
      const back = bound[backAt[i]!]!;
      // What is free in all intervals together, to rounding: mostly that is enough to go on.
      if (-back - aheadS[i]! - backS[i]! - ahead > leastS + 1e-6) continue;
      const low = Math.ceil((ahead + backS[i]! - toleranceS) / periodS) - 1;
      if (low >= Math.floor((-back - aheadS[i]! + toleranceS) / periodS)) continue;
      const below = (low + 1) * periodS - backS[i]! - ahead;
      const above = -back - aheadS[i]! - (low + 1) * periodS;
      if (below + above < leastS) {
        leastS = below + above;
        tightest = pairs[i]!;
      }
    }
    return tightest;
  }

  /** Of the pair's intervals the lowest leaves more freedom than those above it. */
  isLowerWider(pair: number): boolean {
    const low = this.lowest(pair);
    return this.roomBelow(pair, low) >= this.roomAbove(pair, low);
  }

  /** Decides the pair for its lowest interval, or for those above it; false when no order is left. */
  decide(pair: number, lower: boolean): boolean {
    const a = Math.floor(pair / this.n);
    const b = pair - a * this.n;
    const low = this.lowest(pair);
    const held = lower
      ? this.raise(b, a, this.moves.leastS[b * this.n + a]! - (low + 1) * this.periodS)
      : this.raise(a, b, this.moves.leastS[pair]! + (low + 1) * this.periodS);
    return held ? this.settle() : this.giveUp();
  }

  /** The robot can go from move a straight on to move b when it waits no longer than that on the way. */
  mayFollow(a: number, b: number, waitS: number): boolean {
    const { n, bound, periodS } = this;
    const leastS = this.moves.leastS[a * n + b]!;
    const slackS = 100 * this.toleranceS;
    const rounds = Math.ceil((bound[a * n + b]! - leastS - waitS - slackS) / periodS);
    return leastS + rounds * periodS <= slackS - bound[b * n + a]!;
  }

  /** The moves in the order of their earliest starts within the round; to be asked when all pairs are decided. */
  order(): number[] {
    const atS = Array.from({ length: this.n }, (_, i) => {
      const startS = this.bound[i]!;
      return startS - Math.floor((startS + this.toleranceS) / this.periodS) * this.periodS;
    });
    return atS.map((_, i) => i).sort((a, b) => atS[a]! - atS[b]!);
  }

  /** Number of the lowest interval that the pair's bounds reach: from leastS(a, b) + number x period. */
  private lowest(pair: number): number {
    const a = Math.floor(pair / this.n);
    const back = this.moves.leastS[(pair - a * this.n) * this.n + a]!;
    return Math.ceil((this.bound[pair]! + back - this.toleranceS) / this.periodS) - 1;
  }

  private highest(pair: number): number {
    const a = Math.floor(pair / this.n);
    const most = -this.bound[(pair - a * this.n) * this.n + a]!;
    return Math.floor((most - this.moves.leastS[pair]! + this.toleranceS) / this.periodS);
  }

  /** Seconds of freedom in the interval of this number, above the pair's bound. */
  private roomBelow(pair: number, number: number): number {
    const a = Math.floor(pair / this.n);
    const back = this.moves.leastS[(pair - a * this.n) * this.n + a]!;
    return (number + 1) * this.periodS - back - this.bound[pair]!;
  }

  /** Seconds of freedom in the intervals after that number. */
  private roomAbove(pair: number, number: number): number {
    const a = Math.floor(pair / this.n);
    const most = -this.bound[(pair - a * this.n) * this.n + a]!;
    return most - this.moves.leastS[pair]! - (number + 1) * this.periodS;
  }

  /** Moves bounds that lie between intervals on to the next one, until all stand; false when a pair has none left. */
  private settle(): boolean {
    const { n, periodS, toleranceS, bound } = this;
    while (this.queueHead !== this.queueTail) {
      const pair = this.queue[this.queueHead]!;
      this.queueHead = this.queueHead + 1 === this.queue.length ? 0 : this.queueHead + 1;
      this.queued[pair] = 0;
      const a = Math.floor(pair / n);
      const b = pair - a * n;
      const low = this.lowest(pair);
      const high = this.highest(pair);
      if (low > high) return this.giveUp();
      const fromS = this.moves.leastS[pair]! + low * periodS;
      if (fromS > bound[pair]! + toleranceS && !this.raise(a, b, fromS)) return this.giveUp();
      const toS = (high + 1) * periodS - this.moves.leastS[b * n + a]!;
      if (-toS > bound[b * n + a]! + toleranceS && !this.raise(b, a, -toS)) return this.giveUp();
    }
    return true;
  }

  /** start(b) - start(a) is at least `leastS`, and every sum of bounds with it; false on a contradiction. */
  private raise(a: number, b: number, leastS: number): boolean {
    const { n, bound, rows, columns, toleranceS } = this;
    if (leastS <= bound[a * n + b]! + toleranceS) return true;
    if (leastS + bound[b * n + a]! > toleranceS) return false;
    let rowCount = 0;
    let columnCount = 0;
    for (let i = 0; i < n; i++) {
      if (bound[i * n + a]! + leastS > bound[i * n + b]! + toleranceS) rows[rowCount++] = i;
      if (leastS + bound[b * n + i]! > bound[a * n + i]! + toleranceS) columns[columnCount++] = i;
    }
    for (let r = 0; r < rowCount; r++) {
      const i = rows[r]!;
      const viaS = bound[i * n + a]! + leastS;
      for (let c = 0; c < columnCount; c++) {
        const j = columns[c]!;
        const sumS = viaS + bound[b * n + j]!;
        if (sumS <= bound[i * n + j]! + toleranceS) continue;
        if (i === j) return false;
        this.set(i * n + j, sumS);
        this.note(i < j ? i * n + j : j * n + i);
      }
    }
    return true;
  }

  private set(at: number, valueS: number): void {
    if (this.keptIn[at] !== this.stretch) {
      this.keptIn[at] = this.stretch;
      if (this.trailTop === this.trailAt.length) this.lengthenTrail();
      this.trailAt[this.trailTop] = at;
      this.trailWas[this.trailTop++] = this.bound[at]!;
    }
    this.bound[at] = valueS;
  }

  private lengthenTrail(): void {
    const [at, was] = [this.trailAt, this.trailWas];
    this.trailAt = new Int32Array(2 * at.length);
    this.trailAt.set(at);
    this.trailWas = new Float64Array(2 * was.length);
    this.trailWas.set(was);
  }

  private note(pair: number): void {
    if (!this.isOpen[pair] || this.queued[pair]) return;
    this.queued[pair] = 1;
    this.queue[this.queueTail] = pair;
    this.queueTail = this.queueTail + 1 === this.queue.length ? 0 : this.queueTail + 1;
  }

  /** Empties the queue of a run that has met a contradiction. */
  private giveUp(): false {
    while (this.queueHead !== this.queueTail) {
      this.queued[this.queue[this.queueHead]!] = 0;
      this.queueHead = this.queueHead + 1 === this.queue.length ? 0 : this.queueHead + 1;
    }
    return false;
  }
}
