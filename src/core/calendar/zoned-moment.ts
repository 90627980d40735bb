/** The moment at which a clock in a time zone shows a given time. */
import { Temporal } from 'temporal-polyfill';

const DAY_MIN = 1440;

/**
 * A clock time that a change of the clocks leaves out is taken as the same time after the change; one that comes twice
 * as the first.
 *
 * @param clockMin whole minutes after midnight of the date; may pass 1440 or lie below 0
 * @param zone a known name of the IANA time zone database, or an offset such as `+02:00`
 * @returns milliseconds since 1970-01-01 00:00 UTC
 */
export function zonedMomentMs(date: Temporal.PlainDate, clockMin: number, zone: string): number {
  const day = Math.floor(clockMin / DAY_MIN);
  const inDay = clockMin - day * DAY_MIN;
  const time = Temporal.PlainTime.from({ hour: Math.floor(inDay / 60), minute: inDay % 60 });
  return date.add({ days: day }).toPlainDateTime(time).toZonedDateTime(zone).epochMilliseconds;
}
