/** A column of moments of the week: a day, or a day and a time of day. */
import { DAYS, type Day } from '../core/model/cell.js';
import { minutesOfClock } from './clock-column.js';
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { type Reading, read, refuse } from './reading.js';

const ALLOWED = 'a day from Mon to Sun, with or without a time, such as `Fri` or `Fri 14:00`';
const DAY_MIN = 1440;

/** @param alone what a day without a time means; a value is minutes after Monday 00:00, 0 to 10080 */
export function weekTimeColumn(meaning: string, alone: 'its start' | 'its end'): Column<number> {
  return neededColumn({ unit: '', meaning, allowed: ALLOWED, read: (text) => readWeekTime(text, alone) });
}

function readWeekTime(text: string, alone: 'its start' | 'its end'): Reading<number> {
  const [word = '', time, ...more] = text.split(/\s+/);
  const day = DAYS.indexOf(word as Day);
  if (day < 0 || more.length > 0) return refuse(faultOf(text));
  if (time === undefined) return read((day + (alone === 'its end' ? 1 : 0)) * DAY_MIN);
  const minutes = minutesOfClock(time);
  return minutes === null ? refuse(faultOf(text)) : read(day * DAY_MIN + minutes);
}

function faultOf(text: string) {
  const help = /^[A-Z][a-z]{2}\s+24:00$/.test(text)
    ? 'Midnight at the end of a day is the day alone.'
    : `The days are ${DAYS.join(', ')}.`;
  return { code: 'VAL15', text: `found ${inBackticks(text)}, expected ${ALLOWED}`, help } as const;
}
