/**
 * The changeovers of a run. One begins when its station is empty and people can begin: in attended hours, so that it
 * ends before they leave (see crew-clock). A part that would still be in work when one can begin is no longer taken.
 */
import type { CompiledCell } from './compiled-cell.js';
import type { Booking, CrewClock } from './crew-clock.js';
import type { EventClock } from './event-clock.js';

/** The changeovers of one station, as plain data. */
export interface ChangeoverRow {
  readonly station: string;
  /** Seconds in which people are at work, and of these the machine is stopped. */
  readonly workS: number;
  readonly stopS: number;
  readonly people: number;
  /** Rising. */
  readonly dueS: readonly number[];
}

/** A changeover as it came to pass. */
export interface DoneChangeover extends Booking {
  /** Index of its machine among the rows. */
  readonly row: number;
  /** The machine runs again; endS of the people's work may be later. */
  readonly runsAgainS: number;
}

const WAITING = 0;
const DUE = 1;
const STOPPED = 2;

export interface ChangeoverStation {
  /** Nothing is inside the station and nothing is on its way there. */
  isEmpty(station: number): boolean;
  /** The machine stops for the changeover, or runs again. */
  stop(station: number, stopped: boolean): void;
}

export class Changeovers {
  readonly done: DoneChangeover[] = [];
  readonly any: boolean;
  private readonly stationOf: readonly number[];
  private readonly state: Uint8Array;
  /** By row: changeovers begun, and the earliest start of the next one. */
  private readonly begun: Int32Array;
  private readonly fromS: Float64Array;
  private readonly runsAgainS: Float64Array;
  /** By station: rows there. */
  private readonly rowsAt: readonly (readonly number[])[];

  /** @param first number of the first row's timer */
  constructor(
    cell: CompiledCell,
    private readonly rows: readonly ChangeoverRow[],
    private readonly crew: CrewClock | null,
    private readonly clock: EventClock,
    private readonly first: number,
    private readonly station: ChangeoverStation,
  ) {
    this.any = rows.length > 0;
    this.stationOf = rows.map((row) => cell.stationNames.indexOf(row.station));
    this.state = new Uint8Array(rows.length);
    this.begun = new Int32Array(rows.length);
    this.runsAgainS = new Float64Array(rows.length);
    this.rowsAt = cell.stationNames.map((_, s) =>
      rows.flatMap((_r, i) => (this.stationOf[i] === s ? [i] : [])),
    );
    this.fromS = new Float64Array(rows.length);
    for (let row = 0; row < rows.length; row++) this.waitForNext(row);
  }

  /** Moment at which the next changeover can begin, of any station; while one is under way, minus infinity. */
  nextS(): number {
    let least = Number.POSITIVE_INFINITY;
    for (let row = 0; row < this.rows.length; row++)
      least = Math.min(least, this.state[row] === STOPPED ? Number.NEGATIVE_INFINITY : this.fromS[row]!);
    return least;
  }

  /** True where a station takes no part that would be in work until a time. */
  holdsBack(s: number, nowS: number, untilS: number): boolean {
    for (const row of this.rowsAt[s]!) {
      if (this.state[row] !== WAITING) return true;
      if (this.fromS[row]! > untilS) continue;
      const soonestS = this.earliest(row, nowS);
      this.fromS[row] = soonestS;
      this.clock.set(this.first + row, soonestS);
      if (soonestS > untilS) continue;
      this.state[row] = DUE;
      return true;
    }
    return false;
  }

  /** A part has left a station: a changeover that waits for that begins when people can. */
  emptied(s: number, nowS: number): void {
    for (const row of this.rowsAt[s]!)
      if (this.state[row] === DUE && this.station.isEmpty(s)) this.tryAt(row, nowS);
  }

  onTimer(row: number, nowS: number): void {
    this.clock.set(this.first + row, Number.POSITIVE_INFINITY);
    const s = this.stationOf[row]!;
    if (this.state[row] === STOPPED) {
      this.state[row] = WAITING;
      this.waitForNext(row);
      this.station.stop(s, false);
      return;
    }
    this.state[row] = DUE;
    if (this.station.isEmpty(s)) this.tryAt(row, nowS);
  }

  private tryAt(row: number, nowS: number): void {
    const fromS = this.earliest(row, nowS);
    if (fromS > nowS) {
      this.fromS[row] = fromS;
      this.clock.set(this.first + row, fromS);
      return;
    }
    const { workS, stopS, people } = this.rows[row]!;
    const operatorEnd = (seconds: number): number => this.crew!.clock.operatorEnd(nowS, seconds);
    this.runsAgainS[row] = operatorEnd(stopS);
    this.done.push({
      row,
      people,
      startS: nowS,
      runsAgainS: this.runsAgainS[row]!,
      endS: operatorEnd(workS),
    });
    this.begun[row]!++;
    this.state[row] = STOPPED;
    this.clock.set(this.first + row, this.runsAgainS[row]!);
    this.station.stop(this.stationOf[row]!, true);
    for (let other = 0; other < this.rows.length; other++)
      if (this.state[other] === WAITING) this.waitForNext(other, this.fromS[other]!);
  }

  private waitForNext(row: number, notBeforeS = Number.NEGATIVE_INFINITY): void {
    const dueS = this.dueS(row);
    this.fromS[row] =
      dueS === Number.POSITIVE_INFINITY ? dueS : this.earliest(row, Math.max(dueS, notBeforeS));
    this.clock.set(this.first + row, this.fromS[row]!);
  }

  private dueS(row: number): number {
    return this.rows[row]!.dueS[this.begun[row]!] ?? Number.POSITIVE_INFINITY;
  }

  private earliest(row: number, fromS: number): number {
    return this.crew!.start(
      fromS,
      this.dueS(row),
      this.rows[row]!,
      this.done.filter((d) => d.endS > fromS),
    );
  }

  /** State of each row, for telling moments apart. */
  signature(push: (value: number) => void): void {
    for (const state of this.state) push(state);
    // What lies on the other side of a changeover is no repetition.
    push(this.done.length);
  }
}
