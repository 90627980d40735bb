/** Hours of people in stretches of a pattern's week: everyone who attends, breaks left out. */

import type { WeekCalendar, WeekSegment } from '../calendar/week-calendar.js';
import type { Shift } from '../model/cell.js';

/**
 * @param shifts the rows of shifts.csv, of any pattern
 * @param calendar the week of one of them
 * @param segments the stretches that count; all of the week when not given
 * @returns person-hours
 */
export function operatorHours(
  shifts: readonly Shift[],
  calendar: WeekCalendar,
  segments: readonly WeekSegment[] = calendar.segments,
): number {
  const rows = shifts.filter((s) => s.pattern === calendar.pattern);
  return segments.reduce((sum, s) => {
    const row = rows[calendar.shifts[s.shift]?.row ?? -1];
    return sum + (s.operator ? ((s.endS - s.startS) / 3600) * (row?.operators ?? 0) : 0);
  }, 0);
}
