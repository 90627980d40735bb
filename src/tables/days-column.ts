/** A column of weekdays: single days, ranges such as `Mon-Fri`, both in a list parted by commas. */
import { DAYS, type Day } from '../core/model/cell.js';
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { type Reading, read, refuse } from './reading.js';

const ALLOWED = 'days such as `Mon-Fri`, `Mon,Wed,Sat` or `Fri-Mon`';

export function daysColumn(meaning: string): Column<readonly Day[]> {
  return neededColumn({ unit: '', meaning, allowed: ALLOWED, read: readDays });
}

/** @returns the days in week order, each once */
function readDays(text: string): Reading<readonly Day[]> {
  const found = new Set<Day>();
  let at = 0;
  for (const part of text.split(',')) {
    const days = daysOf(part.trim());
    if (days.length === 0) return refuse(daysFault(part, at));
    for (const day of days) found.add(day);
    at += part.length + 1;
  }
  return read(DAYS.filter((day) => found.has(day)));
}

function daysFault(part: string, at: number) {
  const help = `The days are ${DAYS.join(', ')}; set a list in quotation marks where commas part the columns.`;
  const text = `found ${inBackticks(part.trim())}, expected ${ALLOWED}`;
  return { code: 'VAL12', text, help, span: [at, at + part.length] } as const;
}

function daysOf(part: string): readonly Day[] {
  const [first, last, ...more] = part.split('-').map((word) => DAYS.indexOf(word.trim() as Day));
  if (first === undefined || first < 0 || more.length > 0) return [];
  if (last === undefined) return [DAYS[first]!];
  if (last < 0) return [];
  const count = ((last - first + 7) % 7) + 1;
  return Array.from({ length: count }, (_, i) => DAYS[(first + i) % 7]!);
}
