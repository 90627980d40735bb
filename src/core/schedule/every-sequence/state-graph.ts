/**
 * Every state that a cell can come to, and every move from each. A state is the robot's place and what it holds, what
 * lies in every station, and what is left of every process; each move begins as early as it can, which is never worse
 * where no longest waits forbid it. A process that will be over before the robot can be there counts as over.
 *
 * Source: M. Dawande, H. N. Geismar, S. P. Sethi, Dominance of cyclic solutions and challenges in the scheduling of
 * robotic cells, SIAM Review 47, 2005.
 */

import { playAct } from '../play/acts.js';
import type { PlaySpace } from '../play/play-space.js';
import { copyState, emptyState, handWith, hasPart, hasRoom, type PlayState } from '../play/play-state.js';

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

/** Times are kept in whole ticks, the coarsest of these of which all times of the cell are whole numbers. */
const TICKS_S = [1, 0.1, 0.01, 1e-3, 1e-4, 1e-5] as const;

class Exploration {
  private readonly width: number;
  private readonly tickS: number;
  private keys = new Int32Array(1 << 16);
  private table = new Int32Array(1 << 14).fill(-1);
  private count = 0;
  private readonly key: Int32Array;
  private readonly state: PlayState;
  private readonly next: PlayState;
  /** Least time from a station until the robot can be at another one. */
  private readonly leastS: Float64Array;
  /** By node: its station. */
  private readonly stationOf: Int32Array;

  constructor(private readonly space: PlaySpace) {
    const { plan, depth } = space;
    this.width = 1 + 2 * plan.hands + plan.nodes.length * (2 + depth) + plan.stations.length;
    this.key = new Int32Array(this.width);
    this.state = emptyState(space);
    this.next = emptyState(space);
    this.tickS = tickOf(space);
    this.leastS = space.leastWayS;
    const stationAt = new Map(plan.stations.map((s, i) => [s.name, i]));
    this.stationOf = Int32Array.from(plan.nodes, (node) => stationAt.get(node.station)!);
  }

  run(mostStates: number, untilMs: number): StateGraph | null {
    const { space, state, next } = this;
    const first: number[] = [0];
    const to: number[] = [];
    const acts: number[] = [];
    const times: number[] = [];
    const values: number[] = [];
    const list = new Int32Array(space.plan.events.length + 2);
    this.idOf(emptyState(space));
    for (let s = 0; s < this.count; s++) {
      if (this.count > mostStates || ((s & 1023) === 0 && Date.now() > untilMs)) return null;
      this.load(s);
      const many = this.listMoves(list);
      for (let i = 0; i < many; i++) {
        copyState(state, next);
        playAct(space, next, list[i]!);
        to.push(this.idOf(next));
        acts.push(list[i]!);
        times.push(next.timeS);
        values.push(next.valueMade);
      }
      first.push(to.length);
    }
    return {
      states: this.count,
      firstMove: Int32Array.from(first),
      to: Int32Array.from(to),
      act: Int32Array.from(acts),
      timeS: Float64Array.from(times),
      value: Float64Array.from(values),
    };
  }

  /** Every move that room and hands allow, those that lead into a corner too. */
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
      if (plan.hands === 2 || hasRoom(space, state, to, from)) list[count++] = events[0]!;
    }
    return count;
  }

  private load(id: number): void {
    const { state, space, keys, width, tickS } = this;
    const { plan, depth } = space;
    let at = id * width;
    state.timeS = 0;
    state.valueMade = 0;
    state.at = keys[at++]!;
    state.inHand = 0;
    for (let h = 0; h < plan.hands; h++) {
      const carry = keys[at++]!;
      state.handCarry[h] = carry;
      state.handStage[h] = keys[at++]!;
      if (carry >= 0) state.inHand++;
    }
    state.inRoom.fill(0);
    for (let node = 0; node < plan.nodes.length; node++) {
      const inside = keys[at++]!;
      state.inside[node] = inside;
      state.pending[node] = keys[at++]!;
      const room = plan.nodes[node]!.room;
      if (room > 0) state.inRoom[room]! += inside;
      for (let k = 0; k < depth; k++) state.finishS[node * depth + k] = keys[at++]! * tickS;
    }
    for (let s = 0; s < state.rackS.length; s++) state.rackS[s] = keys[at++]! * tickS;
  }

  /** Number of a state, new where it was not met before. */
  private idOf(state: PlayState): number {
    const { key, space, tickS, leastS } = this;
    const { plan, depth } = space;
    const stations = plan.stations.length;
    let at = 0;
    key[at++] = state.at;
    // Parts in hand in one order, whichever was picked first.
    const swap =
      state.inHand === 2 &&
      (state.handCarry[0]! > state.handCarry[1]! ||
        (state.handCarry[0] === state.handCarry[1] && state.handStage[0]! > state.handStage[1]!));
    for (let h = 0; h < plan.hands; h++) {
      const hand = swap ? 1 - h : h;
      const held = hand < state.inHand;
      key[at++] = held ? state.handCarry[hand]! : -1;
      key[at++] = held ? state.handStage[hand]! : 0;
    }
    for (let node = 0; node < plan.nodes.length; node++) {
      const inside = state.inside[node]!;
      key[at++] = inside;
      key[at++] = state.pending[node]!;
      const complete = inside - state.pending[node]!;
      for (let k = 0; k < depth; k++) {
        const left = k < complete ? state.finishS[node * depth + k]! - state.timeS : 0;
        const reachS = complete > 0 ? leastS[state.at * stations + this.stationOf[node]!]! : 0;
        key[at++] = left > reachS + 0.5 * tickS ? Math.round(left / tickS) : 0;
      }
    }
    for (let s = 0; s < state.rackS.length; s++) {
      const left = state.rackS[s]! - state.timeS;
      key[at++] = left > leastS[state.at * stations + s]! + 0.5 * tickS ? Math.round(left / tickS) : 0;
    }
    return this.find();
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
