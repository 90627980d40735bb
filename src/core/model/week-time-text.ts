/** Moments of the week in words and as a clock. */
import { DAYS } from './cell.js';

/**
 * @param minutes after Monday 00:00
 * @example weekClock(1980) // 'Tue 09:00'
 */
export function weekClock(minutes: number): string {
  const two = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  return `${DAYS[Math.floor(minutes / 1440) % 7]} ${two((minutes % 1440) / 60)}:${two(minutes % 60)}`;
}

/**
 * A moment by which something is to be done; midnight belongs to the day that ends.
 *
 * @param minutes after Monday 00:00, above 0 and up to 10080
 * @example dueText(1440) // 'the end of Mon'
 */
export function dueText(minutes: number): string {
  return minutes % 1440 === 0 ? `the end of ${DAYS[minutes / 1440 - 1]}` : weekClock(minutes);
}
