/**
 * Puts the records of a log on one rising time line as they come, in fixed memory.
 *
 * Records up to a window late are put in their place. A record further off is kept aside until the next ones tell what
 * it was: where the log goes on from there, the clock was set back or there is a gap; where the log goes on as before,
 * that record is a stray. After a clock was set back, the times that follow are moved on, so that time never runs
 * backwards; what really passed at that place is not known, so no time across it is used.
 */
import type { Damage } from './damage.js';
import { RecordQueue, type TakeRecord } from './record-queue.js';

export interface TimeLineOptions {
  /** How late a record may be and still be put in its place, seconds. */
  readonly windowS: number;
  /** Silence that counts as a gap, seconds; above the window. */
  readonly gapS: number;
}

export interface LogBreak {
  readonly kind: 'gap' | 'clock back' | 'clock ahead';
  /** By the clock of the log: the last time before, and the first after. */
  readonly fromS: number;
  readonly toS: number;
  readonly line: number;
}

/** Records that must agree before a clock counts as set back, or a jump ahead as a gap. */
const AGREE = 5;

interface Aside {
  readonly clockS: number;
  readonly station: number;
  readonly signal: number;
  readonly part: number;
  readonly line: number;
}

export class TimeLine {
  /** Clock time of the first record; NaN before it. */
  firstS = Number.NaN;
  private offsetS = 0;
  private topS = Number.NEGATIVE_INFINITY;
  private aside: Aside[] = [];
  private asideTopS = 0;
  private readonly queue: RecordQueue;

  /**
   * @param take takes the records, their times rising
   * @param onBreak told of a gap or a clock set back between the records before and after
   */
  constructor(
    private readonly options: TimeLineOptions,
    private readonly damage: Damage,
    take: TakeRecord,
    private readonly onBreak: (at: LogBreak) => void,
  ) {
    this.queue = new RecordQueue(take);
  }

  /** Clock time of the last record so far; -Infinity before the first. */
  get lastS(): number {
    return this.topS - this.offsetS;
  }

  /** @param clockS what the log's clock says, seconds */
  add(clockS: number, station: number, signal: number, part: number, line: number): void {
    const timeS = clockS + this.offsetS;
    if (this.topS === Number.NEGATIVE_INFINITY) this.firstS = clockS;
    else if (!this.fits(timeS, this.topS)) {
      this.setAside({ clockS, station, signal, part, line });
      return;
    }
    if (this.aside.length > 0) this.dropAside();
    this.pass(timeS, clockS, station, signal, part, line);
  }

  private fits(timeS: number, topS: number): boolean {
    return timeS >= topS - this.options.windowS && timeS <= topS + this.options.gapS;
  }

  private pass(
    timeS: number,
    clockS: number,
    station: number,
    signal: number,
    part: number,
    line: number,
  ): void {
    if (this.queue.add(timeS, clockS, station, signal, part, line)) this.damage.note('out of order', line);
    if (timeS <= this.topS) return;
    this.topS = timeS;
    this.queue.releaseBefore(timeS - this.options.windowS);
  }

  private setAside(record: Aside): void {
    const timeS = record.clockS + this.offsetS;
    if (this.aside.length > 0 && !this.fits(timeS, this.asideTopS)) this.dropAside();
    this.asideTopS = this.aside.length === 0 ? timeS : Math.max(this.asideTopS, timeS);
    this.aside.push(record);
    if (this.aside.length === AGREE) this.goOnFromAside();
  }

  private dropAside(): void {
    for (const { line } of this.aside) this.damage.note('stray', line);
    this.aside = [];
  }

  /** The records kept aside are how the log goes on. */
  private goOnFromAside(): void {
    const records = this.aside;
    this.aside = [];
    const firstS = Math.min(...records.map((r) => r.clockS));
    const isBack = firstS + this.offsetS < this.topS;
    const kind = isBack ? 'clock back' : 'gap';
    this.queue.releaseBefore(Number.POSITIVE_INFINITY);
    this.onBreak({ kind, fromS: this.lastS, toS: firstS, line: records[0]!.line });
    this.damage.note(kind, records[0]!.line);
    if (isBack) this.offsetS = this.topS - firstS;
    else this.topS = firstS + this.offsetS;
    for (const r of records)
      this.pass(r.clockS + this.offsetS, r.clockS, r.station, r.signal, r.part, r.line);
  }

  /** The end of the log. A jump ahead just before it is a gap; a few records set back are strays. */
  end(): void {
    if (this.aside.length > 0) {
      if (this.aside[0]!.clockS + this.offsetS > this.topS) this.goOnFromAside();
      else this.dropAside();
    }
    this.queue.releaseBefore(Number.POSITIVE_INFINITY);
  }
}
