/** A column of weekdays: single days, ranges such as `Mon-Fri`, both in a list parted by commas. */
import { DAYS, type Day } from '../core/model/cell.js';
import { type Column, neededColumn } from './column.js';
import { dayNamed } from './day-named.js';
import { inBackticks } from './in-backticks.js';
import { type Reading, read, readAs, refuse } from './reading.js';

const ALLOWED = 'days such as `Mon-Fri`, `Mon,Wed,Sat` or `Fri-Mon`';

export function daysColumn(meaning: string): Column<readonly Day[]> {
  return neededColumn({ unit: '', meaning, allowed: ALLOWED, read: readDays });
}

/** @returns the days in week order, each once */
function readDays(text: string): Reading<readonly Day[]> {
  const found = new Set<Day>();
  const taken: string[] = [];
  let at = 0;
  for (const part of text.split(/[,;/]/)) {
    const days = daysOf(part);
    if (days.length === 0) return refuse(daysFault(part, at));
    for (const day of days) found.add(day);
    taken.push(days.length === 1 ? days[0]! : `${days[0]}-${days.at(-1)}`);
    at += part.length + 1;
  }
  const days = DAYS.filter((day) => found.has(day));
  const isPlain = text.replaceAll(/\s/g, '') === taken.join(',');
  return isPlain ? read(days) : readAs(days, taken.join(','));
}

/** Signs and words between the first day and the last. */
const TO = /\s*[-\u2010-\u2015\u2212]\s*|\s+(?:to|till|until|through|bis|à|au|a|al|tot)\s+/iu;
/** Words of shops for the days of work and for all. */
const WEEK: Readonly<Record<string, readonly [Day, Day]>> = {
  daily: ['Mon', 'Sun'],
  'every day': ['Mon', 'Sun'],
  weekdays: ['Mon', 'Fri'],
  weekend: ['Sat', 'Sun'],
};

function daysFault(part: string, at: number) {
  const help = `The days are ${DAYS.join(', ')}; set a list in quotation marks where commas part the columns.`;
  const text = `found ${inBackticks(part.trim())}, expected ${ALLOWED}`;
  return { code: 'VAL12', text, help, span: [at, at + part.length] } as const;
}

function daysOf(part: string): readonly Day[] {
  const known = WEEK[part.trim().toLowerCase()];
  const [first, last, ...more] = known ?? part.trim().split(TO).map(dayNamed);
  if (first == null || more.length > 0) return [];
  if (last === undefined) return [first];
  if (last === null) return [];
  const from = DAYS.indexOf(first);
  const count = ((DAYS.indexOf(last) - from + 7) % 7) + 1;
  return Array.from({ length: count }, (_, i) => DAYS[(from + i) % 7]!);
}
