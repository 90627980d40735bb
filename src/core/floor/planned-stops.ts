/** Planned stops: how many parts or hours each is away, and which one is due or is done early before people leave. */
import type { CompiledCell } from './compiled-cell.js';
import type { OpenTime } from './open-time.js';

/** A machine that waited longer for its last part is not expected to do so again. */
const MOST_CYCLES_WAITED = 3;

export class PlannedStops {
  /** By planned stop: parts since the last one, and when an hourly one is due. */
  readonly count: Float64Array;
  readonly dueAtS: Float64Array;
  /** By station: its first stop; -1 = none. */
  readonly first: Int32Array;
  /** By station: its stops, in order. */
  private readonly stopsAt: readonly Int32Array[];
  /** By planned stop that may be done early: when the station last ended a cycle. */
  private readonly cycleEndS: Float64Array;

  constructor(
    private readonly cell: CompiledCell,
    private readonly hours: OpenTime,
  ) {
    const { stops, stationCount } = cell;
    this.count = new Float64Array(stops.length);
    this.dueAtS = new Float64Array(stops.length);
    this.cycleEndS = new Float64Array(stops.length);
    this.stopsAt = Array.from({ length: stationCount }, (_, s) =>
      Int32Array.from([...stops.keys()].filter((i) => stops[i]!.station === s)),
    );
    this.first = Int32Array.from(this.stopsAt, ([first = -1]) => first);
  }

  /** The hours between planned stops begin. */
  begin(): void {
    for (const [i, stop] of this.cell.stops.entries()) this.dueAtS[i] = this.hours.after(0, stop.everyS);
  }

  /** A stop begins, and the hours until the next. */
  renew(i: number, nowS: number): void {
    const { seconds, everyS } = this.cell.stops[i]!;
    this.dueAtS[i] = this.hours.after(nowS + seconds, everyS);
  }

  /** Parts that a station has made. */
  add(s: number, parts: number): void {
    for (const i of this.stopsAt[s]!) this.count[i]! += parts;
  }

  /** Counts from 0 again. */
  forget(s: number): void {
    for (const i of this.stopsAt[s]!) this.count[i] = 0;
  }

  /** The first stop of a station that is due; -1 = none. */
  dueAt(s: number, nowS: number): number {
    for (const i of this.stopsAt[s]!) if (this.isDue(i, nowS)) return i;
    return -1;
  }

  /**
   * The first that is begun when a cycle ends at a station, due or early; -1 = none.
   *
   * @param op operation of the cycle
   * @param anyFree somebody is there and has nothing to do
   */
  beginsAt(s: number, op: number, nowS: number, anyFree: boolean): number {
    for (const i of this.stopsAt[s]!) {
      if (!this.isDue(i, nowS) && !this.isDoneEarly(i, op, nowS, anyFree)) continue;
      this.count[i] = Math.max(0, this.count[i]! - this.cell.stops[i]!.everyParts);
      return i;
    }
    return -1;
  }

  private isDue(i: number, nowS: number): boolean {
    return this.count[i]! >= this.cell.stops[i]!.everyParts || nowS >= this.dueAtS[i]!;
  }

  /**
   * The stop would come due while nobody is there, and this is the last end of a cycle after which people can still do it
   * before they leave: the next is expected after as long a time as the last one took.
   */
  private isDoneEarly(i: number, op: number, nowS: number, anyFree: boolean): boolean {
    const { cell } = this;
    const { leavesS, aloneS } = this.hours;
    const { earlyParts, everyParts, seconds, responseS, station } = cell.stops[i]!;
    if (earlyParts === 0) return false;
    const inWorkS = cell.closeS[station]! + cell.opCycleS[op]! + cell.readyS[station]!;
    const tookS = Math.min(nowS - this.cycleEndS[i]!, MOST_CYCLES_WAITED * inWorkS);
    this.cycleEndS[i] = nowS;
    const left = everyParts - this.count[i]!;
    if (left > earlyParts || aloneS <= 0 || !anyFree) return false;
    const needS = seconds + responseS;
    if (nowS + needS > leavesS || nowS + Math.max(inWorkS, tookS) + needS <= leavesS) return false;
    const slots = cell.firstSlot[station + 1]! - cell.firstSlot[station]!;
    return left <= (1 + aloneS / inWorkS) * slots;
  }

  /** What early stops hang on, times counted from now. */
  signature(push: (value: number) => void, nowS: number): void {
    for (const [i, stop] of this.cell.stops.entries())
      if (stop.earlyParts > 0) push(nowS - this.cycleEndS[i]!);
  }
}
