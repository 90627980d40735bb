/** Stretches in which racks and planned stops waited for an operator who was not there. */
import { type CompiledCell, INFEED } from './compiled-cell.js';

/** A stretch in which something waited for an operator who was not there: a rack or a planned stop. */
export interface FloorHold {
  readonly cause: 'rack empty' | 'rack full' | 'waits for operator';
  readonly station: string;
  /** Name of the planned stop; empty for racks. */
  readonly stop: string;
  readonly fromS: number;
  /** Infinity while nobody has come. */
  readonly untilS: number;
}

/** Waits of less are no holds. */
const LEAST_HOLD_S = 1;

export class Holds {
  /** Holds that are over; only without chance, where they are few. */
  readonly over: FloorHold[] = [];
  /** When each slot's planned stop, and each station's rack, began to wait. */
  private readonly slotHeldAt: Float64Array;
  private readonly rackHeldAt: Float64Array;
  /** By station: the stop by the clock that its rack waits for; -1 = the rack has run out. */
  private readonly rackStop: Int32Array;

  constructor(
    private readonly cell: CompiledCell,
    /** By slot: the planned stop that is under way. */
    private readonly slotStop: Int32Array,
  ) {
    this.slotHeldAt = new Float64Array(cell.slotCount).fill(Number.NaN);
    this.rackHeldAt = new Float64Array(cell.stationCount).fill(Number.NaN);
    this.rackStop = new Int32Array(cell.stationCount).fill(-1);
  }

  slotWaits(slot: number, nowS: number): void {
    this.slotHeldAt[slot] = nowS;
  }

  rackWaits(s: number, nowS: number, stop: number): void {
    this.rackHeldAt[s] = nowS;
    this.rackStop[s] = stop;
  }

  slotIsServed(slot: number, nowS: number): void {
    this.note(this.ofSlot(slot, nowS));
    this.slotHeldAt[slot] = Number.NaN;
  }

  rackIsServed(s: number, nowS: number): void {
    this.note(this.ofRack(s, nowS));
    this.rackHeldAt[s] = Number.NaN;
  }

  private note(hold: FloorHold): void {
    if (hold.untilS - hold.fromS > LEAST_HOLD_S) this.over.push(hold);
  }

  private ofRack(s: number, untilS: number): FloorHold {
    const { stops, stationKind, stationNames } = this.cell;
    const due = stops[this.rackStop[s]!];
    const ranOut = stationKind[s] === INFEED ? 'rack empty' : 'rack full';
    return {
      cause: due === undefined ? ranOut : 'waits for operator',
      station: stationNames[s]!,
      stop: due?.name ?? '',
      fromS: this.rackHeldAt[s]!,
      untilS,
    };
  }

  private ofSlot(slot: number, untilS: number): FloorHold {
    const { stops, slotStation, stationNames } = this.cell;
    return {
      cause: 'waits for operator',
      station: stationNames[slotStation[slot]!]!,
      stop: stops[this.slotStop[slot]!]!.name,
      fromS: this.slotHeldAt[slot]!,
      untilS,
    };
  }

  /** Holds that are not over. */
  notOver(): FloorHold[] {
    const never = Number.POSITIVE_INFINITY;
    const at = (held: Float64Array, of: (i: number, untilS: number) => FloorHold): FloorHold[] =>
      [...held.keys()].filter((i) => !Number.isNaN(held[i]!)).map((i) => of(i, never));
    return [
      ...at(this.slotHeldAt, (slot, untilS) => this.ofSlot(slot, untilS)),
      ...at(this.rackHeldAt, (s, untilS) => this.ofRack(s, untilS)),
    ];
  }
}
