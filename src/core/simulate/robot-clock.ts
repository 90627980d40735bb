/**
 * The robot's time: what it does from when to when, with the states of the slots that change on the way. A round of
 * moves is planned ahead as phases; they are counted when the round ends, or up to any moment between.
 */
import type { ShopFloor } from './shop-floor.js';
import { ROBOT_STATES, WAITING } from './slot-state.js';

const MOST_PHASES = 128;

export class RobotClock {
  /** Seconds by robot state since the last clear. */
  readonly time = new Float64Array(ROBOT_STATES);
  private since = 0;
  private readonly endS = new Float64Array(MOST_PHASES);
  private readonly activity = new Uint8Array(MOST_PHASES);
  private readonly slot = new Int32Array(MOST_PHASES);
  private readonly slotState = new Uint8Array(MOST_PHASES);
  private count = 0;
  private done = 0;

  constructor(private readonly floor: ShopFloor) {}

  /** Plans a phase after those before it; at its end slot (-1 = none) takes the state. */
  add(endS: number, activity: number, slot: number, slotState: number): void {
    const i = this.count++;
    this.endS[i] = endS;
    this.activity[i] = activity;
    this.slot[i] = slot;
    this.slotState[i] = slotState;
  }

  /** Starts to count phases from a time; what lay between was waiting. */
  begin(timeS: number): void {
    this.time[WAITING]! += timeS - this.since;
    this.since = timeS;
  }

  /** Counts all phases that end by a time. */
  countUpTo(timeS: number): void {
    let i = this.done;
    for (; i < this.count && this.endS[i]! <= timeS; i++) {
      this.time[this.activity[i]!]! += this.endS[i]! - this.since;
      this.since = this.endS[i]!;
      if (this.slot[i]! >= 0) this.floor.enter(this.slot[i]!, this.slotState[i]!, this.since);
    }
    this.done = i;
    if (i === this.count) this.count = this.done = 0;
  }

  /** Counts up to a time, the phase under way included. */
  settle(timeS: number): void {
    this.countUpTo(timeS);
    this.time[this.done < this.count ? this.activity[this.done]! : WAITING]! += timeS - this.since;
    this.since = timeS;
  }
}
