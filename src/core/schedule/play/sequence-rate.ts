/**
 * How fast a repeating sequence of acts runs, quickly: it is counted through once for room and hands, then timed for a
 * few cycles from the fullest start. If after a cycle of T seconds every process has at most d seconds more left than
 * before it, the sequence repeats within T + d; the least such sum is never too good, and mostly it is the least period.
 */
import { ownTime } from '../bound/period-bound.js';
import type { PlaySpace } from './play-space.js';

/** Cycles timed at most; and over how many of the last the state is compared. */
const MOST_CYCLES = 8;
const BACK = 3;

/** One thing that the robot does without a choice in between: with one hand a whole carry, with two one event. */
export interface SequenceUnits {
  readonly count: number;
  /** Events of the space's plan, by unit. */
  readonly events: readonly (readonly number[])[];
  /** By event: the unit that begins with it; -1 = none. */
  readonly unitOf: Int32Array;
  /** Node that the unit takes a part from, and that it leaves one at; -1 = none of a station. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** Robot time from its beginning to its end. */
  readonly ownS: Float64Array;
  /** Change of the parts in hand. */
  readonly hand: Int8Array;
  /** Value of the part that it delivers; 0 where it delivers none. */
  readonly value: Float64Array;
  /** By node: the room it is in (that of the hands for parts in hand, -1 at racks), and how long a part is worked on there. */
  readonly roomOf: Int32Array;
  readonly processS: Float64Array;
}

export function sequenceUnits(space: PlaySpace): SequenceUnits {
  const { plan, carries } = space;
  const events = plan.hands === 1 ? carries.map((c) => c.events) : plan.events.map((_, e) => [e]);
  const first = (u: number) => plan.events[events[u]![0]!]!;
  const last = (u: number) => plan.events[events[u]![events[u]!.length - 1]!]!;
  const of = (pick: (u: number) => number): number[] => events.map((_, u) => pick(u));
  const unitOf = new Int32Array(plan.events.length).fill(-1);
  for (const [u, list] of events.entries()) unitOf[list[0]!] = u;
  return {
    count: events.length,
    events,
    unitOf,
    from: Int32Array.from(of((u) => first(u).from)),
    to: Int32Array.from(of((u) => last(u).to)),
    start: Int32Array.from(of((u) => first(u).station)),
    end: Int32Array.from(of((u) => last(u).station)),
    ownS: Float64Array.from(of((u) => ownTime(plan, events[u]!))),
    hand: Int8Array.from(
      of((u) =>
        plan.hands === 1 ? 0 : Number(first(u).action === 'pick') - Number(last(u).action === 'place'),
      ),
    ),
    value: Float64Array.from(
      of((u) =>
        last(u).action === 'place' && plan.nodes[last(u).to]!.kind === 'sink'
          ? space.value[carries[space.carryOf[events[u]![0]!]!]!.route]!
          : 0,
      ),
    ),
    roomOf: Int32Array.from(plan.nodes, (node) => node.room),
    processS: Float64Array.from(plan.nodes, (node) => (node.kind === 'inside' ? node.processS : 0)),
  };
}

/** @returns how many units are written to `into`: those of a sequence given as events of the space's plan */
export function writeUnits({ unitOf }: SequenceUnits, events: readonly number[], into: Int32Array): number {
  let length = 0;
  for (const event of events) if (unitOf[event]! >= 0) into[length++] = unitOf[event]!;
  return length;
}

/** Times sequences of the units of one cell; holds the memory for it. */
export class SequenceTimer {
  private readonly level: Int32Array;
  private readonly lowest: Int32Array;
  private readonly inRoom: Int32Array;
  private readonly mostInRoom: Int32Array;
  private readonly roomOf: Int32Array;
  private readonly processS: Float64Array;
  private readonly ready: Float64Array;
  private readonly head: Int32Array;
  private readonly tail: Int32Array;
  private readonly ring: number;
  private readonly left: readonly Float64Array[];
  private readonly atS = new Float64Array(BACK + 1);
  /** Value of one round of the sequence timed last. */
  value = 0;

  constructor(
    private readonly space: PlaySpace,
    readonly units: SequenceUnits,
  ) {
    const { plan } = space;
    const nodes = plan.nodes.length;
    this.level = new Int32Array(nodes);
    this.lowest = new Int32Array(nodes);
    this.inRoom = new Int32Array(plan.rooms.length);
    this.mostInRoom = new Int32Array(plan.rooms.length);
    this.roomOf = units.roomOf;
    this.processS = units.processS;
    this.ring = 2 * space.depth + 2;
    this.ready = new Float64Array(nodes * this.ring);
    this.left = Array.from({ length: BACK + 1 }, () => new Float64Array(nodes * this.ring));
    this.head = new Int32Array(nodes);
    this.tail = new Int32Array(nodes);
  }

  /** @returns seconds a round; Infinity where room, hands or batches forbid it */
  private periodS(sequence: Int32Array, length: number, leastPerS: number): number {
    if (!this.fits(sequence, length)) return Number.POSITIVE_INFINITY;
    return this.time(sequence, length, leastPerS > 0 ? this.value / leastPerS : Number.POSITIVE_INFINITY);
  }

  /**
   * @param leastPerS a rate below which it does not matter how slow the sequence is
   * @returns value a second; 0 where room, hands or batches forbid it, or where it is certainly less than asked for
   */
  perS(sequence: Int32Array, length: number, leastPerS = 0): number {
    const periodS = this.periodS(sequence, length, leastPerS);
    return periodS < Number.POSITIVE_INFINITY && periodS > 0 ? this.value / periodS : 0;
  }

  /** @returns by node: parts there as the sequence timed last begins */
  contents(): Int32Array {
    return this.lowest.map((lowest) => -lowest);
  }

  private fits(sequence: Int32Array, length: number): boolean {
    const { level, lowest, inRoom, mostInRoom, roomOf, units } = this;
    level.fill(0);
    lowest.fill(0);
    inRoom.fill(0);
    mostInRoom.fill(0);
    this.value = 0;
    for (let i = 0; i < length; i++) {
      const u = sequence[i]!;
      const from = units.from[u]!;
      const to = units.to[u]!;
      this.value += units.value[u]!;
      level[from]!--;
      if (level[from]! < lowest[from]!) lowest[from] = level[from]!;
      if (roomOf[from]! >= 0) inRoom[roomOf[from]!]!--;
      level[to]!++;
      const room = roomOf[to]!;
      if (room < 0) continue;
      inRoom[room]!++;
      if (inRoom[room]! > mostInRoom[room]!) mostInRoom[room] = inRoom[room]!;
    }
    const { nodesOf, capacity } = this.space;
    for (let room = 0; room < nodesOf.length; room++) {
      let needed = mostInRoom[room]!;
      for (const node of nodesOf[room]!) {
        if (level[node] !== 0) return false;
        needed -= lowest[node]!;
      }
      if (needed > capacity[room]!) return false;
      // Spare room lets processes run longer; where one node alone has it, it is filled.
      const alone = nodesOf[room]!;
      if (room > 0 && alone.length === 1 && lowest[alone[0]!]! + needed < capacity[room]!)
        lowest[alone[0]!] = lowest[alone[0]!]! - Math.min(this.space.depth, capacity[room]! - needed);
    }
    return true;
  }

  private time(sequence: Int32Array, length: number, mostS: number): number {
    const { plan } = this.space;
    const { units, lowest, ready, head, tail, ring, processS, roomOf } = this;
    const stations = plan.stations.length;
    const two = plan.hands === 2;
    ready.fill(0);
    for (let node = 0; node < lowest.length; node++) {
      head[node] = 0;
      tail[node] = -lowest[node]!;
    }
    let inHand = 0;
    if (two) for (const node of this.space.nodesOf[0]!) inHand -= lowest[node]!;
    let t = 0;
    let at = units.end[sequence[length - 1]!]!;
    let leastS = Number.POSITIVE_INFINITY;
    this.keepLeft(0, t);
    for (let cycle = 1; cycle <= MOST_CYCLES; cycle++) {
      for (let i = 0; i < length; i++) {
        const u = sequence[i]!;
        const start = units.start[u]!;
        if (start === at) t += two ? plan.indexS : 0;
        else t += (inHand > 0 ? plan.loadedS : plan.emptyS)[at * stations + start]!;
        const from = units.from[u]!;
        if (roomOf[from]! > 0) {
          const readyS = ready[from * ring + (head[from]! % ring)]!;
          head[from]!++;
          if (readyS > t) t = readyS;
        }
        t += units.ownS[u]!;
        const to = units.to[u]!;
        if (roomOf[to]! > 0) {
          ready[to * ring + (tail[to]! % ring)] = t + processS[to]!;
          tail[to]!++;
        }
        inHand += units.hand[u]!;
        at = units.end[u]!;
      }
      this.keepLeft(cycle, t);
      for (let back = 1; back <= Math.min(BACK, cycle); back++) {
        const takenS = t - this.atS[(cycle - back) % (BACK + 1)]!;
        const lateS = this.moreLeftS(cycle, cycle - back);
        if ((takenS + lateS) / back < leastS) leastS = (takenS + lateS) / back;
        if (lateS <= 1e-9) return leastS;
        // With at most so much less left than before no later cycle is quicker than this.
        if ((takenS - this.moreLeftS(cycle - back, cycle)) / back > mostS) return Number.POSITIVE_INFINITY;
      }
    }
    return leastS;
  }

  /** Notes what is left of every process at the end of a cycle. */
  private keepLeft(cycle: number, t: number): void {
    const { ready, head, tail, ring, roomOf } = this;
    const slot = cycle % (BACK + 1);
    const left = this.left[slot]!;
    this.atS[slot] = t;
    for (let node = 0; node < roomOf.length; node++) {
      if (roomOf[node]! <= 0) continue;
      for (let k = head[node]!; k < tail[node]!; k++) {
        const s = ready[node * ring + (k % ring)]! - t;
        left[node * ring + k - head[node]!] = Math.max(0, s);
      }
    }
  }

  /** How much more of a process is left at the end of one cycle than of another, at most. */
  private moreLeftS(cycle: number, than: number): number {
    const { head, tail, ring, roomOf } = this;
    const now = this.left[cycle % (BACK + 1)]!;
    const before = this.left[than % (BACK + 1)]!;
    let most = 0;
    for (let node = 0; node < roomOf.length; node++) {
      if (roomOf[node]! <= 0) continue;
      for (let k = tail[node]! - head[node]! - 1; k >= 0; k--) {
        const more = now[node * ring + k]! - before[node * ring + k]!;
        if (more > most) most = more;
      }
    }
    return most;
  }
}

/** Times sequences that are given as events of the space's plan. */
export class EventTimer {
  private readonly timer: SequenceTimer;
  private sequence = new Int32Array(0);

  constructor(space: PlaySpace) {
    this.timer = new SequenceTimer(space, sequenceUnits(space));
  }

  /** Value a second; 0 where the events cannot repeat. */
  perS(events: readonly number[]): number {
    if (this.sequence.length < events.length) this.sequence = new Int32Array(2 * events.length);
    return this.timer.perS(this.sequence, writeUnits(this.timer.units, events, this.sequence));
  }
}

/** Sequences with batches are not timed here: which parts run together hangs on the start. */
export function canTime(space: PlaySpace): boolean {
  return (
    space.plan.nodes.every((node) => node.batch === 1 && node.maxWaitS === null) &&
    space.occasionEvery.length === 0
  );
}
