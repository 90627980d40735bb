/** A moment of the week as people say it, such as `Tue 03:40`; seconds are cut off. */
import { DAYS } from '../model/cell.js';
import { WEEK_S, type WeekCalendar } from './week-calendar.js';

const PLAIN = { weekS: WEEK_S, clockChange: null };

/**
 * @param timeS seconds after a Monday 00:00; later weeks are folded into one
 * @param week a week in which the clocks change shows what they show
 * @example clockText(86400 + 3 * 3600 + 40 * 60) // 'Tue 03:40'
 */
export function clockText(timeS: number, week: Pick<WeekCalendar, 'weekS' | 'clockChange'> = PLAIN): string {
  const { weekS, clockChange } = week;
  const passed = ((timeS % weekS) + weekS) % weekS;
  const inWeek = clockChange !== null && passed >= clockChange.atS ? passed - clockChange.byS : passed;
  const day = DAYS[Math.floor(inWeek / 86_400)] ?? 'Sun';
  const minutes = Math.floor((inWeek % 86_400) / 60 + 1e-6);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${day} ${two(Math.floor(minutes / 60) % 24)}:${two(minutes % 60)}`;
}
