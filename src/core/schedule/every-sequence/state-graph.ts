/**
 * Every state that a cell can come to, and every move from each. A state is the robot's place and what it holds, what
 * lies in every station, and what is left of every process; each move begins as early as it can, which is never worse
 * where no longest waits forbid it. A process that will be over before the robot can be there counts as over.
 *
 * Source: M. Dawande, H. N. Geismar, S. P. Sethi, Dominance of cyclic solutions and challenges in the scheduling of
 * robotic cells, SIAM Review 47, 2005.
 */

import { isPacedRack } from '../plan/plan.js';
import { playAct } from '../play/acts.js';
import type { PlaySpace } from '../play/play-space.js';
import { emptyState, handWith, hasPart, hasRoom, type PlayState } from '../play/play-state.js';
import { EarlyCarries } from './early-carries.js';

/** Moves as lists by state: those of state s are firstMove[s] to firstMove[s + 1]. */
export interface StateGraph {
  readonly states: number;
  readonly firstMove: Int32Array;
  readonly to: Int32Array;
  readonly act: Int32Array;
  readonly timeS: Float64Array;
  readonly value: Float64Array;
}

/** Whether the states say all that matters: nothing that the clock of the whole run or the table forbids. */
export function hasStateGraph(space: PlaySpace): boolean {
  return (
    !space.isCut &&
    space.occasionEvery.length === 0 &&
    space.plan.nodes.every((node) => node.maxWaitS === null) &&
    [...space.plan.emptyS, ...space.plan.loadedS].every(Number.isFinite)
  );
}

/**
 * @param mostStates the search is given up beyond so many
 * @param untilMs moment (Date.now()) after which it is given up
 * @returns null where there are more states, or the time is over
 */
export function stateGraph(space: PlaySpace, mostStates: number, untilMs: number): StateGraph | null {
  return new Exploration(space).run(mostStates, untilMs);
}

/** One part at most, and whole as it comes. */
function isSimple(parts: number, batch: number): boolean {
  return parts === 1 && batch === 1;
}

/** Times are kept in whole ticks, the coarsest of these of which all times of the cell are whole numbers. */
const TICKS_S = [1, 0.1, 0.01, 1e-3, 1e-4, 1e-5] as const;

/** Whole numbers in a list that grows. */
class Whole {
  list = new Int32Array(1 << 12);
  count = 0;

  push(value: number): void {
    if (this.count === this.list.length) {
      const more = new Int32Array(2 * this.count);
      more.set(this.list);
      this.list = more;
    }
    this.list[this.count++] = value;
  }

  done(): Int32Array {
    return this.list.slice(0, this.count);
  }
}

/** A place of the key: the parts at a node, and for each of them what is left of its process. */
interface KeptNode {
  readonly node: number;
  readonly room: number;
  readonly station: number;
  /** Parts at most. */
  readonly parts: number;
  readonly batch: number;
}

/** The states that have been come to so far: where it was given up it goes on when more are asked for. */
export class Exploration {
  private readonly width: number;
  private keys = new Int32Array(1 << 16);
  private table = new Int32Array(1 << 14).fill(-1);
  private count = 0;
  private readonly key: Int32Array;
  private readonly state: PlayState;
  private readonly nodes: readonly KeptNode[];
  /** Stations whose infeed or outfeed needs time in between. */
  private readonly racks: readonly number[];
  /** Stages of a carry at most. */
  private readonly stages: number;
  private readonly tickS: number;
  private readonly early: EarlyCarries | null;
  /** States of which all moves are listed, and those moves. */
  private listed = 0;
  private readonly firstMove = new Whole();
  private readonly to = new Whole();
  private readonly acts = new Whole();
  private readonly times: number[] = [];
  private readonly values: number[] = [];

  constructor(private readonly space: PlaySpace) {
    const { plan } = space;
    this.tickS = tickOf(space);
    this.early = EarlyCarries.of(space);
    const stationAt = new Map(plan.stations.map((s, i) => [s.name, i]));
    this.nodes = plan.nodes.flatMap((own, node) =>
      own.kind !== 'inside'
        ? []
        : [
            {
              node,
              room: own.room,
              station: stationAt.get(own.station)!,
              parts: space.capacity[own.room]!,
              batch: own.batch,
            },
          ],
    );
    const paced = plan.nodes.filter(isPacedRack);
    this.racks = [...new Set(paced.map((n) => stationAt.get(n.station)!))];
    this.stages = Math.max(...plan.carries.map((carry) => carry.events.length));
    this.width =
      1 +
      plan.hands +
      this.nodes.reduce((sum, { parts, batch }) => sum + (isSimple(parts, batch) ? 1 : 2 + parts), 0) +
      this.racks.length;
    this.key = new Int32Array(this.width);
    this.state = emptyState(space);
  }

  /** @returns null where there are more states, or the time is over (see {@link stateGraph}) */
  run(mostStates: number, untilMs: number): StateGraph | null {
    const { space, state, firstMove, to, acts, times, values } = this;
    const list = new Int32Array(space.plan.events.length + 2);
    if (this.count === 0) {
      firstMove.push(0);
      this.idOf();
    }
    for (; this.listed < this.count; this.listed++) {
      const s = this.listed;
      if (this.count > mostStates || ((s & 1023) === 0 && Date.now() > untilMs)) return null;
      this.load(s);
      const all = this.listMoves(list);
      const many = this.early === null ? all : this.early.sift(state, list, all);
      for (let i = 0; i < many; i++) {
        if (i > 0) this.load(s);
        playAct(space, state, list[i]!);
        to.push(this.idOf());
        acts.push(list[i]!);
        times.push(state.timeS);
        values.push(state.valueMade);
      }
      firstMove.push(to.count);
    }
    if (this.count > mostStates) return null;
    return {
      states: this.count,
      firstMove: firstMove.done(),
      to: to.done(),
      act: acts.done(),
      timeS: Float64Array.from(times),
      value: Float64Array.from(values),
    };
  }

  /** Every move that room and hands allow, also into corners but for the plainest: both hands full, and no room for either part. */
  private listMoves(list: Int32Array): number {
    const { space, state } = this;
    const { plan, carries } = space;
    let count = 0;
    for (let hand = 0; hand < state.inHand; hand++) {
      const event = carries[state.handCarry[hand]!]!.events[state.handStage[hand]!]!;
      const { action, to } = plan.events[event]!;
      if (action === 'place' && !hasRoom(space, state, to, -1)) continue;
      if (handWith(space, state, event) === hand) list[count++] = event;
    }
    if (state.inHand === plan.hands) return count;
    for (let c = 0; c < carries.length; c++) {
      const { from, to, events } = carries[c]!;
      if (plan.nodes[from]!.kind !== 'source' && !hasPart(state, from)) continue;
      if (hasRoom(space, state, to, from) || (plan.hands === 2 && this.canGoOn(from)))
        list[count++] = events[0]!;
    }
    return count;
  }

  /** Once a part is taken from a node, a hand is free or the part in hand can be placed. */
  private canGoOn(from: number): boolean {
    const { space, state } = this;
    return state.inHand === 0 || hasRoom(space, state, space.carries[state.handCarry[0]!]!.to, from);
  }

  private load(id: number): void {
    const { state, keys, width, tickS, stages } = this;
    const { plan, depth } = this.space;
    let at = id * width;
    state.timeS = 0;
    state.valueMade = 0;
    state.at = keys[at++]!;
    state.inHand = 0;
    for (let h = 0; h < plan.hands; h++) {
      const held = keys[at++]!;
      state.handCarry[h] = held === 0 ? -1 : Math.floor((held - 1) / stages);
      state.handStage[h] = held === 0 ? 0 : (held - 1) % stages;
      if (held > 0) state.inHand++;
    }
    state.inRoom.fill(0);
    for (const { node, room, parts, batch } of this.nodes) {
      const first = node * depth;
      if (isSimple(parts, batch)) {
        const left = keys[at++]!;
        state.inside[node] = left === 0 ? 0 : 1;
        state.finishS[first] = left === 0 ? 0 : (left - 1) * tickS;
      } else {
        state.inside[node] = keys[at++]!;
        state.pending[node] = keys[at++]!;
        for (let k = 0; k < parts; k++) state.finishS[first + k] = keys[at++]! * tickS;
      }
      state.inRoom[room]! += state.inside[node]!;
    }
    state.rackS.fill(0);
    for (const rack of this.racks) state.rackS[rack] = keys[at++]! * tickS;
  }

  /** Number of the state, new where it was not met before. */
  private idOf(): number {
    const { key, state, stages } = this;
    const { plan, depth } = this.space;
    let at = 0;
    key[at++] = state.at;
    for (let h = 0; h < plan.hands; h++)
      key[at++] = h < state.inHand ? state.handCarry[h]! * stages + state.handStage[h]! + 1 : 0;
    // Parts in hand in one order, whichever was picked first.
    if (state.inHand === 2 && key[at - 2]! > key[at - 1]!) {
      const swapped = key[at - 2]!;
      key[at - 2] = key[at - 1]!;
      key[at - 1] = swapped;
    }
    for (const { node, station, parts, batch } of this.nodes) {
      const inside = state.inside[node]!;
      const first = node * depth;
      if (isSimple(parts, batch)) {
        key[at++] = inside === 0 ? 0 : 1 + this.leftAt(station, state.finishS[first]!);
        continue;
      }
      key[at++] = inside;
      key[at++] = state.pending[node]!;
      const complete = inside - state.pending[node]!;
      for (let k = 0; k < parts; k++)
        key[at++] = k < complete ? this.leftAt(station, state.finishS[first + k]!) : 0;
    }
    for (const rack of this.racks) key[at++] = this.leftAt(rack, state.rackS[rack]!);
    return this.find();
  }

  /** Ticks left until a moment, 0 where it is over before the robot can be there. */
  private leftAt(station: number, endS: number): number {
    const { space, state, tickS } = this;
    const leftS = endS - state.timeS;
    const reachS = space.leastWayS[state.at * space.plan.stations.length + station]!;
    return leftS > reachS + 0.5 * tickS ? Math.round(leftS / tickS) : 0;
  }

  private find(): number {
    const { key, width } = this;
    if (this.count * 2 > this.table.length) this.grow();
    const mask = this.table.length - 1;
    let slot = this.hashOf(key, 0) & mask;
    for (;;) {
      const id = this.table[slot]!;
      if (id < 0) break;
      let same = true;
      const at = id * width;
      for (let i = 0; i < width; i++)
        if (this.keys[at + i] !== key[i]) {
          same = false;
          break;
        }
      if (same) return id;
      slot = (slot + 1) & mask;
    }
    const id = this.count++;
    if ((id + 1) * width > this.keys.length) {
      const more = new Int32Array(this.keys.length * 2);
      more.set(this.keys);
      this.keys = more;
    }
    this.keys.set(key, id * width);
    this.table[slot] = id;
    return id;
  }

  /** Hash of the key that begins at a place (FNV-1a over whole numbers, mixed at the end). */
  private hashOf(keys: Int32Array, at: number): number {
    let hash = 0x811c9dc5;
    for (let i = at; i < at + this.width; i++) hash = Math.imul(hash ^ keys[i]!, 0x01000193) ^ (hash >>> 15);
    return hash ^ (hash >>> 13);
  }

  private grow(): void {
    const { width, keys } = this;
    const size = this.table.length * 4;
    this.table = new Int32Array(size).fill(-1);
    for (let id = 0; id < this.count; id++) {
      let slot = this.hashOf(keys, id * width) & (size - 1);
      while (this.table[slot]! >= 0) slot = (slot + 1) & (size - 1);
      this.table[slot] = id;
    }
  }
}

/** The coarsest tick of which every time of the cell is a whole number; else the finest. */
function tickOf({ plan }: PlaySpace): number {
  const times = [
    ...plan.emptyS,
    ...plan.loadedS,
    plan.indexS,
    ...plan.events.map((e) => e.robotS),
    ...plan.nodes.map((n) => n.processS),
  ];
  const fits = (tickS: number): boolean =>
    times.every((t) => Math.abs(t / tickS - Math.round(t / tickS)) < 1e-6);
  return TICKS_S.find(fits) ?? TICKS_S[TICKS_S.length - 1]!;
}
