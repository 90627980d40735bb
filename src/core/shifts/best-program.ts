/**
 * The robot program that earns most for a cell in a pattern, from its settled weeks without chance: by contribution where
 * that is given for every part, else by good parts; of those that earn the same, the first of the list. The strict sequence
 * is taken only where it also earns more with the stops, the variation and the changeovers of the cell. Every command that
 * is not told a program takes this one.
 */
import { alwaysOpenWeek, weekCalendar } from '../calendar/week-calendar.js';
import { harnessWays } from '../cost/way-minutes.js';
import { type FloorJob, floorSetup, type YearOfChangeovers } from '../floor/floor-job.js';
import { runReplication } from '../floor/floor-run.js';
import { openCalendar } from '../floor/open-calendar.js';
import { openSpans } from '../floor/open-spans.js';
import { isCallRule, PROGRAMS, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { earnedBy } from '../model/contribution.js';
import type { ScheduleFound } from '../schedule/result.js';
import { type ChangeoverWork, changeoverWork } from './changeover-work.js';
import { yearOfChangeovers } from './changeover-year.js';
import { steadyWeek, weekRunner } from './steady-week.js';

/** A program by its name, or the one that earns most. */
export type ProgramChoice = Program | 'best';

/** Weeks for a first look; programs that come this close to the best of them are looked at over as many as a pattern's week has. */
const FEW_WEEKS = 3;
const CLOSE = 0.03;
/** Less than this share is no gain worth another program. */
const SAME = 1e-3;
/** Weeks of a run with chance where no changeovers say how many. */
const WEEKS_WITH_CHANCE = 13;

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
  const job = (program: Program): FloorJob => ({
    ...{ cell, program, order: schedule, operators: 1, seed: 0, changeovers: null, runsOut: false },
    openSpans: openSpans(week, cell.shifts),
  });
  const looked = PROGRAMS.filter((program) => schedule !== null || isCallRule(program)).map((program) => {
    const runner = weekRunner(job(program));
    const { good, repeats } = steadyWeek(runner, FEW_WEEKS);
    return { program, runner, repeats, value: earnedWith(cell, good) };
  });
  const most = Math.max(...looked.map(({ value }) => value));
  const ranked: { program: Program; value: number }[] = [];
  for (const { program, runner, repeats, value: few } of looked) {
    const isSettled = repeats || few < most - CLOSE * Math.abs(most);
    const value = isSettled ? few : earnedWith(cell, steadyWeek(runner).good);
    const at = ranked.findIndex((other) => value > other.value + SAME * Math.abs(other.value));
    ranked.splice(at < 0 ? ranked.length : at, 0, { program, value });
  }
  const [best, next] = ranked as [(typeof ranked)[number], (typeof ranked)[number]];
  if (best.program !== 'strict') return best.program;
  // It waits out every stop and changeover, which these weeks have not: the whole floor decides.
  const planned =
    pattern === null ? null : yearOfChangeovers(allChangeovers(cell), openCalendar(job('strict').openSpans!));
  return wholeValue(job('strict'), planned) > wholeValue(job(next.program), planned)
    ? 'strict'
    : next.program;
}

function allChangeovers(cell: Cell): ChangeoverWork[] {
  const visited = new Set(cell.routes.flatMap((r) => r.steps.flatMap((s) => s.stations)));
  return changeoverWork(cell, visited, harnessWays(cell));
}

/** Weeks with stops, variation and changeovers after a first one, always with the same random numbers. */
function wholeValue(job: FloorJob, planned: YearOfChangeovers | null): number {
  const { compiled, setup } = floorSetup(job);
  const { openS, weekS } = setup.calendar!;
  const weeks = planned?.weeks ?? WEEKS_WITH_CHANCE;
  const changeovers = (planned?.rows ?? []).map((row) => ({
    ...row,
    dueS: row.dueS.map((dueS) => dueS + weekS),
  }));
  const shiftsS = new Array<number>(weeks).fill(openS);
  return earnedWith(
    job.cell,
    runReplication(compiled, { ...setup, changeovers, warmupS: openS, shiftsS }, 0).good,
  );
}

/** Contribution where every part has one, else good parts: two programs are held against each other in one measure. */
function earnedWith(cell: Cell, good: readonly number[]): number {
  const isPriced = earnedBy(cell, new Array<number>(cell.routes.length).fill(1)) !== null;
  const earned = isPriced ? earnedBy(cell, good) : null;
  return earned ?? good.reduce((sum, n) => sum + n, 0);
}
