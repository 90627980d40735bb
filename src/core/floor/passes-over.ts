/**
 * Which carries a robot that passes over leaves out at the moment: those whose station is stopped, in changeover, out of
 * parts or full. A machine that is at work is waited for; so is one into which the part in hand has to go.
 */
import { type CompiledCell, INFEED, OUTFEED } from './compiled-cell.js';
import { type OrderPlan, PICK } from './order-plan.js';
import type { ShopFloor } from './shop-floor.js';
import { FINISHED, HANDLED, PROCESSING } from './slot-state.js';

export class PassesOver {
  private readonly cell: CompiledCell;
  /** Picks under consideration, so that a ring of them ends. */
  private readonly asked: Uint8Array;
  /** The pick whose turn it is. */
  private turn = 0;

  constructor(
    private readonly floor: ShopFloor,
    private readonly plan: OrderPlan,
    /** By pick: its part is in hand. */
    private readonly holding: Uint8Array,
  ) {
    this.cell = floor.cell;
    this.asked = new Uint8Array(plan.count);
  }

  /** @param pick a pick of the order, before it is begun */
  leavesOut(pick: number): boolean {
    this.turn = pick;
    return !this.isWanted(pick) && !this.isServed(pick);
  }

  /** A part in hand goes into the station and finds no other place: then this one has to come out. */
  private isWanted(pick: number): boolean {
    const { plan, floor } = this;
    const s = plan.station[pick]!;
    return plan.takesIn[pick] === 0 && floor.coming[s]! > 0 && floor.freeSlots[s]! < floor.coming[s]!;
  }

  private isServed(pick: number): boolean {
    if (this.asked[pick] === 1) return true;
    this.asked[pick] = 1;
    const served = this.sourceServes(pick) && this.goalServes(pick);
    this.asked[pick] = 0;
    return served;
  }

  private sourceServes(pick: number): boolean {
    const { plan, floor, cell } = this;
    const op = plan.op[pick]!;
    if (cell.opKind[op] === INFEED) return !floor.rackIsOut(plan.choice[pick]!);
    const s = plan.station[pick]!;
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++) {
      if (floor.slotOp[slot] !== op) continue;
      const state = floor.slotState[slot]!;
      if (state === FINISHED || state === PROCESSING || state === HANDLED) return true;
    }
    return false;
  }

  private goalServes(pick: number): boolean {
    const { plan, floor, cell } = this;
    const place = plan.placeIndex[pick]!;
    const op = plan.op[place]!;
    const s = plan.station[place]!;
    if (cell.opKind[op] === OUTFEED) return !floor.rackIsOut(plan.choice[place]!);
    if (floor.stopped[s] === 1) return false;
    const pending = floor.pendingOp[s]!;
    if (pending >= 0 && pending !== op) return false;
    const carryS = 2 * cell.travelLoadedS[plan.station[pick]! * cell.stationCount + s]! + cell.opLoadS[op]!;
    if (floor.heldBack(s, op, cell.opUnloadS[plan.op[pick]!]! + carryS)) return false;
    if (floor.freeSlots[s]! - floor.coming[s]! > 0) return true;
    return plan.station[pick] === s || this.isEmptiedBefore(place, s);
  }

  /** A pick between the one whose turn it is and the place makes room there. */
  private isEmptiedBefore(place: number, s: number): boolean {
    const { plan, turn } = this;
    for (let i = turn; i !== place; i = (i + 1) % plan.count)
      if (plan.action[i] === PICK && plan.station[i] === s && this.holding[i] === 0 && this.isServed(i))
        return true;
    return false;
  }
}
