/**
 * The rounds that can answer a call, or move the part in hand on. A part is picked only when there is a place for it; a
 * one-handed robot among stations that can block each other in a ring also asks whether all parts could still leave
 * (see safe-move). With two hands it may first take the finished part out of the place that it is about to fill.
 */
import type { CompiledCell } from '../compiled-cell.js';
import type { RoutePath } from '../route-path.js';
import { type SafeMove, safeMoveOf } from '../safe-move.js';
import type { ShopFloor } from '../shop-floor.js';
import { FINISHED } from '../slot-state.js';
import type { Places } from './places.js';
import type { RawParts } from './raw-parts.js';
import { type CallRound, NONE, type PartToPick, type PlaceToFill, type Round } from './round.js';

export class CallRounds {
  private readonly cell: CompiledCell;
  private readonly safe: SafeMove | null;
  /** Finished parts told before, by operation and slot. */
  private readonly inSlots: (PartToPick | null)[];

  constructor(
    private readonly floor: ShopFloor,
    private readonly path: RoutePath,
    private readonly places: Places,
    private readonly raw: RawParts,
  ) {
    this.cell = floor.cell;
    this.safe = safeMoveOf(floor);
    this.inSlots = Array.from({ length: this.cell.opCount * this.cell.slotCount }, () => null);
  }

  /** What answers a slot's call; null = nothing can now. */
  answerTo(slot: number, handsFree: boolean): CallRound | null {
    if (this.floor.slotState[slot] !== FINISHED) return this.fill(slot);
    return this.cell.hands === 2 && handsFree ? this.exchange(slot) : this.unload(slot);
  }

  /** Place the part in hand, or exchange it for a finished one that can go on. @param op operation that it goes to */
  withPart(op: number, at: number): Round | null {
    const { places } = this;
    const place = places.room(op, at) ?? places.exchange(op, (slot) => places.canGoOn(slot, NONE));
    return place === null ? null : { pick: null, place };
  }

  /** The last resort with a part in hand: exchange it for one that has nowhere to go yet, so that both move on. */
  withPartRegardless(op: number): Round | null {
    const place = this.places.exchange(op, () => true);
    return place === null ? null : { pick: null, place };
  }

  /** Bring a raw part to an empty slot. */
  private fill(slot: number): CallRound | null {
    const station = this.cell.slotStation[slot]!;
    if (this.floor.stopped[station] === 1) return null;
    const pick = this.rawFor(station);
    return pick === null ? null : this.ifSafe(pick, this.places.at(this.path.next(pick.op), slot, false));
  }

  private rawFor(station: number): PartToPick | null {
    const pick = this.raw.forStation(station);
    return pick !== null && this.places.takes(this.path.next(pick.op), station) ? pick : null;
  }

  /** Carry a finished part to a free place. */
  private unload(slot: number): CallRound | null {
    const pick = this.finished(slot);
    const op = this.path.next(pick.op);
    const place = this.places.room(op, pick.station) ?? this.places.own(op, slot);
    return place === null ? null : this.ifSafe(pick, place);
  }

  private finished(slot: number): PartToPick {
    const op = this.floor.slotOp[slot]!;
    const { slotCount, slotStation } = this.cell;
    const part = op * slotCount + slot;
    this.inSlots[part] ??= { station: slotStation[slot]!, op, slot, choice: NONE };
    return this.inSlots[part];
  }

  private ifSafe(pick: PartToPick, place: PlaceToFill): CallRound | null {
    const isSafe = this.safe === null || this.safe.allows(pick.slot, place.op, place.station);
    return isSafe ? { pick, place } : null;
  }

  /**
   * Two hands, both empty, a finished part waits: fetch what comes next to this place, so that the visit leaves it
   * running; from as far up the route as finished parts reach, so that one round moves the whole chain on.
   */
  private exchange(slot: number): CallRound | null {
    const { floor, cell, places } = this;
    const leaving = cell.slotStation[slot]!;
    if (!places.canGoOn(slot, leaving)) return null;
    const chain = places.chainTo(slot);
    const start = chain.at(-1)!;
    const raw = this.rawFor(cell.slotStation[start]!);
    if (raw !== null) return { pick: raw, place: places.at(this.path.next(raw.op), start, true) };
    const after = chain.at(-2);
    if (after !== undefined) {
      const pick = this.finished(start);
      const op = this.path.next(pick.op);
      if (!floor.heldBack(cell.slotStation[after]!, op, 0))
        return { pick, place: places.at(op, after, true) };
    }
    const plain = this.unload(slot);
    if (plain !== null) return plain;
    const pick = this.finished(slot);
    const suits = (other: number, s: number): boolean =>
      other !== slot && places.takes(op, s) && places.canGoOn(other, leaving);
    const op = this.path.next(pick.op);
    const place = places.exchange(op, suits);
    return place === null ? null : { pick, place };
  }
}
