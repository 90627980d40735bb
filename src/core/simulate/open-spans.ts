/** Open spans of a pattern's week, for the simulation's calendar. */
import type { Shift } from '../model/cell.js';
import type { WeekCalendar } from '../shifts/week-calendar.js';
import type { OpenSpan } from './calendar.js';

/**
 * @param week the pattern's week
 * @param shifts the rows of shifts.csv, of any pattern
 */
export function openSpans(week: WeekCalendar, shifts: readonly Shift[]): OpenSpan[] {
  const rows = shifts.filter((s) => s.pattern === week.pattern);
  return week.segments
    .filter((segment) => segment.open)
    .map((segment) => {
      const occurrence = week.shifts[segment.shift];
      const row = occurrence === undefined ? undefined : rows[occurrence.row];
      return {
        startS: segment.startS,
        endS: segment.endS,
        attended: segment.attended,
        operators: segment.operator ? Math.max(1, row?.operators ?? 1) : 0,
        shift: occurrence === undefined ? 'all day' : `${occurrence.day} ${occurrence.shift}`,
      };
    });
}
