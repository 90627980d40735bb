/** When a pattern's week saw the cell stand for a rack or for an operator, as plain data. */
import { clockText } from '../calendar/clock-text.js';
import type { WeekCalendar } from '../calendar/week-calendar.js';
import type { FloorHold } from '../floor/holds.js';

export interface WeekStandstill {
  readonly cause: FloorHold['cause'];
  readonly station: string;
  /** Name of the planned stop; empty for racks. */
  readonly stop: string;
  /** Seconds after Monday 00:00; below 0 where it began in the week before. */
  readonly fromS: number;
  /** Seconds after the same Monday; null where nobody ever comes. */
  readonly untilS: number | null;
  /** Such as `Mon 21:52`. */
  readonly from: string;
  readonly until: string | null;
}

/**
 * @param standstills of one week, in order
 * @param week the week, where the clocks change in it
 */
export function weekStandstills(
  standstills: readonly FloorHold[],
  week?: Pick<WeekCalendar, 'weekS' | 'clockChange'>,
): WeekStandstill[] {
  return standstills.map(({ cause, station, stop, fromS, untilS }) => {
    const ends = Number.isFinite(untilS);
    return {
      cause,
      station,
      stop,
      fromS,
      untilS: ends ? untilS : null,
      from: clockText(fromS, week),
      until: ends ? clockText(untilS, week) : null,
    };
  });
}
