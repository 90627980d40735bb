/** A column of moments of the week: a day, or a day and a time of day. */
import { DAYS } from '../core/model/cell.js';
import { minutesOfClock } from './clock-column.js';
import { type Column, neededColumn } from './column.js';
import { dayNamed } from './day-named.js';
import { inBackticks } from './in-backticks.js';
import { type Reading, read, readAs, refuse } from './reading.js';

const ALLOWED = 'a day from Mon to Sun, with or without a time, such as `Fri` or `Fri 14:00`';
const DAY_MIN = 1440;

/** @param alone what a day without a time means; a value is minutes after Monday 00:00, 0 to 10080 */
export function weekTimeColumn(meaning: string, alone: 'its start' | 'its end'): Column<number> {
  return neededColumn({ unit: '', meaning, allowed: ALLOWED, read: (text) => readWeekTime(text, alone) });
}

function readWeekTime(text: string, alone: 'its start' | 'its end'): Reading<number> {
  const [word = '', time, ...more] = text.split(/\s+/);
  const named = dayNamed(word);
  if (named === null || more.length > 0) return refuse(faultOf(text));
  const day = DAYS.indexOf(named);
  const taken = <T>(value: T): Reading<T> =>
    named === word ? read(value) : readAs(value, [named, time].join(' ').trim());
  if (time === undefined) return taken((day + (alone === 'its end' ? 1 : 0)) * DAY_MIN);
  const minutes = minutesOfClock(time);
  return minutes === null ? refuse(faultOf(text)) : taken(day * DAY_MIN + minutes);
}

function faultOf(text: string) {
  const help = /^[A-Z][a-z]{2}\s+24:00$/.test(text)
    ? 'Midnight at the end of a day is the day alone.'
    : `The days are ${DAYS.join(', ')}.`;
  return { code: 'VAL15', text: `found ${inBackticks(text)}, expected ${ALLOWED}`, help } as const;
}
