/** Minutes east of UTC of the clock on the wall in a named zone. */
import { Temporal } from 'temporal-polyfill';

const STEP_S = 900;

export class LocalOffset {
  private step = Number.NaN;
  private earlierMin = 0;
  private laterMin = 0;
  /** The clock shows this hour for the second time. */
  private isSecond = false;

  /**
   * @param zone a name of the IANA time zone database
   * @throws RangeError where the zone is not known
   */
  constructor(private readonly zone: string) {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
  }

  /**
   * Where the clock shows a time twice, the first is meant until that would run back behind `sinceS`; from then on the
   * second.
   *
   * @param wallS what the clock shows, as seconds since 1970 if the zone were UTC
   * @param sinceS a moment, seconds since 1970, before which the time cannot lie
   */
  at(wallS: number, sinceS: number): number {
    const step = Math.floor(wallS / STEP_S);
    if (step !== this.step) this.lookUp(step);
    if (this.earlierMin === this.laterMin) this.isSecond = false;
    else if (wallS - this.earlierMin * 60 < sinceS) this.isSecond = true;
    return this.isSecond ? this.laterMin : this.earlierMin;
  }

  private lookUp(step: number): void {
    const wall = Temporal.Instant.fromEpochMilliseconds(step * STEP_S * 1000)
      .toZonedDateTimeISO('UTC')
      .toPlainDateTime();
    const offset = (disambiguation: 'earlier' | 'later'): number =>
      wall.toZonedDateTime(this.zone, { disambiguation }).offsetNanoseconds / 6e10;
    this.step = step;
    this.earlierMin = offset('earlier');
    this.laterMin = offset('later');
  }
}
