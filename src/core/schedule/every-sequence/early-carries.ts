/**
 * Moves that need not be looked at: to wait for a part while another one could be carried meanwhile, or a part in hand
 * be placed, the robot being back in time. Whoever does that first loses nothing: all that the other sequence does later
 * can still be done, at its times, leaving out that carry. This holds where the carry takes nothing that could be used
 * otherwise: its part can go nowhere else, and its place is filled by no other carry. With two hands the place must not
 * be meant for a part in hand, and what is left out must not make a way longer: carrying no quicker than empty, no
 * detour quicker, no trip away and back quicker than a turn.
 */
import { shortestWays } from '../../model/shortest-ways.js';
import { isPacedRack } from '../plan/plan.js';
import type { PlaySpace } from '../play/play-space.js';
import { beginS, hasRoom, type PlayState } from '../play/play-state.js';

export class EarlyCarries {
  /** By event that begins or ends a carry: robot time from its begin to the end of the carry; infinite where it may take something. */
  private readonly restS: Float64Array;
  private readonly startS: Float64Array;

  private constructor(private readonly space: PlaySpace) {
    this.restS = new Float64Array(space.plan.events.length).fill(Number.POSITIVE_INFINITY);
    for (const [c, { events }] of space.carries.entries()) {
      if (!takesNothing(space, c)) continue;
      this.restS[events[0]!] = carryTimeS(space, c);
      this.restS[events.at(-1)!] = space.plan.events[events.at(-1)!]!.robotS;
    }
    this.startS = new Float64Array(space.carries.length + 2);
  }

  /** @returns null where it does not hold: detours that are quicker, times between parts at an infeed or outfeed */
  static of(space: PlaySpace): EarlyCarries | null {
    const { plan, leastWayS } = space;
    const isQuickest = plan.emptyS.every((timeS, i) => timeS <= leastWayS[i]! + 1e-9);
    return !plan.nodes.some(isPacedRack) && isQuickest && (plan.hands === 1 || handsDoNotMatter(space))
      ? new EarlyCarries(space)
      : null;
  }

  /** Takes such moves out of the first so many of a list; returns how many remain. */
  sift(state: PlayState, list: Int32Array, many: number): number {
    const { space, restS, startS } = this;
    const { plan } = space;
    for (let i = 0; i < many; i++) startS[i] = beginS(space, state, list[i]!);
    let kept = 0;
    for (let i = 0; i < many; i++) {
      const at = plan.events[list[i]!]!.station;
      let waits = false;
      for (let k = 0; k < many && !waits; k++) {
        const doneS = startS[k]! + restS[list[k]!]!;
        // Of two that take no time one is first.
        if (doneS > startS[i]! || (startS[k]! === startS[i]! && k >= i)) continue;
        waits = this.isFree(state, list[k]!) && doneS + this.backS(state, list[k]!, at) <= startS[i]!;
      }
      if (!waits) list[kept++] = list[i]!;
    }
    return kept;
  }

  /** Its place has room, and no part in hand is meant for it. */
  private isFree(state: PlayState, event: number): boolean {
    const { plan, carries, carryOf } = this.space;
    if (plan.hands === 1 || plan.events[event]!.action === 'place') return true;
    const { to } = carries[carryOf[event]!]!;
    if (plan.nodes[to]!.kind === 'sink') return true;
    for (let hand = 0; hand < state.inHand; hand++)
      if (carries[state.handCarry[hand]!]!.to === to) return false;
    return hasRoom(this.space, state, to, -1);
  }

  /** From the end of a carry to a station. */
  private backS({ inHand }: PlayState, event: number, station: number): number {
    const { plan, carries, carryOf } = this.space;
    const end = plan.events[carries[carryOf[event]!]!.events.at(-1)!]!.station;
    if (end === station) return plan.hands === 1 ? 0 : plan.indexS;
    const holds = plan.events[event]!.action === 'place' ? inHand - 1 : inHand;
    return (holds > 0 ? plan.loadedS : plan.emptyS)[end * plan.stations.length + station]!;
  }
}

/** With fewer parts in hand, and without an event in between, no way takes longer. */
function handsDoNotMatter({ plan }: PlaySpace): boolean {
  const { emptyS, loadedS, indexS, stations } = plan;
  const leastLoadedS = shortestWays(loadedS, stations.length);
  return loadedS.every((timeS, i) => {
    const [a, b] = [Math.floor(i / stations.length), i % stations.length];
    if (a === b) return true;
    const awayS = emptyS[i]! + emptyS[b * stations.length + a]!;
    return emptyS[i]! <= timeS + 1e-9 && timeS <= leastLoadedS[i]! + 1e-9 && indexS <= awayS + 1e-9;
  });
}

function takesNothing({ plan, carries, outOf, into, nodesOf, capacity }: PlaySpace, carry: number): boolean {
  const { from, to } = carries[carry]!;
  const isSingle = (node: number): boolean => {
    const { room, batch } = plan.nodes[node]!;
    return batch === 1 && capacity[room] === 1 && nodesOf[room]!.length === 1;
  };
  const leaves = plan.nodes[from]!.kind === 'source' || (isSingle(from) && outOf[from]!.length === 1);
  const comes = plan.nodes[to]!.kind === 'sink' || (isSingle(to) && into[to]!.length === 1);
  return leaves && comes;
}

function carryTimeS({ plan, carries }: PlaySpace, carry: number): number {
  const events = carries[carry]!.events.map((e) => plan.events[e]!);
  return events.reduce((sum, { robotS, station }, i) => {
    const before = i === 0 ? station : events[i - 1]!.station;
    return sum + robotS + plan.loadedS[before * plan.stations.length + station]!;
  }, 0);
}
