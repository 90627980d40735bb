/**
 * What the changeovers of a year cost: the weeks in which they fall due are run twice from the same settled state, with
 * them and without, and the difference is their loss. Both runs go on until the last one is done.
 */
import type { Shift } from '../model/cell.js';
import { changeoverDues } from './changeover-dues.js';
import { type ChangeoverWork, YEAR_WEEKS } from './changeover-work.js';
import { crewClock } from './crew-clock.js';
import type { OrderPlan } from './order-plan.js';
import {
  type RunChangeovers,
  type RunConditions,
  type RunTally,
  runOrder,
  type Standstill,
} from './run-order.js';
import type { DoneChangeover } from './run-state.js';
import { type SteadyWeek, weekOf } from './steady-week.js';
import type { WeekCalendar } from './week-calendar.js';

/** One changeover as it was placed, on a clock from the Monday of its week. */
export interface PlacedChangeover {
  readonly work: ChangeoverWork;
  readonly startS: number;
  readonly standsUntilS: number;
  readonly endS: number;
}

/** What a week loses to changeovers on average. */
export interface ChangeoverLoss {
  /** By part of the plan, put out well. */
  readonly out: readonly number[];
  readonly outByShift: readonly number[];
  readonly busyS: number;
}

export interface ChangeoverYear {
  /** Weeks after which the changeovers repeat. */
  readonly weeks: number;
  readonly loss: ChangeoverLoss;
  /** By row of the work: changeovers that fell due, and those that were done. */
  readonly due: readonly number[];
  readonly done: readonly number[];
  /** The fullest week: its number from 1, its changeovers in order, and its standstills. */
  readonly fullest: {
    readonly week: number;
    readonly changeovers: readonly PlacedChangeover[];
    readonly standstills: readonly Standstill[];
  };
  /** By week, the changeovers that begin in it. */
  readonly byWeek: readonly (readonly PlacedChangeover[])[];
}

export interface YearInputs {
  readonly work: readonly ChangeoverWork[];
  readonly plan: OrderPlan;
  readonly calendar: WeekCalendar;
  readonly shifts: readonly Shift[];
  /** All causes of loss switched on. */
  readonly conditions: RunConditions;
  /** The settled weeks without changeovers. */
  readonly steady: Pick<SteadyWeek, 'state' | 'weeksRun' | 'cycle'>;
}

/** Weeks after the last due time in which what is left may still be done. */
const WEEKS_AFTER = 2;

/**
 * @returns null where there is nothing to do, or nobody who could do it
 */
export function changeoverYear(inputs: YearInputs): ChangeoverYear | null {
  const { work, calendar, shifts, steady } = inputs;
  const crew = crewClock(calendar, shifts);
  if (work.length === 0 || crew.mostPeople === 0) return null;
  const { weekS } = calendar;
  const firstS = steady.weeksRun * weekS;
  const { weeks, dueS } = changeoverDues(work, crew.clock, firstS);
  const run = runYear(inputs, { crew, rows: runRows(work, dueS) }, weeks);
  const plain = plainWeeks(inputs, run.tallies.length);
  const due = dueS.map((times) => times.length);
  const done = work.map((_, r) => run.changeovers.filter((c) => c.row === r).length);
  const byWeek = run.tallies.map((_, week) => placedIn(work, run.changeovers, firstS + week * weekS, weekS));
  const fullest = fullestWeek(byWeek);
  return {
    weeks,
    loss: meanLoss(plain, run.tallies, weightOf(work, due, done, weeks) / weeks),
    due,
    done,
    fullest: {
      week: fullest + 1,
      changeovers: byWeek[fullest]!,
      standstills: weekOf(run.tallies[fullest]!.standstills, firstS + fullest * weekS, weekS),
    },
    byWeek,
  };
}

function runRows(
  work: readonly ChangeoverWork[],
  dueS: readonly (readonly number[])[],
): RunChangeovers['rows'] {
  return work.map((row, r) => ({
    station: row.station,
    workS: row.workMin * 60,
    standS: row.standMin * 60,
    people: row.people,
    dueS: dueS[r]!,
  }));
}

interface YearRun {
  readonly tallies: readonly RunTally[];
  readonly changeovers: readonly DoneChangeover[];
}

function runYear(inputs: YearInputs, changeovers: RunChangeovers, weeks: number): YearRun {
  const { plan, conditions, calendar, steady } = inputs;
  const wanted = changeovers.rows.reduce((sum, row) => sum + row.dueS.length, 0);
  const tallies: RunTally[] = [];
  let { state } = steady;
  const goesOn = (): boolean =>
    tallies.length < weeks || (state.changeovers.length < wanted && tallies.length < weeks + WEEKS_AFTER);
  while (goesOn()) {
    const untilS = (steady.weeksRun + tallies.length + 1) * calendar.weekS;
    const run = runOrder(plan, { ...conditions, changeovers }, untilS, calendar.shifts.length, state);
    state = run.state;
    tallies.push(run.tally);
  }
  return { tallies, changeovers: state.changeovers };
}

/** The same weeks without changeovers. */
function plainWeeks({ plan, conditions, calendar, steady }: YearInputs, weeks: number): RunTally[] {
  const { cycle } = steady;
  let { state } = steady;
  return Array.from({ length: weeks }, (_, week) => {
    if (cycle !== null) return cycle[week % cycle.length]!;
    const run = runOrder(
      plan,
      conditions,
      (steady.weeksRun + week + 1) * calendar.weekS,
      calendar.shifts.length,
      state,
    );
    state = run.state;
    return run.tally;
  });
}

/** The changeovers that begin in a week, in order, on the clock of its Monday. */
function placedIn(
  work: readonly ChangeoverWork[],
  changeovers: readonly DoneChangeover[],
  mondayS: number,
  weekS: number,
): PlacedChangeover[] {
  return changeovers
    .filter((c) => c.startS >= mondayS && c.startS < mondayS + weekS)
    .map((c) => ({
      work: work[c.row]!,
      startS: c.startS - mondayS,
      standsUntilS: c.standsUntilS - mondayS,
      endS: c.endS - mondayS,
    }))
    .sort((a, b) => a.startS - b.startS);
}

/** Where a count is not whole, a few more or fewer minutes were run than the year has: the loss is taken in proportion. */
function weightOf(
  work: readonly ChangeoverWork[],
  due: readonly number[],
  done: readonly number[],
  weeks: number,
): number {
  const sum = (of: (row: ChangeoverWork, r: number) => number): number =>
    work.reduce((total, row, r) => total + of(row, r), 0);
  const run = sum((row, r) => done[r]! * row.standMin);
  const asked = sum((row, r) => ((row.perYear * weeks) / YEAR_WEEKS) * (done[r]! / due[r]!) * row.standMin);
  return run > 0 && Math.abs(asked - run) > 1e-9 * run ? asked / run : 1;
}

function meanLoss(plain: readonly RunTally[], tallies: readonly RunTally[], weight: number): ChangeoverLoss {
  const lost = (of: (t: RunTally) => Float64Array): number[] =>
    Array.from(
      of(plain[0]!),
      (_, i) => weight * plain.reduce((sum, t, week) => sum + of(t)[i]! - of(tallies[week]!)[i]!, 0),
    );
  return {
    out: lost((t) => t.out),
    outByShift: lost((t) => t.outByShift),
    busyS: weight * plain.reduce((sum, t, week) => sum + t.busyS - tallies[week]!.busyS, 0),
  };
}

function fullestWeek(byWeek: readonly (readonly PlacedChangeover[])[]): number {
  const minutes = byWeek.map((placed) => placed.reduce((sum, p) => sum + p.work.workMin, 0));
  return minutes.indexOf(Math.max(...minutes));
}
