/** Open spans of a pattern's week, for the floor's calendar. */

import type { ShiftOccurrence, WeekCalendar } from '../calendar/week-calendar.js';
import type { Shift } from '../model/cell.js';
import type { OpenSpan } from './open-calendar.js';

/** One shift of one day. @example 'Mon early' */
export function shiftLabel({ day, shift }: ShiftOccurrence): string {
  return `${day} ${shift}`;
}

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
        shift: occurrence === undefined ? 'all day' : shiftLabel(occurrence),
        ...(occurrence === undefined ? {} : { shiftName: occurrence.shift }),
        weekS: week.weekS,
      };
    });
}
