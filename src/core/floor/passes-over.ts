/**
 * Which acts a robot that passes over leaves out at the moment: carries whose station is stopped, in changeover, out of
 * parts or full. A machine that is at work is waited for; so is one into which the part in hand has to go.
 *
 * Taken out of turn, parts could lock the cell up. One hand therefore moves a part only where all parts could still leave
 * (see safe-move), or where what lies in the cell is what lies there as the order is followed (see order-contents). Two
 * hands are never filled both unless one of the parts can be put down at once: with one hand free a part in the way is
 * taken out, and the one in hand put in its place. Where nothing else can be done they begin such an exchange with empty
 * hands.
 */
import { type CompiledCell, INFEED, OUTFEED, WORK } from './compiled-cell.js';
import { PLACE } from './order-acts.js';
import { contentsText } from './order-contents.js';
import type { OrderPlan } from './order-plan.js';
import { type SafeMove, safeMoveOf } from './safe-move.js';
import type { ShopFloor } from './shop-floor.js';
import { FINISHED, HANDLED, PART_LOADED, PROCESSING } from './slot-state.js';

export class PassesOver {
  private readonly cell: CompiledCell;
  /** Picks under consideration, the one whose turn it is among them: they are taken to be served, so that a ring of them ends. */
  private readonly asked: Uint8Array;
  /** By station: its events, in turn. */
  private readonly eventsAt: readonly Int32Array[];
  /** The pick whose turn it is, and the events since the order began. */
  private turn = 0;
  private now = 0;
  private readonly safe: SafeMove | null;
  /** Of each slot's part, the turn of the pick that takes it out: events since the order began. */
  private readonly dueAt: Float64Array;

  constructor(
    private readonly floor: ShopFloor,
    private readonly plan: OrderPlan,
    /** By pick: its part is in hand. */
    private readonly holding: Uint8Array,
  ) {
    this.cell = floor.cell;
    this.safe = safeMoveOf(floor);
    this.dueAt = new Float64Array(floor.cell.slotCount);
    this.asked = new Uint8Array(plan.count);
    this.eventsAt = Array.from({ length: floor.cell.stationCount }, (_, s) =>
      Int32Array.from([...plan.station.keys()].filter((i) => plan.station[i] === s)),
    );
  }

  /**
   * @param pick a pick of the order, before it is begun
   * @param inHand parts in the gripper
   * @param period periods since the order began
   */
  leavesOut(pick: number, inHand: number, period: number): boolean {
    this.turn = pick;
    this.now = period * this.plan.count + pick;
    if (this.holding[pick] === 1 || !this.findsAHand(pick, inHand)) return true;
    return !this.isWanted(pick) && !(this.isServed(pick) && this.isSafe(pick));
  }

  /** The last resort of two empty hands: a finished part whose next station is full of finished ones is exchanged for one. */
  beginsExchange(pick: number, inHand: number): boolean {
    const { plan, floor, cell } = this;
    this.turn = pick;
    // Whichever part is due.
    this.now = Number.POSITIVE_INFINITY;
    const place = plan.placeIndex[pick]!;
    const s = plan.station[place]!;
    if (inHand > 0 || cell.hands === 1 || plan.takesIn[pick] === 1 || cell.opKind[plan.op[place]!] !== WORK)
      return false;
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++)
      if (floor.slotState[slot] !== FINISHED) return false;
    return this.sourceServes(pick);
  }

  /** A part in hand finds a place now. @param freed station that gives one up first; -1 = none does */
  hasRoom(place: number, freed = -1): boolean {
    const { plan, floor, cell } = this;
    const op = plan.op[place]!;
    const s = plan.station[place]!;
    if (cell.opKind[op] === OUTFEED) return true;
    const pending = floor.pendingOp[s]!;
    return (pending < 0 || pending === op) && (floor.freeSlots[s]! > 0 || s === freed);
  }

  /** A hand is free, and if it is the last one, a part in hand can be put down straight after. */
  private findsAHand(pick: number, inHand: number): boolean {
    const { plan, holding, cell } = this;
    if (inHand + 1 < cell.hands) return true;
    if (inHand === cell.hands) return false;
    const freed = plan.station[pick]!;
    if (this.hasRoom(plan.placeIndex[pick]!, freed)) return true;
    return inHand > 0 && holding.some((held, i) => held === 1 && this.hasRoom(plan.placeIndex[i]!, freed));
  }

  private isSafe(pick: number): boolean {
    if (this.safe === null) return true;
    const { plan, cell, floor } = this;
    const op = plan.op[pick]!;
    const place = plan.placeIndex[pick]!;
    const s = plan.station[pick]!;
    let slot = -1;
    if (cell.opKind[op] !== INFEED) for (slot = cell.firstSlot[s]!; floor.slotOp[slot] !== op; ) slot++;
    return (
      this.safe.allows(slot, plan.op[place]!, plan.station[place]!) ||
      plan.contents.before[pick]!.has(this.contents())
    );
  }

  private contents(): string {
    const { cell, floor, plan } = this;
    const { nodeOf, nodes } = plan.contents;
    const parts = new Int32Array(nodes);
    const loaded = new Int32Array(nodes);
    for (const [slot, op] of floor.slotOp.entries()) {
      if (op < 0) continue;
      const node = nodeOf[cell.slotStation[slot]! * cell.opCount + op]!;
      parts[node]!++;
      if (floor.slotState[slot] === PART_LOADED) loaded[node]!++;
    }
    return contentsText(parts, loaded);
  }

  /** A place of the order has brought a part. */
  placed(place: number, slot: number, period: number): void {
    this.dueAt[slot] = period * this.plan.count + place + this.plan.contents.dueIn[place]!;
  }

  /** Which parts are due, from now on. */
  signature(push: (value: number) => void, next: number, period: number): void {
    const now = period * this.plan.count + next;
    for (const [slot, op] of this.floor.slotOp.entries())
      push(op < 0 ? 0 : Math.max(0, this.dueAt[slot]! - now));
  }

  /** A part in hand goes into the station and finds no other place: then one that is there has to come out. */
  private isWanted(pick: number): boolean {
    const { plan, floor } = this;
    const s = plan.station[pick]!;
    return floor.freeSlots[s]! < floor.coming[s]! && this.isInside(pick);
  }

  /** The station holds a part of the pick that is or will be finished, were it stopped meanwhile. */
  private isInside(pick: number): boolean {
    const { plan, floor, cell } = this;
    const s = plan.station[pick]!;
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++)
      if (floor.slotOp[slot] === plan.op[pick] && floor.slotState[slot] !== PART_LOADED) return true;
    return false;
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
    const at = this.now + this.ahead(pick);
    let parts = this.moreThereBefore(pick, s, op);
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++) {
      if (floor.slotOp[slot] !== op || this.dueAt[slot]! > at) continue;
      const state = floor.slotState[slot]!;
      if (state === FINISHED || state === PROCESSING || state === HANDLED) parts++;
    }
    return parts > 0;
  }

  private goalServes(pick: number): boolean {
    const { plan, floor, cell } = this;
    const place = plan.placeIndex[pick]!;
    const op = plan.op[place]!;
    const s = plan.station[place]!;
    if (cell.opKind[op] === OUTFEED) return !floor.racks.isOut(plan.choice[place]!);
    if (floor.stopped[s] === 1 || ((plan.takesIn[pick] === 1 || !cell.hasRing) && this.isBehind(s, op)))
      return false;
    const pending = floor.pendingOp[s]!;
    if (pending >= 0 && pending !== op) return false;
    const carryS = 2 * cell.travelLoadedS[plan.station[pick]! * cell.stationCount + s]! + cell.opLoadS[op]!;
    if (floor.heldBack(s, op, cell.opUnloadS[plan.op[pick]!]! + carryS)) return false;
    return floor.freeSlots[s]! > this.moreThereBefore(place, s, -1);
  }

  /** Where parts may only wait for so long, no raw part is added to one whose turn is past: each that follows would wait too long. */
  private isBehind(s: number, op: number): boolean {
    const { floor, cell } = this;
    if (cell.opMaxWaitS[op] === Number.POSITIVE_INFINITY) return false;
    for (let slot = cell.firstSlot[s]!; slot < cell.firstSlot[s + 1]!; slot++)
      if (floor.slotOp[slot] === op && floor.slotState[slot] === FINISHED && this.dueAt[slot]! < this.now)
        return true;
    return false;
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
    // Nothing lies before it but the pick whose turn it is.
    if (ahead <= 1)
      return ahead === 1 && plan.station[turn] === s && (of < 0 || plan.op[turn] === of) ? -1 : 0;
    let more = 0;
    for (const i of this.eventsAt[s]!) {
      if (this.ahead(i) >= ahead || (of >= 0 && plan.op[i] !== of)) continue;
      if (plan.action[i] === PLACE) {
        const pick = plan.pickIndex[i]!;
        if (holding[pick] === 1 || (this.ahead(pick) < this.ahead(i) && this.isServed(pick))) more++;
      } else if (this.isServed(i)) more--;
    }
    return more;
  }

  /** Events from the one whose turn it is to another. */
  private ahead(event: number): number {
    const { turn, plan } = this;
    return event >= turn ? event - turn : event - turn + plan.count;
  }
}
