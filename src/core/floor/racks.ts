/**
 * Infeeds and outfeeds that can make the robot wait: limited, with stops, or with a pace of their own. A rack that has run
 * out (an outfeed that is full), or whose stop is due, calls; people who leave fill the infeeds and clear the outfeeds.
 */
import { type CompiledCell, INFEED, OUTFEED } from './compiled-cell.js';
import type { EventClock } from './event-clock.js';
import type { OpenTime } from './open-time.js';
import type { PlannedStops } from './planned-stops.js';

const RACK_OPEN = 0;
const RACK_CALLING = 1;
const RACK_SERVED = 2;

/** What racks need of the floor. */
export interface RackedFloor {
  readonly cell: CompiledCell;
  readonly clock: EventClock;
  readonly hours: OpenTime;
  readonly stops: PlannedStops;
  readonly now: number;
  /** Something happened that the robot may act on. */
  changed: boolean;
  /** Calls an operator to a rack. @param stop that is due by the clock while the rack could still serve; -1 = it has run out */
  callToRack(s: number, stop: number): void;
}

export class Racks {
  readonly left: Float64Array;
  readonly state: Uint8Array;
  /** By station: when an infeed or outfeed with a pace can serve again; it serves all parts one after another. */
  readonly readyAtS: Float64Array;
  /** By station: number of its timer; -1 = it never makes the robot wait. */
  private readonly timer: Int32Array;
  private readonly anyAttendedOnly: boolean;
  private readonly cell: CompiledCell;
  private readonly opStations: Int32Array;

  /**
   * @param stations that are racks, from `rackStations`
   * @param firstTimer number of the timer of the first
   */
  constructor(
    private readonly floor: RackedFloor,
    private readonly stations: readonly number[],
    private readonly firstTimer: number,
  ) {
    const { cell } = floor;
    this.cell = cell;
    this.opStations = cell.opStations;
    this.left = Float64Array.from(cell.rackParts);
    this.state = new Uint8Array(cell.stationCount);
    this.readyAtS = new Float64Array(cell.stationCount);
    this.timer = new Int32Array(cell.stationCount).fill(-1);
    for (const [i, s] of stations.entries()) this.timer[s] = firstTimer + i;
    this.anyAttendedOnly = cell.attendedOnly.includes(1);
  }

  /** True when a rack (infeed with parts, outfeed with room) can serve the robot now at this choice of an operation. */
  serves(choice: number): boolean {
    const s = this.opStations[choice]!;
    if (this.anyAttendedOnly && this.isBarred(choice)) return false;
    return this.timer[s]! < 0 || this.limitedServes(s);
  }

  /** An infeed's part that is taken in only while people are there, and nobody is. */
  private isBarred(choice: number): boolean {
    const { cell } = this;
    const op = cell.choiceOp[choice]!;
    return cell.opKind[op] === INFEED && this.isRouteBarred(cell.opRoute[op]!);
  }

  isRouteBarred(route: number): boolean {
    return this.floor.hours.alone && this.cell.attendedOnly[route] === 1;
  }

  /** Some part waits for people to come back. */
  get bars(): boolean {
    return this.anyAttendedOnly && this.floor.hours.alone;
  }

  private limitedServes(s: number): boolean {
    return this.state[s] === RACK_OPEN && this.left[s]! > 0 && this.readyAtS[s]! <= this.floor.now;
  }

  /** A rack has run out (an outfeed is full), or is being served; one that only needs time for its next part is not. */
  isOut(choice: number): boolean {
    const s = this.opStations[choice]!;
    if (this.anyAttendedOnly && this.isBarred(choice)) return true;
    return this.timer[s]! >= 0 && (this.state[s] !== RACK_OPEN || this.left[s]! <= 0);
  }

  /** A part is taken, or put in, at a time. */
  use(choice: number, op: number, sinceS: number): void {
    const s = this.opStations[choice]!;
    if (this.timer[s]! >= 0) this.useLimited(s, op, sinceS);
  }

  private useLimited(s: number, op: number, sinceS: number): void {
    const { cell } = this;
    const { stops, now } = this.floor;
    this.left[s]!--;
    const pace = cell.closeS[s]! + cell.opCycleS[op]! + cell.readyS[s]!;
    this.readyAtS[s] = sinceS + pace;
    let due = -1;
    if (stops.first[s]! >= 0) {
      stops.add(s, 1);
      due = stops.dueAt(s, now);
    }
    if (due >= 0 || this.left[s]! <= 0) this.call(s, due);
    else if (pace > 0) this.wakeForPace(s);
  }

  /** Its own first stop says how long; else no time, operator. */
  private call(s: number, due: number): void {
    const { cell } = this;
    const { clock, stops, now } = this.floor;
    const i = due >= 0 ? due : stops.first[s]!;
    this.state[s] = RACK_CALLING;
    if (i >= 0) {
      stops.count[i] = 0;
      stops.renew(i, now);
    }
    if (i >= 0 && !cell.stops[i]!.needsOperator) {
      this.state[s] = RACK_SERVED;
      clock.set(this.timer[s]!, now + cell.stops[i]!.seconds);
    } else {
      const hasRunOut = this.left[s]! <= 0 || due < 0 || cell.stops[due]!.everyS === Number.POSITIVE_INFINITY;
      this.floor.callToRack(s, hasRunOut ? -1 : due);
    }
  }

  onTimer(i: number): void {
    const s = this.stations[i]!;
    this.floor.clock.set(this.firstTimer + i, Number.POSITIVE_INFINITY);
    if (this.state[s] === RACK_SERVED) this.refill(s);
    this.floor.changed = true;
    this.wakeForPace(s);
  }

  private refill(s: number): void {
    this.state[s] = RACK_OPEN;
    this.left[s] = this.cell.rackParts[s]!;
    this.floor.changed = true;
  }

  /** Somebody has seen to it. */
  isServed(s: number): void {
    this.refill(s);
    this.wakeForPace(s);
  }

  /** Sets the rack's timer to the moment at which it has its next part ready, or can take one again. */
  private wakeForPace(s: number): void {
    const at = this.readyAtS[s]!;
    if (this.state[s] !== RACK_SERVED)
      this.floor.clock.set(this.timer[s]!, at > this.floor.now ? at : Number.POSITIVE_INFINITY);
  }

  /** Before they leave, operators fill the infeeds and clear the outfeeds, beside the running robot: as at a stop for it. */
  topUp(): void {
    for (const s of this.stations) {
      if (this.state[s] !== RACK_OPEN) continue;
      this.left[s] = this.cell.rackParts[s]!;
      this.floor.stops.forget(s);
    }
  }
}

export function rackStations(cell: CompiledCell): number[] {
  const paced = new Set<number>();
  for (let op = 0; op < cell.opCount; op++)
    for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++) {
      const s = cell.opStations[c]!;
      if (cell.closeS[s]! + cell.opCycleS[op]! + cell.readyS[s]! > 0) paced.add(s);
    }
  return [...cell.stationNames.keys()].filter((s) => {
    const kind = cell.stationKind[s];
    if (kind !== INFEED && kind !== OUTFEED) return false;
    return cell.rackParts[s]! < Infinity || paced.has(s) || cell.stops.some((stop) => stop.station === s);
  });
}
