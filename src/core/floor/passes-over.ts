/**
 * Which carries a robot that passes over leaves out at the moment: those whose station is stopped, in changeover, out of
 * parts or full. A machine that is at work is waited for; so is one into which the part in hand has to go.
 */
import { type CompiledCell, INFEED, OUTFEED } from './compiled-cell.js';
import { type OrderPlan, PICK, PLACE } from './order-plan.js';
import type { ShopFloor } from './shop-floor.js';
import { FINISHED, HANDLED, PART_LOADED, PROCESSING } from './slot-state.js';

export class PassesOver {
  private readonly cell: CompiledCell;
  /** Picks under consideration, so that a ring of them ends. */
  private readonly asked: Uint8Array;
  /** By station: its events, in turn. */
  private readonly eventsAt: readonly Int32Array[];
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
    this.eventsAt = Array.from({ length: floor.cell.stationCount }, (_, s) =>
      Int32Array.from([...plan.station.keys()].filter((i) => plan.station[i] === s)),
    );
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
    if (cell.opKind[op] === INFEED) return !floor.racks.isOut(plan.choice[pick]!);
    const s = plan.station[pick]!;
    let parts = 0;
    let loaded = 0;
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++) {
      if (floor.slotOp[slot] !== op) continue;
      const state = floor.slotState[slot]!;
      if (state === FINISHED || state === PROCESSING || state === HANDLED) parts++;
      else if (state === PART_LOADED) loaded++;
    }
    if (pick === this.turn) return parts > 0;
    const come = this.moreThereBefore(pick, s, op);
    return parts + come + (come > 0 ? loaded : 0) > 0;
  }

  private goalServes(pick: number): boolean {
    const { plan, floor, cell } = this;
    const place = plan.placeIndex[pick]!;
    const op = plan.op[place]!;
    const s = plan.station[place]!;
    if (cell.opKind[op] === OUTFEED) return !floor.racks.isOut(plan.choice[place]!);
    if (floor.stopped[s] === 1) return false;
    const pending = floor.pendingOp[s]!;
    if (pending >= 0 && pending !== op) return false;
    const carryS = 2 * cell.travelLoadedS[plan.station[pick]! * cell.stationCount + s]! + cell.opLoadS[op]!;
    if (floor.heldBack(s, op, cell.opUnloadS[plan.op[pick]!]! + carryS)) return false;
    return plan.station[pick] === s || floor.freeSlots[s]! > this.moreThereBefore(place, s, -1);
  }

  /**
   * How many parts more there will be at a station once the turn of an event there comes: those that are placed before it,
   * in hand now or to be fetched, less those that are picked.
   *
   * @param of operation of the parts that count; -1 = any
   */
  private moreThereBefore(event: number, s: number, of: number): number {
    const { plan, holding, turn } = this;
    const ahead = this.ahead(event);
    // Straight after the pick whose turn it is, nothing happens elsewhere.
    if (ahead <= 1) return 0;
    let more = 0;
    for (const i of this.eventsAt[s]!) {
      if (this.ahead(i) >= ahead || (of >= 0 && plan.op[i] !== of)) continue;
      if (plan.action[i] === PLACE) {
        const pick = plan.pickIndex[i]!;
        if (holding[pick] === 1 || (this.ahead(pick) < this.ahead(i) && this.isServed(pick))) more++;
      } else if (plan.action[i] === PICK && (i === turn || this.isServed(i))) more--;
    }
    return more;
  }

  /** Events from the one whose turn it is to another. */
  private ahead(event: number): number {
    const { turn, plan } = this;
    return event >= turn ? event - turn : event - turn + plan.count;
  }
}
