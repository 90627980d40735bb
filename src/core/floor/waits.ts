/**
 * Why stations wait, by cause, in open seconds: looked at whenever a slot changes its state and whenever the robot has
 * decided what to do. Between two such moments the first cause found holds.
 */
import { EMPTY, FINISHED } from './slot-state.js';

/** The part inside cannot move on: the next station is full or down. */
export const NEXT_FULL = 0;
/** Nothing to work on: the infeed is out of parts, or the station before has none ready. */
export const NO_PART = 1;
/** The robot is busy elsewhere. */
export const ROBOT_BUSY = 2;
/** The robot could come, but its program has it wait for something else first. */
export const COMES_LATER = 3;
export const WAIT_CAUSES = 4;
const NONE = 4;

/** What this needs to know of the floor. */
export interface WaitingFloor {
  readonly cell: { readonly slotCount: number };
  readonly slotState: Uint8Array;
  /** The robot is under way or at work. */
  robotBusy: boolean;
  canMoveOn(slot: number): boolean;
  hasPartFor(slot: number): boolean;
}

export class Waits {
  /** By [slot * WAIT_CAUSES + cause]. */
  readonly timeS: Float64Array;
  private readonly cause: Uint8Array;
  private readonly since: Float64Array;

  constructor(private readonly floor: WaitingFloor) {
    const { slotCount } = floor.cell;
    this.timeS = new Float64Array(slotCount * WAIT_CAUSES);
    this.cause = new Uint8Array(slotCount).fill(NONE);
    this.since = new Float64Array(slotCount);
  }

  /** Looks at all slots anew. */
  lookAtAll(openS: number): void {
    for (let slot = 0; slot < this.cause.length; slot++) this.look(slot, openS);
  }

  look(slot: number, openS: number): void {
    const before = this.cause[slot]!;
    if (before !== NONE) this.timeS[slot * WAIT_CAUSES + before]! += openS - this.since[slot]!;
    this.since[slot] = openS;
    this.cause[slot] = this.causeNow(slot);
  }

  private causeNow(slot: number): number {
    const { floor } = this;
    const state = floor.slotState[slot]!;
    if (state === FINISHED) {
      if (!floor.canMoveOn(slot)) return NEXT_FULL;
    } else if (state === EMPTY) {
      if (!floor.hasPartFor(slot)) return NO_PART;
    } else return NONE;
    return floor.robotBusy ? ROBOT_BUSY : COMES_LATER;
  }
}
