/** The rules that shifts keep: breaks inside the shift, no two shifts of a pattern at once. */
import { type ClockSpan, DAYS, type Shift } from '../core/model/cell.js';
import { inBackticks } from './in-backticks.js';
import { reportCell, type Sheet } from './sheet.js';
import type { ShiftRow } from './shift-columns.js';

const DAY_MIN = 24 * 60;
const WEEK_MIN = 7 * DAY_MIN;

/** Sets a span of clock times on the clock of a shift that starts at `shiftStartMin`: times before it are next day. */
export function onClockOf(shiftStartMin: number, span: ClockSpan): ClockSpan {
  const startMin = span.startMin < shiftStartMin ? span.startMin + DAY_MIN : span.startMin;
  const length = (span.endMin - span.startMin + DAY_MIN) % DAY_MIN || DAY_MIN;
  return { startMin, endMin: startMin + length };
}

/** @example clockText(1500) // '01:00' */
function clockText(minutes: number): string {
  const ofDay = minutes % DAY_MIN;
  return `${String(Math.floor(ofDay / 60)).padStart(2, '0')}:${String(ofDay % 60).padStart(2, '0')}`;
}

function spanText(span: ClockSpan): string {
  return `${clockText(span.startMin)}-${clockText(span.endMin)}`;
}

export function checkBreaks(sheet: Sheet, { row }: ShiftRow, shift: Shift): void {
  for (const span of shift.breaks) {
    if (span.endMin <= shift.endMin) continue;
    const text = `found the break ${inBackticks(spanText(span))}, expected one inside the shift ${spanText(shift)}`;
    reportCell(sheet, row, 'breaks', 'SHI03', () => ({ text, help: null }));
  }
  for (const [i, span] of shift.breaks.entries()) {
    const before = shift.breaks[i - 1];
    if (!before || span.startMin >= before.endMin) continue;
    const text = `the breaks ${inBackticks(spanText(before))} and ${inBackticks(spanText(span))} overlap`;
    reportCell(sheet, row, 'breaks', 'SHI04', () => ({ text, help: 'Write them as one break.' }));
  }
}

/** One shift on one day, in minutes of the week from Monday 00:00. */
interface Turn {
  readonly row: ShiftRow;
  readonly shift: Shift;
  readonly day: number;
  readonly startMin: number;
  readonly endMin: number;
}

export function checkOverlaps(sheet: Sheet, rows: readonly ShiftRow[], shifts: readonly Shift[]): void {
  const byPattern = new Map<string, Turn[]>();
  rows.forEach((row, i) => {
    const turns = byPattern.get(row.values.pattern) ?? [];
    turns.push(...turnsOf(row, shifts[i]!));
    byPattern.set(row.values.pattern, turns);
  });
  for (const turns of byPattern.values()) checkPattern(sheet, turns);
}

function turnsOf(row: ShiftRow, shift: Shift): Turn[] {
  return shift.days.map((name) => {
    const day = DAYS.indexOf(name);
    return {
      row,
      shift,
      day,
      startMin: day * DAY_MIN + shift.startMin,
      endMin: day * DAY_MIN + shift.endMin,
    };
  });
}

/** Sorted by start, a turn can only run into the next one; the last of the week runs into the first. */
function checkPattern(sheet: Sheet, turns: readonly Turn[]): void {
  const sorted = [...turns].sort((a, b) => a.startMin - b.startMin || a.row.row.line - b.row.row.line);
  const said = sayRepeats(sheet, turns);
  let longest: Turn | undefined;
  for (const turn of [...sorted, ...sorted.map(nextWeek)]) {
    if (longest && turn.startMin < longest.endMin && turn !== longest) sayOverlap(sheet, longest, turn, said);
    if (!longest || turn.endMin > longest.endMin) longest = turn;
  }
}

function nextWeek(turn: Turn): Turn {
  return { ...turn, startMin: turn.startMin + WEEK_MIN, endMin: turn.endMin + WEEK_MIN };
}

function sayOverlap(sheet: Sheet, one: Turn, two: Turn, said: Set<ShiftRow>): void {
  const [earlier, later] = one.row.row.line <= two.row.row.line ? [one, two] : [two, one];
  if (said.has(later.row)) return;
  said.add(later.row);
  const of = (turn: Turn) => `${inBackticks(turn.shift.shift)} (${DAYS[turn.day]} ${spanText(turn.shift)})`;
  const text = `the shifts ${of(earlier)} and ${of(later)} of the pattern ${inBackticks(later.shift.pattern)} overlap`;
  const help =
    'A pattern has one shift at a time; set shifts that are alternatives in patterns of their own.';
  reportCell(sheet, later.row.row, 'start', 'SHI02', () => ({ text, help }));
}

/** Reports shifts of one name on one day of a pattern. @returns their rows, of which nothing more is to be said */
function sayRepeats(sheet: Sheet, turns: readonly Turn[]): Set<ShiftRow> {
  const lines = new Map<string, number>();
  const said = new Set<ShiftRow>();
  for (const { row, shift, day } of turns) {
    const key = `${day} ${shift.shift}`;
    const line = lines.get(key);
    if (line === undefined) lines.set(key, row.row.line);
    if (line === undefined || said.has(row)) continue;
    said.add(row);
    const name = `${inBackticks(shift.shift)} of ${inBackticks(shift.pattern)}`;
    const text = `the shift ${name} is already given for ${DAYS[day]} on line ${line}`;
    reportCell(sheet, row.row, 'shift', 'SHI01', () => ({
      text,
      help: 'Keep one of the two, or rename one.',
    }));
  }
  return said;
}
