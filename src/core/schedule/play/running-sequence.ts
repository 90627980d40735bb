/**
 * A repeating sequence that runs, with what is left of every process before each of its units: so a change of a few of them
 * is timed from there alone, up to where nothing differs any more but the time.
 *
 *      as it is    a b c [d e f] g h i j k ...      state kept before each unit
 *      changed             [e d f] g h i            played from the state before d; after i every process
 *                                                   has as much left as before j: the rest takes as long
 *
 * A later start or a longer process never makes anything earlier. So where all that matters is later by at least (at most)
 * so much, the whole cycle takes longer by at least (at most) that, and a change for the worse is mostly known after a few
 * units.
 */
import type { PlaySpace } from './play-space.js';
import type { SequenceUnits } from './sequence-rate.js';

/** Cycles played at most until a sequence repeats as it is. */
const MOST_CYCLES = 12;
/** Units after a change between two looks at what differs. */
const LOOK_EVERY = 4;
/** Times that differ by less are the same. */
const SAME_S = 1e-9;

/** Units of a sequence in place of others of it. */
export interface SequenceChange {
  /** Place of the first one taken out. */
  at: number;
  /** How many are taken out, counted on over the end; fewer than all. */
  removed: number;
  /** How many of `put` come in their place; each place then holds as many parts as before. */
  count: number;
  readonly put: Int32Array;
}

export class RunningSequence {
  length = 0;
  periodS = Number.POSITIVE_INFINITY;
  /** Value of the parts of one cycle. */
  value = 0;
  /** Units played so far: the work done. */
  played = 0;
  private readonly acts: Int32Array;
  /** By place in the sequence: from there to the next one, and from the beginning to there. */
  private readonly stepS: Float64Array;
  private readonly sinceS: Float64Array;
  /** Before each unit: parts by node, and what is left of their processes, oldest first. */
  private readonly parts: Uint8Array;
  private readonly leftS: Float64Array;
  private readonly slots: number;
  private readonly slotOf: Int32Array;
  private readonly nodes: number;
  /** Nodes that units come to and that hold parts; those of stations among them. */
  private readonly held: Int32Array;
  private readonly timed: Int32Array;
  private readonly roomOf: Int32Array;
  private readonly processS: Float64Array;
  private readonly nowParts: Uint8Array;
  private readonly readyS: Float64Array;
  private readonly inRoom: Int32Array;
  private readonly wayS: Float64Array;
  /** By node: 1 where its station has room for one part, and this node alone. */
  private readonly single: Uint8Array;
  /** By node: how often a part is taken from it in a cycle. */
  private readonly takes: Int32Array;
  private nowS = 0;
  private station = 0;
  private inHand = 0;
  /** Node that had no part, or no place, when a unit could not be done. */
  private blockedNode = -1;
  /** Units played after the last change until nothing differed. */
  private merged = 0;
  private lowS = 0;
  private highS = 0;

  constructor(
    private readonly space: PlaySpace,
    private readonly units: SequenceUnits,
    most: number,
  ) {
    const { plan, capacity } = space;
    this.nodes = plan.nodes.length;
    this.roomOf = units.roomOf;
    this.processS = units.processS;
    this.slotOf = new Int32Array(this.nodes + 1);
    for (let node = 0; node < this.nodes; node++)
      this.slotOf[node + 1] =
        this.slotOf[node]! + (this.roomOf[node]! > 0 ? capacity[this.roomOf[node]!]! : 0);
    this.slots = this.slotOf[this.nodes]!;
    const touched = new Set([...units.from, ...units.to]);
    this.held = Int32Array.from([...touched].filter((node) => this.roomOf[node]! >= 0));
    this.timed = this.held.filter((node) => this.roomOf[node]! > 0);
    this.acts = new Int32Array(most);
    this.stepS = new Float64Array(most);
    this.sinceS = new Float64Array(most + 1);
    this.parts = new Uint8Array(most * this.nodes);
    this.leftS = new Float64Array(most * this.slots);
    this.single = Uint8Array.from(this.roomOf, (room) =>
      Number(room > 0 && capacity[room] === 1 && space.nodesOf[room]!.length === 1),
    );
    this.takes = new Int32Array(this.nodes);
    this.nowParts = new Uint8Array(this.nodes);
    this.readyS = new Float64Array(this.slots);
    this.inRoom = new Int32Array(plan.rooms.length);
    this.wayS = new Float64Array(2 * plan.stations.length ** 2);
    this.wayS.set(plan.emptyS);
    this.wayS.set(plan.loadedS, plan.stations.length ** 2);
    if (plan.hands === 2)
      for (let s = 0; s < plan.stations.length; s++)
        for (const at of [0, plan.stations.length ** 2])
          this.wayS[at + s * plan.stations.length + s] = plan.indexS;
  }

  /** @param place counted on over the end, less than twice the length */
  unitAt(place: number): number {
    return this.acts[place < this.length ? place : place - this.length]!;
  }

  /** Whether the units at two places cannot change places: they come to a place for one part that others come to as well. */
  mustKeepOrder(a: number, b: number): boolean {
    const u = this.unitAt(a);
    const v = this.unitAt(b);
    return this.share(this.units.from[u]!, v) || this.share(this.units.to[u]!, v);
  }

  private share(node: number, v: number): boolean {
    if (this.single[node] === 0 || this.takes[node]! < 2) return false;
    return this.units.from[v] === node || this.units.to[v] === node;
  }

  /** The units, in order. */
  sequence(): Int32Array {
    return this.acts.subarray(0, this.length);
  }

  /** @returns how many units are written to `into`: the sequence with the change */
  changed({ at, removed, count, put }: SequenceChange, into: Int32Array): number {
    let many = 0;
    for (let k = 0; k < count; k++) into[many++] = put[k]!;
    for (let i = at + removed; i < at + this.length; i++) into[many++] = this.unitAt(i);
    return many;
  }

  /**
   * Plays a sequence until it repeats as it is.
   * @param contents by node: parts there when it begins
   * @returns false where it does not within a few cycles, as where two cycles take turns
   */
  settle(sequence: Int32Array, length: number, contents: Int32Array): boolean {
    this.acts.set(sequence.subarray(0, length));
    this.length = length;
    this.periodS = Number.POSITIVE_INFINITY;
    this.nowS = 0;
    this.nowParts.set(contents);
    this.readyS.fill(0);
    this.station = this.units.end[sequence[length - 1]!]!;
    this.countRooms();
    for (let cycle = 0; cycle < MOST_CYCLES; cycle++) {
      const fromS = this.nowS;
      if (!this.playOn(0, length)) return false;
      this.compare(0, fromS);
      if (this.highS - this.lowS > SAME_S) continue;
      this.sumUp();
      return true;
    }
    return false;
  }

  /**
   * @param mostS a period above which it does not matter how long it is
   * @returns the period with the change; Infinity where it cannot be or is longer than asked; NaN where this way cannot say
   */
  changedS(change: SequenceChange, mostS: number): number {
    const { at, removed, count, put } = change;
    this.restore(at);
    this.played += count;
    for (let k = 0; k < count; k++)
      if (!this.play(put[k]!)) return this.isBarred(at, removed) ? Number.POSITIVE_INFINITY : Number.NaN;
    const spareS = mostS - this.periodS;
    const others = this.length - removed;
    const { sinceS, periodS } = this;
    for (let done = 1; done <= others; done++) {
      if (!this.play(this.unitAt(at + removed + done - 1))) return Number.NaN;
      if (done % LOOK_EVERY !== 0 && done !== others) continue;
      const place = at + removed + done;
      const pos = place % this.length;
      this.compare(pos, sinceS[pos]! - sinceS[at]! + (place >= this.length ? periodS : 0), spareS);
      if (this.lowS <= spareS + SAME_S && this.highS - this.lowS > SAME_S) continue;
      this.merged = done;
      this.played += done;
      return this.lowS > spareS + SAME_S ? Number.POSITIVE_INFINITY : periodS + this.highS;
    }
    this.played += others;
    return Number.NaN;
  }

  /** Makes the change that was timed last, with a period, part of the sequence. */
  accept({ at, removed, count, put }: SequenceChange): void {
    const { nodes, slots, length } = this;
    this.restore(at);
    const kept = length - removed;
    const over = at + removed - length;
    const move = (list: Int32Array | Float64Array | Uint8Array, each: number): void => {
      if (over > 0) list.copyWithin(0, over * each, at * each);
      else if (count !== removed) list.copyWithin((at + count) * each, (at + removed) * each, length * each);
    };
    move(this.acts, 1);
    move(this.stepS, 1);
    move(this.parts, nodes);
    move(this.leftS, slots);
    // Beyond the end: the sequence then begins after the change, which comes last.
    const begin = over > 0 ? kept : at;
    this.acts.set(put.subarray(0, count), begin);
    this.length = kept + count;
    this.playOn(begin, count + this.merged);
    this.sumUp();
  }

  /** Plays so many units from a place on and notes the state before each. */
  private playOn(from: number, many: number): boolean {
    const { nodes, slots, slotOf, nowParts, readyS, parts, leftS } = this;
    for (let k = 0; k < many; k++) {
      const place = (from + k) % this.length;
      for (const node of this.held) parts[place * nodes + node] = nowParts[node]!;
      for (const node of this.timed)
        for (let s = slotOf[node]! + nowParts[node]! - 1; s >= slotOf[node]!; s--)
          leftS[place * slots + s] = Math.max(0, readyS[s]! - this.nowS);
      const beforeS = this.nowS;
      if (!this.play(this.acts[place]!)) return false;
      this.stepS[place] = this.nowS - beforeS;
    }
    return true;
  }

  private sumUp(): void {
    const { sinceS, stepS, length } = this;
    this.value = 0;
    this.takes.fill(0);
    for (let i = 0; i < length; i++) {
      sinceS[i + 1] = sinceS[i]! + stepS[i]!;
      const u = this.acts[i]!;
      this.value += this.units.value[u]!;
      this.takes[this.units.from[u]!]!++;
    }
    this.periodS = sinceS[length]!;
  }

  /** The state before a unit, as at time 0. */
  private restore(at: number): void {
    const { nodes, slots, parts, leftS, nowParts, readyS } = this;
    for (const node of this.held) nowParts[node] = parts[at * nodes + node]!;
    for (let s = 0; s < slots; s++) readyS[s] = leftS[at * slots + s]!;
    this.nowS = 0;
    this.station = this.units.end[this.acts[at === 0 ? this.length - 1 : at - 1]!]!;
    this.countRooms();
  }

  private countRooms(): void {
    const { inRoom, roomOf, nowParts } = this;
    inRoom.fill(0);
    for (const node of this.held) inRoom[roomOf[node]!]! += nowParts[node]!;
    this.inHand = this.space.plan.hands === 2 ? inRoom[0]! : 0;
  }

  /** Does one unit; false where there is nothing to take or no room for it. */
  private play(u: number): boolean {
    const { units, roomOf, slotOf, nowParts, readyS, inRoom } = this;
    const stations = this.space.plan.stations.length;
    const start = units.start[u]!;
    let t =
      this.nowS + this.wayS[(this.inHand > 0 ? stations * stations : 0) + this.station * stations + start]!;
    const from = units.from[u]!;
    const out = roomOf[from]!;
    if (out >= 0) {
      if (nowParts[from] === 0) {
        this.blockedNode = from;
        return false;
      }
      const left = --nowParts[from]!;
      inRoom[out]!--;
      if (out > 0) {
        const first = slotOf[from]!;
        if (readyS[first]! > t) t = readyS[first]!;
        for (let s = 0; s < left; s++) readyS[first + s] = readyS[first + s + 1]!;
      }
    }
    t += units.ownS[u]!;
    const to = units.to[u]!;
    const into = roomOf[to]!;
    if (into >= 0) {
      if (inRoom[into] === this.space.capacity[into]) {
        this.blockedNode = to;
        return false;
      }
      inRoom[into]!++;
      if (into > 0) readyS[slotOf[to]! + nowParts[to]!] = t + this.processS[to]!;
      nowParts[to]!++;
    }
    this.inHand += units.hand[u]!;
    this.station = units.end[u]!;
    this.nowS = t;
    return true;
  }

  /**
   * By how much the state of now is later than the one kept before a place at the time given, at least and at most; not
   * looked at to the end where it is neither later than `enoughS` nor alike.
   */
  private compare(place: number, timeS: number, enoughS = Number.POSITIVE_INFINITY): void {
    const { timed, slots, slotOf, nowParts, readyS, leftS, nowS } = this;
    const lateS = nowS - timeS;
    let low = lateS;
    let high = lateS;
    for (let n = 0; n < timed.length; n++) {
      const node = timed[n]!;
      for (let s = slotOf[node]! + nowParts[node]! - 1; s >= slotOf[node]!; s--) {
        const later = lateS + Math.max(0, readyS[s]! - nowS) - leftS[place * slots + s]!;
        if (later < low) low = later;
        if (later > high) high = later;
      }
      if (low <= enoughS && high - low > SAME_S) break;
    }
    this.lowS = low;
    this.highS = high;
  }

  /**
   * Whether no other start could make room: a single place that is filled or emptied twice, with more visits elsewhere. Of
   * the hands the same is said, though two of them might carry two parts of a kind: such changes are not looked at.
   */
  private isBarred(at: number, removed: number): boolean {
    const { units } = this;
    const node = this.blockedNode;
    const room = this.roomOf[node]!;
    if (room > 0 && this.single[node] === 0) return false;
    let inside = 0;
    for (let k = 0; k < removed; k++) if (units.from[this.unitAt(at + k)] === node) inside++;
    return this.takes[node]! > inside;
  }
}
