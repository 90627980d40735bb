/**
 * The robot's time: what it does from when to when, with the states of the slots that change on the way. A round of
 * moves is planned ahead as phases; they are counted when the round ends, or up to any moment between.
 */
import type { OpenTime } from './open-time.js';
import type { ShopFloor } from './shop-floor.js';
import {
  EMPTY,
  HANDLED,
  HANDLING,
  ROBOT_STATES,
  TRAVEL_EMPTY,
  TRAVEL_LOADED,
  WAITING,
} from './slot-state.js';

const MOST_PHASES = 128;

export class RobotClock {
  /** Open seconds by robot state since the last clear. */
  readonly time = new Float64Array(ROBOT_STATES);
  private since = 0;
  private readonly endS = new Float64Array(MOST_PHASES);
  private readonly activity = new Uint8Array(MOST_PHASES);
  private readonly slot = new Int32Array(MOST_PHASES);
  private readonly slotState = new Uint8Array(MOST_PHASES);
  private readonly stamps = new Float64Array(5);
  private isPlain = false;
  private fromSlot = -1;
  private destSlot = -1;
  private count = 0;
  private done = 0;

  private readonly hours: OpenTime;

  constructor(private readonly floor: ShopFloor) {
    this.hours = floor.hours;
  }

  /**
   * Plans a plain round: waits until t0, travels to t1, picks until t2, carries until t3, places until t4. Slots are
   * those of the pick and the place; -1 = none.
   */
  plain(
    t0: number,
    t1: number,
    t2: number,
    t3: number,
    t4: number,
    fromSlot: number,
    destSlot: number,
  ): void {
    const { stamps } = this;
    this.waitedTo(t0);
    stamps[0] = t0;
    stamps[1] = t1;
    stamps[2] = t2;
    stamps[3] = t3;
    stamps[4] = t4;
    this.fromSlot = fromSlot;
    this.destSlot = destSlot;
    this.isPlain = true;
  }

  /** Counts the round that has just ended. */
  countRound(): void {
    if (!this.isPlain) {
      this.countUpTo(Number.POSITIVE_INFINITY);
      return;
    }
    const { stamps, time, floor, hours, fromSlot, destSlot } = this;
    const o1 = hours.openAt(stamps[1]!);
    const o2 = hours.openAt(stamps[2]!);
    const o3 = hours.openAt(stamps[3]!);
    const o4 = hours.openAt(stamps[4]!);
    time[TRAVEL_EMPTY]! += o1 - this.since;
    time[HANDLING]! += o2 - o1 + (o4 - o3);
    time[TRAVEL_LOADED]! += o3 - o2;
    if (fromSlot >= 0) {
      floor.enterAt(fromSlot, HANDLED, o1);
      floor.enterAt(fromSlot, EMPTY, o2);
    }
    if (destSlot >= 0) floor.enterAt(destSlot, HANDLED, o3);
    this.since = o4;
    this.isPlain = false;
  }

  /** Turns a plain round into phases, so that a part of it can be counted. */
  private spread(): void {
    const { stamps } = this;
    this.isPlain = false;
    this.add(stamps[1]!, TRAVEL_EMPTY, this.fromSlot, HANDLED);
    this.add(stamps[2]!, HANDLING, this.fromSlot, EMPTY);
    this.add(stamps[3]!, TRAVEL_LOADED, this.destSlot, HANDLED);
    this.add(stamps[4]!, HANDLING, -1, EMPTY);
  }

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
    this.waitedTo(timeS);
  }

  private waitedTo(timeS: number): void {
    const openS = this.hours.openAt(timeS);
    this.time[WAITING]! += openS - this.since;
    this.since = openS;
  }

  /** Counts all phases that end by a time. */
  private countUpTo(timeS: number): void {
    let i = this.done;
    for (; i < this.count && this.endS[i]! <= timeS; i++) {
      const openS = this.hours.openAt(this.endS[i]!);
      this.time[this.activity[i]!]! += openS - this.since;
      this.since = openS;
      if (this.slot[i]! >= 0) this.floor.enterAt(this.slot[i]!, this.slotState[i]!, openS);
    }
    this.done = i;
    if (i === this.count) this.count = this.done = 0;
  }

  /** Counts up to a time, the phase under way included. */
  settle(timeS: number): void {
    if (this.isPlain) this.spread();
    this.countUpTo(timeS);
    const openS = this.hours.openAt(timeS);
    this.time[this.done < this.count ? this.activity[this.done]! : WAITING]! += openS - this.since;
    this.since = openS;
  }
}
