/**
 * A robot that looks ahead: at each free moment it tries the few acts that are of use soonest, some acts deep, plays
 * each branch on by the soonest act up to a horizon, and does the first act of the branch in which the cell has gained
 * most by then. Without chance; all work is counted, so the same cell gives the same run everywhere.
 */
import { listActs, playAct, useS } from './acts.js';
import { CORNER } from './play-run.js';
import type { PlaySpace } from './play-space.js';
import { copyState, emptyState, gainedAt, type PlayState } from './play-state.js';

export interface LookAhead {
  /** Acts tried at each moment. */
  readonly breadth: number;
  /** Acts deep. */
  readonly depth: number;
  /** How far ahead, seconds. */
  readonly horizonS: number;
}

/** Chooses by looking ahead. */
export class LookingAhead {
  private readonly stack: PlayState[];
  private readonly lists: Int32Array[];
  private readonly keys: Float64Array[];
  private readonly rollout: PlayState;
  private readonly rolloutActs: Int32Array;
  private untilS = 0;
  private bestGain = 0;
  /** Acts played so far, in all branches. */
  acts = 0;

  constructor(
    private readonly space: PlaySpace,
    private readonly look: LookAhead,
  ) {
    const most = space.carries.length + 2;
    this.stack = Array.from({ length: look.depth + 1 }, () => emptyState(space));
    this.lists = Array.from({ length: look.depth + 1 }, () => new Int32Array(most));
    this.keys = Array.from({ length: look.depth + 1 }, () => new Float64Array(most));
    this.rollout = emptyState(space);
    this.rolloutActs = new Int32Array(most);
  }

  /** The act to do; CORNER = none is possible. */
  choose(state: PlayState, barred: ReadonlySet<number>): number {
    const list = this.lists[0]!;
    const count = this.soonest(state, 0, barred);
    if (count <= 1) return count === 0 ? CORNER : list[0]!;
    this.untilS = state.timeS + this.look.horizonS;
    let best = -1;
    let bestGain = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < Math.min(count, this.look.breadth); i++) {
      this.bestGain = Number.NEGATIVE_INFINITY;
      const next = this.stack[0]!;
      copyState(state, next);
      playAct(this.space, next, list[i]!);
      this.descend(next, 1);
      if (this.bestGain > bestGain * (1 + 1e-12) + 1e-12) {
        bestGain = this.bestGain;
        best = list[i]!;
      }
    }
    return best;
  }

  private descend(state: PlayState, depth: number): void {
    const ends = depth >= this.look.depth || state.timeS >= this.untilS;
    const count = ends ? 0 : this.soonest(state, depth);
    if (count === 0) this.playOn(state);
    const list = this.lists[depth]!;
    for (let i = 0; i < Math.min(count, this.look.breadth); i++) {
      const next = this.stack[depth]!;
      copyState(state, next);
      playAct(this.space, next, list[i]!);
      this.descend(next, depth + 1);
    }
  }

  private playOn(from: PlayState): void {
    const { space, rollout, rolloutActs } = this;
    copyState(from, rollout);
    while (rollout.timeS < this.untilS) {
      const count = listActs(space, rollout, rolloutActs);
      if (count === 0) break;
      playAct(space, rollout, soonestOf(space, rollout, rolloutActs, count));
      this.acts++;
    }
    const gained = gainedAt(space, rollout, this.untilS);
    if (gained > this.bestGain) this.bestGain = gained;
  }

  /** The possible acts by rising time of use. */
  private soonest(state: PlayState, depth: number, barred?: ReadonlySet<number>): number {
    const list = this.lists[depth]!;
    const keys = this.keys[depth]!;
    const count = listActs(this.space, state, list, barred);
    for (let i = 0; i < count; i++) {
      const act = list[i]!;
      const key = useS(this.space, state, act);
      let at = i;
      while (at > 0 && keys[at - 1]! > key + 1e-9) {
        keys[at] = keys[at - 1]!;
        list[at] = list[at - 1]!;
        at--;
      }
      keys[at] = key;
      list[at] = act;
    }
    return count;
  }
}

function soonestOf(space: PlaySpace, state: PlayState, acts: Int32Array, count: number): number {
  let best = acts[0]!;
  let bestS = Number.POSITIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const key = useS(space, state, acts[i]!);
    if (key >= bestS - 1e-9) continue;
    bestS = key;
    best = acts[i]!;
  }
  return best;
}
