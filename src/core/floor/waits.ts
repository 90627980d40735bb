/**
 * Why stations wait, by cause, in open seconds: looked at whenever a slot changes its state and whenever the robot has
 * decided what to do. Between two such moments the first cause found holds.
 */
import { type CompiledCell, OUTFEED, WORK } from './compiled-cell.js';
import type { Racks } from './racks.js';
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
  readonly cell: CompiledCell;
  readonly racks: Pick<Racks, 'serves'>;
  readonly slotState: Uint8Array;
  readonly slotOp: Int32Array;
  /** By station. */
  readonly freeSlots: Int32Array;
  readonly stopped: Uint8Array;
  /** The robot is under way or at work. */
  robotBusy: boolean;
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
      if (!this.canMoveOn(slot)) return NEXT_FULL;
    } else if (state === EMPTY) {
      if (!this.hasPartFor(slot)) return NO_PART;
    } else return NONE;
    return floor.robotBusy ? ROBOT_BUSY : COMES_LATER;
  }

  /** Some station of the next step has a free place, or a finished part that two hands can exchange. */
  private canMoveOn(slot: number): boolean {
    const { cell, racks, stopped, freeSlots } = this.floor;
    const op = this.nextOp(slot);
    for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++) {
      const s = cell.opStations[c]!;
      if (cell.opKind[op] === OUTFEED) {
        if (racks.serves(c)) return true;
      } else if (stopped[s] === 0 && (freeSlots[s]! > 0 || this.canExchange(s))) return true;
    }
    return false;
  }

  /** Operation at which the part in a slot next leaves the robot's hand. */
  private nextOp(slot: number): number {
    const { cell, slotOp } = this.floor;
    let op = slotOp[slot]! + 1;
    while (cell.opKind[op] !== WORK && cell.opKind[op] !== OUTFEED) op++;
    return op;
  }

  private canExchange(s: number): boolean {
    const { cell, slotState } = this.floor;
    if (cell.hands === 1) return false;
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++)
      if (slotState[slot] === FINISHED) return true;
    return false;
  }

  /** An infeed that feeds the slot's station can serve, or a part for it is finished at a station before. */
  private hasPartFor(slot: number): boolean {
    const { cell, racks, slotState } = this.floor;
    const s = cell.slotStation[slot]!;
    for (let i = cell.firstRaw[s]!; i < cell.firstRaw[s + 1]!; i++) {
      const op = cell.routeFirstOp[cell.rawRoutes[i]!]!;
      for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++)
        if (racks.serves(c)) return true;
    }
    for (let up = 0; up < cell.slotCount; up++) {
      if (slotState[up] !== FINISHED) continue;
      const op = this.nextOp(up);
      for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++)
        if (cell.opKind[op] === WORK && cell.opStations[c] === s) return true;
    }
    return false;
  }
}
