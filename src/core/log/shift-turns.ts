/** The shifts of one pattern as they come, turn by turn, on the time line of a log. */
import { Temporal } from 'temporal-polyfill';
import { zonedMomentMs } from '../calendar/zoned-moment.js';
import { DAYS, type Shift } from '../model/cell.js';

/** One shift on one day. */
export interface ShiftTurn {
  readonly shift: string;
  /** Day on which it starts, such as `2026-10-19`. */
  readonly date: string;
  readonly attended: boolean;
  /** Seconds since 1970-01-01 00:00 UTC. */
  readonly startS: number;
  readonly endS: number;
}

const DAY_S = 86_400;

export class ShiftTurns {
  private turns: ShiftTurn[] = [];
  private firstDay = 0;
  /** The day after the last one laid out. */
  private endDay = 0;
  /** The answer from one moment to another. */
  private last: ShiftTurn | null = null;
  private sinceS = 0;
  private untilS = 0;

  /**
   * @param shifts rows of one pattern
   * @param zone a name of the IANA time zone database, or an offset such as `+02:00`
   * @throws RangeError where the zone is not known
   */
  constructor(
    private readonly shifts: readonly Shift[],
    private readonly zone: string,
  ) {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
  }

  /** The turn that covers a moment, the first of several; null outside all shifts. @param epochS seconds since 1970 */
  at(epochS: number): ShiftTurn | null {
    if (epochS >= this.sinceS && epochS < this.untilS) return this.last;
    this.layOut(epochS, epochS);
    this.last = this.turns.find((t) => epochS >= t.startS && epochS < t.endS) ?? null;
    const bounds = this.turns.flatMap((t) => [t.startS, t.endS]);
    this.sinceS = Math.max(Number.NEGATIVE_INFINITY, ...bounds.filter((t) => t <= epochS));
    this.untilS = Math.min(epochS + DAY_S, ...bounds.filter((t) => t > epochS));
    return this.last;
  }

  /** All turns that have a part of a span. */
  between(fromS: number, toS: number): ShiftTurn[] {
    this.layOut(fromS, toS);
    return this.turns.filter((t) => t.endS > fromS && t.startS < toS);
  }

  /** Lays out all days from two before the first moment to one after the last: shifts pass midnight, zones shift days. */
  private layOut(fromS: number, toS: number): void {
    const from = Math.floor(fromS / DAY_S) - 2;
    const end = Math.floor(toS / DAY_S) + 2;
    if (this.turns.length === 0 && this.firstDay === this.endDay) this.firstDay = this.endDay = from;
    const before = from < this.firstDay ? this.days(from, this.firstDay) : [];
    const after = end > this.endDay ? this.days(this.endDay, end) : [];
    if (before.length + after.length > 0) this.turns = [...before, ...this.turns, ...after];
    this.firstDay = Math.min(from, this.firstDay);
    this.endDay = Math.max(end, this.endDay);
  }

  private days(from: number, end: number): ShiftTurn[] {
    const first = Temporal.PlainDate.from('1970-01-01').add({ days: from });
    return Array.from({ length: end - from }, (_, i) => this.turnsOf(first.add({ days: i }))).flat();
  }

  private turnsOf(date: Temporal.PlainDate): ShiftTurn[] {
    const day = DAYS[date.dayOfWeek - 1]!;
    return this.shifts
      .filter((s) => s.days.includes(day))
      .map(({ shift, attended, startMin, endMin }) => ({
        shift,
        date: date.toString(),
        attended,
        startS: zonedMomentMs(date, startMin, this.zone) / 1000,
        endS: zonedMomentMs(date, endMin, this.zone) / 1000,
      }))
      .sort((a, b) => a.startS - b.startS);
  }
}
