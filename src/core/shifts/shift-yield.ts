/**
 * Good parts a week and a shift from a pattern: the cell is run through the pattern's week without chance, and what it
 * falls short of the steady rate times the open hours is told cause by cause.
 */
import { askedPerWeek, soldOf } from '../calendar/asked-amounts.js';
import { type WeekCalendar, type WeekSegment, weekCalendar } from '../calendar/week-calendar.js';
import { type FloorJob, withoutChance } from '../floor/floor-job.js';
import { lossSwitches, withoutGains } from '../floor/loss-switches.js';
import type { OpenWeek } from '../floor/open-calendar.js';
import { isCallRule, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { earnedBy, runningCostPerH } from '../model/contribution.js';
import type { ScheduleFound } from '../schedule/result.js';
import { quantile7 } from '../statistics/quantile-interval.js';
import { changeoverCostNotes, changeoverNotes } from './changeover-notes.js';
import { type ChangeoverYear, changeoverYear } from './changeover-year.js';
import { labourCostPerWeek } from './labour-cost.js';
import { type Night, nights } from './nights.js';
import { type PatternFloorOptions, patternFloor } from './pattern-floor.js';
import { shiftAssumptions } from './shift-assumptions.js';
import { shiftNotes } from './shift-notes.js';
import { type WeekStandstill, weekStandstills } from './standstills.js';
import { type SteadyWeek, steadyWeek, weekRunner } from './steady-week.js';
import {
  type ChangeoverSummary,
  changeoverSummary,
  type WeekChangeover,
  weekChangeover,
} from './week-changeovers.js';

export interface ShiftYieldOptions extends PatternFloorOptions {
  /** Weeks to run at most while looking for one that repeats (default 9). */
  readonly mostWeeks?: number;
  /** Separate the losses by cause (default); without, only the week with all causes is run, and `losses` is empty. */
  readonly losses?: boolean;
}

/** Amounts by part, and `total`. */
export type ByPart = Readonly<Record<string, number>>;

export interface WeekLoss {
  readonly cause: string;
  /** Good parts a week; below 0 only for what is named a gain. */
  readonly partsPerWeek: number;
}

/** Good parts of the shifts of one name: their mean, and how they differ through the week and the changeovers' weeks. */
export interface ShiftOfName {
  readonly shift: string;
  readonly partsPerShift: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

export interface ShiftYield {
  readonly pattern: string;
  /** What the robot is programmed to do in all these figures. */
  readonly program: Program;
  readonly hoursPerWeek: number;
  readonly attendedH: number;
  readonly unattendedH: number;
  readonly shiftsPerWeek: number;
  /** Good parts. */
  readonly partsPerWeek: ByPart;
  /** Good parts a week over the number of shifts. */
  readonly partsPerShift: ByPart;
  /** The same by the shift's name, all parts together. */
  readonly byShift: readonly ShiftOfName[];
  /** Steady rate times open hours. */
  readonly ceilingPerWeek: ByPart;
  /** From the ceiling's total down to the good parts' total; adds up exactly. */
  readonly losses: readonly WeekLoss[];
  readonly labourCostPerWeek: number;
  /** null when no good part is made. */
  readonly labourCostPerPart: number | null;
  /** Contribution of the parts sold, less labour and the running costs of robot and stations; null = not given for
   * a part that is made. Of a part of which an amount is asked no more than that is sold. */
  readonly contributionPerWeek: number | null;
  /**
   * Good parts a week over the demand, per cent, of the part that has least of its demand; above 100 where
   * every part has more. null where no part has a demand.
   */
  readonly demandMetPct: number | null;
  /** Handling, holding and travel over the open hours. */
  readonly robotUtilizationPct: number;
  /** Parts in machines and hands when the week ends. */
  readonly partsInside: number;
  /** Where in the week the cell is open, attended, and has its operator there. */
  readonly week: readonly WeekSegment[];
  /** When the cell stood for a rack or an operator, in order. */
  readonly standstills: readonly WeekStandstill[];
  /** The unattended shifts by name; empty where there are none, or where losses are not separated. */
  readonly nights: readonly Night[];
  /** The changeovers of the fullest week, in order; the standstills are those of the same week. */
  readonly changeovers: readonly WeekChangeover[];
  /** What the changeovers of a year come to; null where there are none. */
  readonly changeoverYear: ChangeoverSummary | null;
  /** True when the weeks repeat exactly, false when the figures are the mean of several weeks. */
  readonly weekRepeats: boolean;
  readonly notes: readonly string[];
  readonly assumptions: readonly string[];
}

/**
 * Runs a schedule through the week of one pattern.
 *
 * @param cell the cell that the schedule belongs to
 * @param schedule the best order found for it
 * @param pattern a pattern of shifts.csv
 * @throws RangeError where the cell has no shift of that pattern
 */
export function shiftYield(
  cell: Cell,
  schedule: ScheduleFound,
  pattern: string,
  options: ShiftYieldOptions,
): ShiftYield {
  const calendar = weekCalendar(cell.shifts, pattern);
  if (calendar.shifts.length === 0) throw new RangeError(`no shift of the pattern ${pattern} is given`);
  const { work, changeovers: planned, refused, ...floor } = patternFloor(cell, schedule, pattern, options);
  const job: FloorJob = { cell: withoutChance(cell), ...floor, operators: 1, seed: 0, changeovers: null };
  const runner = weekRunner(job);
  const atEnd = floor.runsOut ? 'run out' : 'parts stay';
  const rows = cell.shifts.filter((s) => s.pattern === pattern);
  const hasBreaks = rows.some((s) => s.attended && s.breaks.length > 0);
  const mostWeeks = options.mostWeeks ?? 9;
  const week = steadyWeek(runner, mostWeeks);
  const year = planned === null ? null : changeoverYear(work, planned, runner, week);
  const summary = changeoverSummary(work, year);
  const told = options.losses ?? true;
  const steps = lossSwitches(job).filter((s) => s.cause !== 'changeovers' && s.cause !== 'scrap');
  const made = afterChangeovers(week, year);
  const counts = withTotal(partsOf(cell), (_, i) => made.good[i]!);
  const labour = labourCostPerWeek(rows);
  const earned = earnedBy(cell, soldOf(cell, made.good, calendar.shifts.length));
  const ceilingPerWeek = withTotal(
    partsOf(cell),
    (part) => (schedule.partsPerH[part] ?? 0) * calendar.hoursPerWeek,
  );
  const holds = year?.fullest.holds ?? week.holds;
  const levels = told ? [...steps.map((s) => steadyWeek(weekRunner(s.without), mostWeeks)), week] : [week];
  return {
    pattern,
    program: floor.program,
    hoursPerWeek: calendar.hoursPerWeek,
    attendedH: calendar.attendedH,
    unattendedH: calendar.unattendedH,
    shiftsPerWeek: calendar.shifts.length,
    partsPerWeek: counts,
    partsPerShift: scaled(counts, 1 / calendar.shifts.length),
    byShift: byShiftName(calendar, runner.open, made.goodByShift, (year ?? week).goodByShiftOfWeeks),
    ceilingPerWeek,
    losses: told
      ? waterfall(
          ceilingPerWeek.total!,
          againstSteadyRate(floor.program, atEnd),
          steps.map((s) => s.cause),
          levels,
          year,
        )
      : [],
    labourCostPerWeek: labour,
    labourCostPerPart: counts.total! > 0 ? labour / counts.total! : null,
    contributionPerWeek:
      earned === null ? null : earned - labour - runningCostPerH(cell) * calendar.hoursPerWeek,
    demandMetPct: demandMetPct(cell, counts, calendar.shifts.length),
    robotUtilizationPct: ((100 / 3600) * made.busyS) / calendar.hoursPerWeek,
    partsInside: week.inside,
    week: calendar.segments,
    standstills: weekStandstills(holds, calendar),
    nights: told ? nights({ job, calendar, open: runner.open, week, made, holds, mostWeeks }) : [],
    changeovers: (year?.fullest.changeovers ?? []).map((c) => weekChangeover(c, calendar)),
    changeoverYear: summary,
    weekRepeats: week.repeats,
    notes: [
      ...refused,
      ...changeoverNotes(work, summary, rows),
      ...changeoverCostNotes(summary, year, schedule.partsPerH.total ?? 0),
      ...shiftNotes({
        cell,
        calendar,
        week,
        holds,
        open: runner.open,
        good: counts,
        plan: runner.plan,
        atEnd,
      }),
    ],
    assumptions: shiftAssumptions({
      ...{ cell, work, hasBreaks, atEnd, program: floor.program },
      visited: new Set(schedule.order.map((e) => e.station)),
      steps: steps.map((s) => s.cause),
    }),
  };
}

/** What an average week makes, its changeovers included. */
function afterChangeovers(week: SteadyWeek, year: ChangeoverYear | null): SteadyWeek {
  if (year === null) return week;
  const less = (
    of: (
      w: Pick<SteadyWeek, 'good' | 'scrap' | 'late' | 'goodByShift' | 'goodByShiftRoute'>,
    ) => readonly number[],
  ): number[] => of(week).map((amount, i) => Math.max(0, amount - of(year.loss)[i]!));
  return {
    ...week,
    good: less((w) => w.good),
    scrap: less((w) => w.scrap),
    late: less((w) => w.late),
    goodByShift: less((w) => w.goodByShift),
    goodByShiftRoute: less((w) => w.goodByShiftRoute),
    busyS: week.busyS - year.loss.busyS,
  };
}

function partsOf(cell: Cell): string[] {
  return cell.routes.map((r) => r.part);
}

/** What parts a settled week with nothing in its way from the steady rate of the sequence: where it makes less, and more. */
function againstSteadyRate(
  program: Program,
  atEnd: 'run out' | 'parts stay',
): { readonly loss: string; readonly gain: string } {
  if (isCallRule(program)) {
    const other = `program \`${program}\` in place of the sequence`;
    return { loss: `${other}, shift ends and restarts`, gain: `gain: ${other}` };
  }
  return {
    loss: atEnd === 'run out' ? 'run-out and start-up of each working span' : 'shift ends and restarts',
    gain: 'gain: cycles that end between shifts',
  };
}

/**
 * From the ceiling down to the good parts.
 *
 * @param first what the first level is below or above the ceiling for
 * @param causes of the steps from level to level
 * @param levels settled weeks with one cause more each
 */
function waterfall(
  ceiling: number,
  first: { readonly loss: string; readonly gain: string },
  causes: readonly string[],
  levels: readonly SteadyWeek[],
  year: ChangeoverYear | null,
): WeekLoss[] {
  const losses: WeekLoss[] = [];
  let level = ceiling;
  const downTo = (cause: string, next: number): void => {
    losses.push({ cause, partsPerWeek: level - next });
    level = next;
  };
  const out = (week: Pick<SteadyWeek, 'good' | 'scrap' | 'late'>): number =>
    sum(week.good) + sum(week.scrap) + sum(week.late);
  [first.loss, ...causes].forEach((cause, i) => {
    downTo(cause, out(levels[i]!));
  });
  const week = levels.at(-1)!;
  if (sum(week.late) > 0) downTo('longest waits overrun', level - sum(week.late));
  const made = afterChangeovers(week, year);
  if (year !== null) downTo('changeovers', sum(made.good) + sum(made.scrap));
  if (sum(made.scrap) > 0) downTo('scrap', sum(made.good));
  const [ends, ...others] = losses;
  const named = ends!.partsPerWeek < 0 ? { ...ends!, cause: first.gain } : ends!;
  const joined = withoutGains(
    others,
    (loss) => loss.partsPerWeek,
    (a, b) => ({ partsPerWeek: a.partsPerWeek + b.partsPerWeek }),
  );
  return [named, ...joined];
}

/** Good parts by shift name: those put out in its hours. */
function byShiftName(
  calendar: WeekCalendar,
  open: OpenWeek,
  goodByShift: readonly number[],
  ofWeeks: readonly (readonly number[])[],
): ShiftOfName[] {
  return [...new Set(calendar.shifts.map((s) => s.shift))].map((shift) => {
    const days = calendar.shifts.filter((s) => s.shift === shift);
    const own = (week: readonly number[]): number[] => week.filter((_, i) => open.shiftNames[i] === shift);
    const single = ofWeeks.flatMap(own);
    const at = (p: number): number => (single.length === 0 ? 0 : quantile7(single, p));
    return {
      shift,
      partsPerShift: sum(own(goodByShift)) / days.length,
      p10: at(0.1),
      p50: at(0.5),
      p90: at(0.9),
    };
  });
}

function demandMetPct(cell: Cell, good: ByPart, shifts: number): number | null {
  const shares = cell.parts.flatMap((row) => {
    const asked = askedPerWeek(row, shifts) ?? 0;
    if (asked <= 0) return [];
    const share = (100 * (good[row.part] ?? 0)) / asked;
    // What reaches the demand but for rounding meets it.
    return [Math.abs(share - 100) < 1e-7 ? 100 : share];
  });
  return shares.length === 0 ? null : Math.min(...shares);
}

function withTotal(parts: readonly string[], of: (part: string, index: number) => number): ByPart {
  const amounts = parts.map(of);
  return { ...Object.fromEntries(parts.map((part, i) => [part, amounts[i]!])), total: sum(amounts) };
}

function scaled(amounts: ByPart, by: number): ByPart {
  return Object.fromEntries(Object.entries(amounts).map(([part, n]) => [part, n * by]));
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
