/** Where a part can go now: to a free place, or to one whose finished part is taken in exchange and can itself go on. */
import { type CompiledCell, OUTFEED, WORK } from '../compiled-cell.js';
import type { RoutePath } from '../route-path.js';
import type { ShopFloor } from '../shop-floor.js';
import { FINISHED } from '../slot-state.js';
import { NONE, type PlaceToFill } from './round.js';

export class Places {
  private readonly cell: CompiledCell;
  /** Slots looked at, so that a ring of finished parts ends. */
  private readonly seen: Uint8Array;
  /** Places told before: by operation, slot and whether its part is taken in exchange; and by choice of an outfeed. */
  private readonly inSlots: (PlaceToFill | null)[];
  private readonly atOutfeeds: (PlaceToFill | null)[];

  constructor(
    private readonly floor: ShopFloor,
    private readonly path: RoutePath,
    private readonly robot: { readonly at: number },
    /** Of several stations the nearest, else the first listed. */
    private readonly nearest: boolean,
  ) {
    this.cell = floor.cell;
    this.seen = new Uint8Array(floor.cell.slotCount);
    this.inSlots = Array.from({ length: 2 * floor.cell.opCount * floor.cell.slotCount }, () => null);
    this.atOutfeeds = Array.from(floor.cell.opStations, () => null);
  }

  /** A free place for an operation. @param from where its part is picked */
  room(op: number, from: number): PlaceToFill | null {
    const first = this.cell.firstChoice[op]!;
    if (this.cell.firstChoice[op + 1] !== first + 1) return this.roomAmong(op, from);
    return this.hasRoom(op, first) ? this.free(op, first) : null;
  }

  private roomAmong(op: number, from: number): PlaceToFill | null {
    const { firstChoice, opStations, travelLoadedS, stationCount } = this.cell;
    let found = NONE;
    let least = Number.POSITIVE_INFINITY;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      if (!this.hasRoom(op, c)) continue;
      const way = this.nearest ? travelLoadedS[from * stationCount + opStations[c]!]! : 0;
      if (way >= least) continue;
      least = way;
      found = c;
    }
    return found >= 0 ? this.free(op, found) : null;
  }

  private free(op: number, choice: number): PlaceToFill {
    const station = this.cell.opStations[choice]!;
    if (this.cell.opKind[op] !== WORK) {
      this.atOutfeeds[choice] ??= { station, op, slot: NONE, choice, swap: false };
      return this.atOutfeeds[choice];
    }
    return this.at(op, this.floor.freeSlot(station), false);
  }

  private hasRoom(op: number, choice: number): boolean {
    if (this.cell.opKind[op] === OUTFEED) return this.floor.racks.serves(choice);
    const s = this.cell.opStations[choice]!;
    return this.floor.freeSlots[s]! > 0 && this.fits(op, s) && this.takes(op, s);
  }

  /** The place that a part leaves, where its next step is at the same station. */
  own(op: number, slot: number): PlaceToFill | null {
    const station = this.cell.slotStation[slot]!;
    return this.goesTo(op, station) && this.fits(op, station) ? this.at(op, slot, false) : null;
  }

  /** A place of an operation in a slot. */
  at(op: number, slot: number, swap: boolean): PlaceToFill {
    const { slotCount, slotStation } = this.cell;
    const place = 2 * (op * slotCount + slot) + (swap ? 1 : 0);
    this.inSlots[place] ??= { station: slotStation[slot]!, op, slot, choice: NONE, swap };
    return this.inSlots[place];
  }

  /** No changeover keeps a station from taking a part, after about as long as the robot needs to bring it. */
  takes(op: number, s: number): boolean {
    const { cell } = this;
    const carryS = 2 * cell.travelLoadedS[this.robot.at * cell.stationCount + s]! + cell.opLoadS[op]!;
    return !this.floor.heldBack(s, op, carryS);
  }

  /** A fixture that waits for more parts takes only parts of the same step. */
  fits(op: number, station: number): boolean {
    const pending = this.floor.pendingOp[station]!;
    return pending < 0 || pending === op;
  }

  goesTo(op: number, station: number): boolean {
    const { firstChoice, opStations } = this.cell;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) if (opStations[c] === station) return true;
    return false;
  }

  /**
   * A place whose part has finished and is taken out in exchange.
   *
   * @param suits says of such a slot, and its station, whether it may be
   */
  exchange(op: number, suits: (slot: number, s: number) => boolean): PlaceToFill | null {
    const { firstChoice, opStations, firstSlot, opKind } = this.cell;
    if (opKind[op] !== WORK) return null;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      const s = opStations[c]!;
      if (!this.fits(op, s)) continue;
      for (let slot = firstSlot[s]!; slot < firstSlot[s + 1]!; slot++)
        if (this.floor.slotState[slot] === FINISHED && suits(slot, s)) return this.at(op, slot, true);
    }
    return null;
  }

  /**
   * True when a finished part finds room, or a finished part in its way that can go on itself.
   *
   * @param leaving station that has a place once the part in the hand has left; NONE = none has
   */
  canGoOn(slot: number, leaving: number): boolean {
    this.seen.fill(0);
    return this.goesOn(slot, leaving);
  }

  private goesOn(slot: number, leaving: number): boolean {
    const { firstChoice, opStations, firstSlot, opKind } = this.cell;
    this.seen[slot] = 1;
    const op = this.path.next(this.floor.slotOp[slot]!);
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      if (this.hasRoom(op, c)) return true;
      const s = opStations[c]!;
      if (opKind[op] !== WORK || !this.fits(op, s)) continue;
      if (s === leaving) return true;
      for (let other = firstSlot[s]!; other < firstSlot[s + 1]!; other++) {
        if (this.seen[other] === 1 || this.floor.slotState[other] !== FINISHED) continue;
        if (this.goesOn(other, leaving)) return true;
      }
    }
    return false;
  }

  /** The finished parts that one round can move on, one into the place of the next: from a slot up the route. */
  chainTo(slot: number): readonly number[] {
    const chain = [slot];
    for (let up = this.feederOf(slot, chain); up >= 0; up = this.feederOf(up, chain)) chain.push(up);
    return chain;
  }

  /** A finished part whose next station is that of a slot. */
  private feederOf(slot: number, not: readonly number[]): number {
    const { cell, floor } = this;
    const station = cell.slotStation[slot]!;
    for (let up = floor.calls.head; up >= 0; up = floor.calls.next[up]!) {
      if (floor.slotState[up] !== FINISHED || not.includes(up)) continue;
      const op = this.path.next(floor.slotOp[up]!);
      if (this.goesTo(op, station) && this.fits(op, station)) return up;
    }
    return NONE;
  }
}
