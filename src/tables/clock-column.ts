/** Columns of clock times and of breaks. */
import type { ClockSpan } from '../core/model/cell.js';
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { type Reading, read, readAs, refuse } from './reading.js';

const CLOCK = /^([01]?\d|2[0-3]):([0-5]\d)(:00)?$/;
const TIME_IN_WORDS = 'a time of day from 00:00 to 23:59, such as `06:30`';
const BREAKS_IN_WORDS = 'breaks such as `09:00-09:20;11:30-12:00`';

/** Minutes after midnight, 0 to 1439. */
export function clockColumn(meaning: string): Column<number> {
  return neededColumn({ unit: 'HH:MM', meaning, allowed: TIME_IN_WORDS, read: readClock });
}

/** Spans in minutes after midnight as written: not yet set on the clock of their shift. */
export function breaksColumn(meaning: string): Column<readonly ClockSpan[]> {
  return neededColumn({ unit: 'HH:MM-HH:MM', meaning, allowed: BREAKS_IN_WORDS, read: readBreaks });
}

function readClock(text: string): Reading<number> {
  const minutes = minutesOfClock(text);
  if (minutes !== null) return read(minutes);
  const plain = plainClock(text);
  if (plain !== null) return readAs(minutesOfClock(plain)!, plain);
  const help = /^24:00(:00)?$/.test(text)
    ? 'Write midnight as `00:00`; an end at or before the start is on the next day.'
    : null;
  return refuse({ code: 'VAL11', text: `found ${inBackticks(text)}, expected ${TIME_IN_WORDS}`, help });
}

/** Times as they are written elsewhere: `6h30`, `14h`, `6:30 am`, `2 pm`, `6.30 Uhr`; `6.30` alone may be hours and tenths. */
const OTHER_CLOCK = /^(\d{1,2})(?:(?:[.:]|\s?h\s?)([0-5]\d)|\s?h)?(?:\s?(Uhr|[ap]\.?m\.?))?$/i;

function plainClock(text: string): string | null {
  const [, hours, minutes, half] = OTHER_CLOCK.exec(text) ?? [];
  if (hours === undefined || /^\d+(?:\.\d+)?$/.test(text)) return null;
  const is12 = half !== undefined && !/^u/i.test(half);
  if (is12 && (Number(hours) < 1 || Number(hours) > 12)) return null;
  const hour = is12 ? (Number(hours) % 12) + (/^p/i.test(half) ? 12 : 0) : Number(hours);
  const plain = `${String(hour).padStart(2, '0')}:${minutes ?? '00'}`;
  return CLOCK.test(plain) ? plain : null;
}

/** Minutes after midnight of a time such as `06:30`; null where it is none. */
export function minutesOfClock(text: string): number | null {
  const clock = CLOCK.exec(text);
  return clock ? Number(clock[1]) * 60 + Number(clock[2]) : null;
}

function readBreaks(text: string): Reading<readonly ClockSpan[]> {
  const spans: ClockSpan[] = [];
  let at = 0;
  for (const part of text.split(';')) {
    const [startMin, endMin, ...more] = part.split('-').map((time) => minutesOfClock(time.trim()));
    if (startMin == null || endMin == null || more.length > 0 || startMin === endMin) {
      const found = `found ${inBackticks(part.trim())}, expected ${BREAKS_IN_WORDS}`;
      return refuse({ code: 'VAL13', text: found, help: null, span: [at, at + part.length] });
    }
    spans.push({ startMin, endMin });
    at += part.length + 1;
  }
  return read(spans);
}
