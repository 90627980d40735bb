/**
 * Moves that need not be looked at: with one hand, to wait for a part while another one could be carried meanwhile, the
 * robot being back in time. Whoever carries that other part first loses nothing: all that the other sequence does later
 * can still be done, at its times, leaving out that carry. This holds where the carry takes nothing that could be used
 * otherwise: its part can go nowhere else, and its place is filled by no other carry.
 */
import type { PlaySpace } from '../play/play-space.js';
import { beginS, type PlayState } from '../play/play-state.js';

export class EarlyCarries {
  /** By carry: robot time from the begin of its pick to the end of its place; infinite where it may take something. */
  private readonly carryS: Float64Array;
  private readonly startS: Float64Array;

  private constructor(private readonly space: PlaySpace) {
    this.carryS = Float64Array.from(space.carries, (_, c) =>
      takesNothing(space, c) ? carryTimeS(space, c) : Number.POSITIVE_INFINITY,
    );
    this.startS = new Float64Array(space.carries.length);
  }

  /** @returns null where it does not hold: two hands, detours that are quicker, times between parts at an infeed or outfeed */
  static of(space: PlaySpace): EarlyCarries | null {
    const { plan, leastWayS } = space;
    const isPaced = plan.nodes.some(
      ({ kind, processS }) => (kind === 'source' || kind === 'sink') && processS > 0,
    );
    const isQuickest = plan.emptyS.every((timeS, i) => timeS <= leastWayS[i]! + 1e-9);
    return plan.hands === 1 && !isPaced && isQuickest ? new EarlyCarries(space) : null;
  }

  /** Takes such moves out of the first so many of a list of picks; returns how many remain. */
  sift(state: PlayState, list: Int32Array, many: number): number {
    const { space, carryS, startS } = this;
    const { plan, carries, carryOf } = space;
    const stations = plan.stations.length;
    for (let i = 0; i < many; i++) startS[i] = beginS(space, state, list[i]!);
    let kept = 0;
    for (let i = 0; i < many; i++) {
      const at = plan.events[list[i]!]!.station;
      let waits = false;
      for (let k = 0; k < many && !waits; k++) {
        const c = carryOf[list[k]!]!;
        const doneS = startS[k]! + carryS[c]!;
        if (doneS > startS[i]!) continue;
        const end = plan.events[carries[c]!.events.at(-1)!]!.station;
        waits = doneS + plan.emptyS[end * stations + at]! <= startS[i]!;
      }
      if (!waits) list[kept++] = list[i]!;
    }
    return kept;
  }
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
