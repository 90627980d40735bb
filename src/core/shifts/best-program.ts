/**
 * The robot program that earns most for a cell in a pattern, from its settled weeks without chance: by contribution where
 * that is given for every part, else by good parts; of those that earn the same, the first of the list. Every command that
 * is not told a program takes this one.
 */
import { alwaysOpenWeek, type WeekCalendar, weekCalendar } from '../calendar/week-calendar.js';
import { openSpans } from '../floor/open-spans.js';
import { isDispatchRule, PROGRAMS, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { steadyWeek, weekRunner } from './steady-week.js';

/** A program by its name, or the one that earns most. */
export type ProgramChoice = Program | 'best';

const MOST_WEEKS = 3;
/** Less than this share is no gain worth another program. */
const SAME = 1e-3;
/** Changeovers and random stops are not in these weeks, and `strict` loses most by them: it must be clearly ahead. */
const STRICT_AHEAD = 0.02;

/** What was chosen for a cell: the same cell is asked about by one study after another. */
const chosen = new WeakMap<
  Cell,
  { schedule: ScheduleFound | null; pattern: string | null; program: Program }[]
>();

/** @param pattern of shifts.csv; null = day and night */
export function chosenProgram(
  cell: Cell,
  schedule: ScheduleFound | null,
  pattern: string | null,
  choice: ProgramChoice,
): Program {
  if (choice !== 'best') return choice;
  const known = chosen.get(cell) ?? [];
  const same = known.find((k) => k.schedule === schedule && k.pattern === pattern);
  if (same !== undefined) return same.program;
  const program = bestProgram(cell, schedule, pattern);
  chosen.set(cell, [...known, { schedule, pattern, program }]);
  return program;
}

function bestProgram(cell: Cell, schedule: ScheduleFound | null, pattern: string | null): Program {
  const week = pattern === null ? alwaysOpenWeek() : weekCalendar(cell.shifts, pattern);
  let best: { program: Program; value: number } | null = null;
  for (const program of PROGRAMS) {
    if (schedule === null && !isDispatchRule(program)) continue;
    const value = weekValue(cell, schedule, week, program);
    const ahead = program === 'strict' ? STRICT_AHEAD : SAME;
    if (best === null || value > best.value + ahead * Math.abs(best.value)) best = { program, value };
  }
  return best!.program;
}

function weekValue(cell: Cell, schedule: ScheduleFound | null, week: WeekCalendar, program: Program): number {
  const { good } = steadyWeek(
    weekRunner({
      ...{ cell, program, order: schedule, operators: 1, seed: 0, changeovers: null, runsOut: false },
      openSpans: openSpans(week, cell.shifts),
    }),
    MOST_WEEKS,
  );
  const earned = cell.routes.map((r) => cell.parts.find((p) => p.part === r.part)?.contribution ?? null);
  const isPriced = earned.every((each) => each !== null);
  return good.reduce((sum, n, i) => sum + n * (isPriced ? earned[i]! : 1), 0);
}
