/**
 * Where a run stands in its week: whether the cell works and people are there, and how moments of the clock, which goes on
 * while the cell is shut, relate to open time.
 */
import type { OpenWeek } from './open-calendar.js';

export class OpenTime {
  /** The cell works. */
  open = true;
  /** Up to when the robot runs at full speed without a break, and up to when the cell stays open. */
  plainUntilS = Number.POSITIVE_INFINITY;
  closesS = Number.POSITIVE_INFINITY;
  /** The cell runs and nobody is there; when people leave, and open seconds until they are back. */
  alone = false;
  leavesS = Number.POSITIVE_INFINITY;
  aloneS = 0;
  private segment = 0;
  private weekStart = 0;
  /** Start of the open span, and shut time before it. */
  private opensS = 0;
  private shutS = 0;

  constructor(private readonly calendar: OpenWeek | null) {}

  /** Open seconds from the start to a moment. */
  openAt(timeS: number): number {
    if (timeS >= this.opensS && timeS <= this.closesS) return timeS - this.shutS;
    return this.calendar!.clock.openBetween(0, timeS);
  }

  /** When a robot move of so much time at full speed is over. */
  arrival(fromS: number, workS: number, turns: boolean): number {
    const plainS = fromS + workS;
    if (plainS <= this.plainUntilS) return plainS;
    const { clock } = this.calendar!;
    return turns ? clock.openEnd(fromS, workS) : clock.travelEnd(fromS, workS);
  }

  /** When an act of the robot can begin, so that it is over before the cell closes. */
  fit(fromS: number, actS: number): number {
    return fromS + actS <= this.closesS ? fromS : this.calendar!.clock.fitStart(fromS, actS);
  }

  /** When so many open seconds have passed. */
  after(fromS: number, openS: number): number {
    if (openS === Number.POSITIVE_INFINITY || this.calendar === null) return fromS + openS;
    return this.calendar.clock.openEnd(fromS, openS);
  }

  /** Operators who are there in the present segment of the calendar. */
  get operators(): number {
    return this.calendar!.operators[this.segment]!;
  }

  /** The next segment of the calendar. */
  goOn(): void {
    this.segment++;
    if (this.segment < this.calendar!.endsS.length) return;
    this.segment = 0;
    this.weekStart += this.calendar!.weekS;
  }

  /** Takes in what holds in the present segment. @returns when it ends */
  enter(nowS: number): number {
    const { clock, endsS, handovers } = this.calendar!;
    const { index, open, slow, endS } = clock.segmentAt(nowS);
    const { alone, leavesS, aloneS } = handovers[index]!;
    this.open = open;
    this.alone = alone;
    this.leavesS = this.weekStart + leavesS;
    this.aloneS = aloneS;
    this.opensS = nowS;
    this.closesS = open ? clock.spanEnd(nowS) : Number.NEGATIVE_INFINITY;
    this.plainUntilS = open && !slow ? endS : Number.NEGATIVE_INFINITY;
    this.shutS = nowS - clock.openBetween(0, nowS);
    return this.weekStart + endsS[this.segment]!;
  }
}
