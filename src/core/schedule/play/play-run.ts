/** A cell played from empty by a robot that chooses its acts, and the repeating sequences that such a run holds. */
import { playAct } from './acts.js';
import type { PlaySpace } from './play-space.js';
import { copyState, emptyState, type PlayState, shapeOf } from './play-state.js';

/** No act is possible: the robot is in a corner. */
export const CORNER = -1;
/** Nothing more is to be played. */
export const END = -2;

/** The act to do next, of those that are not barred; or CORNER, or END. */
export type Chooser = (state: PlayState, barred: ReadonlySet<number>) => number;

/** A moment at which the robot was free to choose. */
export interface PlayMark {
  /** Events played before it. */
  readonly events: number;
  readonly timeS: number;
  readonly valueMade: number;
  /** The last moment before it that was of the same shape. */
  readonly alike: PlayMark | null;
  /** What is left of each process then, and of each feeder's pause. */
  readonly leftS: Float64Array;
}

export interface PlayedRun {
  /** Events of the space's plan. */
  readonly events: readonly number[];
  readonly marks: readonly PlayMark[];
}

/** Acts played again on the way out of corners at most, for each act that is asked for. */
const MOST_AGAIN = 10;

/**
 * In a corner the robot goes one act back, and bars from then on what leads to such a moment: whether it can go on hangs
 * on the shape of a moment alone.
 *
 * @returns what was played; fewer acts than asked where a state came again, or no way out of a corner was found
 */
export function playRun(space: PlaySpace, choose: Chooser, acts: number): PlayedRun {
  const state = emptyState(space);
  const before = emptyState(space);
  const events: number[] = [];
  const played: { readonly act: number; readonly shape: string; readonly mark: PlayMark }[] = [];
  const lastOf = new Map<string, PlayMark | null>();
  const cornered = new Set<string>();
  const barred = new Set<number>();
  let again = 0;
  for (let i = 0; i < acts && again <= MOST_AGAIN * acts; i++) {
    const act = choose(state, barred);
    if (act === END) break;
    if (act === CORNER) {
      const last = played.pop();
      if (last === undefined) break;
      cornered.add(last.shape);
      lastOf.set(last.shape, last.mark.alike);
      barred.clear();
      barred.add(last.act);
      copyState(emptyState(space), state);
      for (const { act: done } of played) playAct(space, state, done);
      again += played.length;
    } else {
      if (cornered.size > 0) copyState(state, before);
      events.length = played.at(-1)?.mark.events ?? 0;
      playAct(space, state, act, (event) => events.push(event));
      const shape = shapeOf(space, state);
      if (cornered.has(shape)) {
        copyState(before, state);
        barred.add(act);
        continue;
      }
      barred.clear();
      const { timeS, valueMade } = state;
      const alike = lastOf.get(shape) ?? null;
      const mark = { events: events.length, timeS, valueMade, alike, leftS: leftOf(space, state) };
      played.push({ act, shape, mark });
      lastOf.set(shape, mark);
      if (cameBefore(mark)) break;
    }
  }
  return { events, marks: played.map(({ mark }) => mark) };
}

function cameBefore({ alike, leftS }: PlayMark): boolean {
  for (let before = alike; before !== null; before = before.alike)
    if (isSame(before.leftS, leftS)) return true;
  return false;
}

/** Seconds below which what is left of a process counts as the same. */
const SAME_S = 5e-5;

function isSame(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (Math.abs(a[i]! - b[i]!) > SAME_S) return false;
  return true;
}

function leftOf({ depth, plan }: PlaySpace, state: PlayState): Float64Array {
  const processes = state.finishS.length;
  const left = new Float64Array(processes + state.rackS.length);
  for (let node = 0; node < plan.nodes.length; node++)
    for (let k = 0; k < state.inside[node]! - state.pending[node]!; k++)
      left[node * depth + k] = Math.max(0, state.finishS[node * depth + k]! - state.timeS);
  for (let s = 0; s < state.rackS.length; s++)
    left[processes + s] = Math.max(0, state.rackS[s]! - state.timeS);
  return left;
}

/** A stretch of a run between two moments of one shape: a legal repeating sequence. */
export interface Stretch {
  readonly events: readonly number[];
  /** No order of the stretch that is repeated takes longer. */
  readonly mostS: number;
  readonly value: number;
}

/**
 * The stretches that yield most when repeated, the best first, each length in events once. Where every process has at
 * the end at most d seconds more left than at the beginning, the stretch repeats within its time and d.
 *
 * @param mostEvents no longer ones
 * @param keep how many
 */
export function bestStretches(run: PlayedRun, mostEvents: number, keep: number): Stretch[] {
  const byLength = new Map<number, { from: PlayMark; to: PlayMark; mostS: number; perS: number }>();
  for (const to of run.marks) {
    for (let from = to.alike; from !== null; from = from.alike) {
      const length = to.events - from.events;
      if (length > mostEvents || to.timeS <= from.timeS || to.valueMade <= from.valueMade) continue;
      const known = byLength.get(length);
      const value = to.valueMade - from.valueMade;
      if (known !== undefined && value <= known.perS * (to.timeS - from.timeS)) continue;
      const mostS = to.timeS - from.timeS + lateS(from.leftS, to.leftS);
      const perS = value / mostS;
      if (known === undefined || perS > known.perS) byLength.set(length, { from, to, mostS, perS });
    }
  }
  return [...byLength.values()]
    .sort((a, b) => b.perS - a.perS || a.to.events - a.from.events - (b.to.events - b.from.events))
    .slice(0, keep)
    .map(({ from, to, mostS }) => ({
      events: run.events.slice(from.events, to.events),
      mostS,
      value: to.valueMade - from.valueMade,
    }));
}

function lateS(from: Float64Array, to: Float64Array): number {
  let most = 0;
  for (let i = 0; i < to.length; i++) most = Math.max(most, to[i]! - from[i]!);
  return most;
}
