/**
 * Passes over repetitions in a run without chance: once the floor is as it was a while ago, it stays so until something
 * changes, and whole repetitions can be counted without being played. It looks each time the first slot is loaded.
 */
import type { FloorRobot } from './robot.js';
import type { ShopFloor } from './shop-floor.js';

/** Longest repetition looked for, in loads of the first slot. */
const MOST_BACK = 12;
const SAME_S = 1e-7;

/** A count that changes something when it reaches its limit (`up`) or 0 (`down`), and how often that came. */
export interface CountLimit {
  readonly count: Float64Array;
  readonly last: 'up' | 'down';
  readonly limit: Float64Array;
  readonly turns: Float64Array;
}

/** What this needs of a run. */
export interface LeapingRun {
  readonly floor: ShopFloor;
  readonly robot: FloorRobot;
  /** All that is counted. */
  readonly counts: readonly Float64Array[];
  readonly limits: readonly CountLimit[];
  readonly scalars: () => readonly number[];
  addScalars(by: readonly number[]): void;
  /** Up to when nothing comes that does not come in every repetition. */
  readonly latestS: () => number;
  shift(byS: number): void;
}

interface Moment {
  readonly atS: number;
  readonly state: Float64Array;
  readonly counts: readonly Float64Array[];
  readonly scalars: readonly number[];
  readonly segmentEndS: number;
}

export class Leap {
  private readonly moments: Moment[] = [];

  constructor(private readonly run: LeapingRun) {}

  /** @param untilS no further than this */
  look(untilS: number): void {
    const now = this.moment();
    if (this.moments.length > 0 && this.moments[0]!.segmentEndS !== now.segmentEndS) this.moments.length = 0;
    for (let back = 1; back <= this.moments.length; back++) {
      const before = this.moments[this.moments.length - back]!;
      if (!isAlike(before.state, now.state)) continue;
      const times = this.timesToSkip(before, now, untilS);
      if (times >= 1) {
        this.skip(before, now, times);
        this.moments.length = 0;
        return;
      }
      break;
    }
    this.moments.push(now);
    if (this.moments.length > MOST_BACK) this.moments.shift();
  }

  private moment(): Moment {
    const { floor, counts, scalars } = this.run;
    return {
      atS: floor.now,
      state: floorState(this.run),
      counts: counts.map((c) => c.slice()),
      scalars: scalars(),
      segmentEndS: floor.segmentEndS,
    };
  }

  /** As many repetitions as surely fit in before anything changes, less one. */
  private timesToSkip(before: Moment, now: Moment, untilS: number): number {
    const { floor, latestS } = this.run;
    const lengthS = now.atS - before.atS;
    if (!(lengthS > 0) || !floor.open) return 0;
    let times = Math.floor((Math.min(untilS, latestS()) - now.atS) / lengthS) - 1;
    for (const { count, last, limit, turns } of this.run.limits) {
      const at = this.run.counts.indexOf(count);
      const turned = this.run.counts.indexOf(turns);
      for (let i = 0; i < count.length; i++) {
        const change = now.counts[at]![i]! - before.counts[at]![i]!;
        const hasTurned = now.counts[turned]![i]! !== before.counts[turned]![i]!;
        // What is without limit has no change either.
        if (change === 0 || Number.isNaN(change)) continue;
        if (hasTurned) return 0;
        const left = last === 'up' ? limit[i]! - count[i]! : count[i]!;
        times = Math.min(times, Math.floor(left / Math.abs(change)) - 1);
      }
    }
    return times;
  }

  private skip(before: Moment, now: Moment, times: number): void {
    const { run } = this;
    run.counts.forEach((count, at) => {
      for (let i = 0; i < count.length; i++) {
        const change = now.counts[at]![i]! - before.counts[at]![i]!;
        if (change !== 0 && !Number.isNaN(change)) count[i]! += times * change;
      }
    });
    run.addScalars(now.scalars.map((v, i) => times * (v - before.scalars[i]!)));
    run.shift(times * (now.atS - before.atS));
  }
}

/** The state of a floor as numbers, times counted from now; two moments alike have the same future. */
export function floorState({ floor, robot }: Pick<LeapingRun, 'floor' | 'robot'>): Float64Array {
  const values: number[] = [];
  const push = (value: number): void => {
    values.push(value);
  };
  floor.signature(push);
  robot.signature(push, floor.now);
  return Float64Array.from(values);
}

export function isAlike(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i] && !(Math.abs(a[i]! - b[i]!) <= SAME_S)) return false;
  return true;
}
