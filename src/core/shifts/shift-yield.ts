/**
 * Good parts a week and a shift from a pattern: the best order is run through the pattern's week, and what it falls
 * short of the steady rate times the open hours is told cause by cause. Nothing here is random.
 */
import { harnessWays, type WayMinutes } from '../cost/way-minutes.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { changeoverCostNotes, changeoverNotes } from './changeover-notes.js';
import { type ChangeoverWork, changeoverWork } from './changeover-work.js';
import { type ChangeoverYear, changeoverYear } from './changeover-year.js';
import { labourCostPerWeek } from './labour-cost.js';
import { lossSteps } from './loss-steps.js';
import { type OrderPlan, orderPlan } from './order-plan.js';
import { shiftAssumptions } from './shift-assumptions.js';
import { shiftNotes } from './shift-notes.js';
import { type WeekStandstill, weekStandstills } from './standstills.js';
import { type SteadyWeek, steadyWeek } from './steady-week.js';
import { type WeekCalendar, type WeekSegment, weekCalendar } from './week-calendar.js';
import {
  type ChangeoverSummary,
  changeoverSummary,
  type WeekChangeover,
  weekChangeover,
} from './week-changeovers.js';

export interface ShiftYieldOptions {
  /** Minutes of one changeover onto a station without those of the way, by station; default: minutes_other. */
  readonly changeoverMinutesByStation?: Readonly<Record<string, number>>;
  /**
   * How the robot's signals come to each machine at a changeover, and the minutes of that; default: the harness is moved,
   * where costs.csv says what that takes.
   */
  readonly ways?: Readonly<Record<string, WayMinutes>>;
  /**
   * What the robot does before the cell closes. `parts stay` (default): it goes on to the end and parts wait inside;
   * `run out` (default where a longest wait is set): it takes no new part that would not be out in time.
   */
  readonly atEnd?: 'parts stay' | 'run out';
  /** Weeks to run at most while looking for one that repeats (default 9). */
  readonly mostWeeks?: number;
  /** Tell the losses cause by cause (default); without, only the week with all causes is run, and `losses` is empty. */
  readonly losses?: boolean;
}

const NO_RUN_OUT =
  'The cell cannot be run empty in this sequence, since batches tie the parts of all robot cycles together; parts stay inside.';

/** Amounts by part, and `total`. */
export type ByPart = Readonly<Record<string, number>>;

export interface Loss {
  readonly cause: string;
  /** Good parts a week; below 0 where the cause brings parts. */
  readonly partsPerWeek: number;
}

export interface ShiftYield {
  readonly pattern: string;
  readonly hoursPerWeek: number;
  readonly attendedH: number;
  readonly unattendedH: number;
  readonly shiftsPerWeek: number;
  /** Good parts. */
  readonly partsPerWeek: ByPart;
  /** Good parts a week over the number of shifts. */
  readonly partsPerShift: ByPart;
  /** The same by the shift's name, all parts together. */
  readonly byShift: readonly { readonly shift: string; readonly partsPerShift: number }[];
  /** Steady rate times open hours. */
  readonly ceilingPerWeek: ByPart;
  /** From the ceiling's total down to the good parts' total; adds up exactly. */
  readonly losses: readonly Loss[];
  readonly labourCostPerWeek: number;
  /** null when no good part is made. */
  readonly labourCostPerPart: number | null;
  /** Contribution of the good parts, less labour and the running costs of robot and stations; null = not given for
   * a part that is made. */
  readonly contributionPerWeek: number | null;
  /**
   * Good parts over `per_shift` times the shifts, per cent, of the part that has least of its demand; above 100 where
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
  options: ShiftYieldOptions = {},
): ShiftYield {
  const calendar = weekCalendar(cell.shifts, pattern);
  if (calendar.shifts.length === 0) throw new RangeError(`no shift of the pattern ${pattern} is given`);
  const plan = orderPlan(cell, schedule.order);
  const wanted = options.atEnd ?? (plan.hasLongestWaits ? 'run out' : 'parts stay');
  const atEnd = plan.canRunOut ? wanted : 'parts stay';
  const rows = cell.shifts.filter((s) => s.pattern === pattern);
  const hasBreaks = rows.some((s) => s.attended && s.breaks.length > 0);
  const steps = lossSteps({ cell, plan, calendar, hasBreaks, atEnd });
  const told = options.losses ?? true;
  const weeks = runSteps(plan, told ? steps : steps.slice(-1), calendar, options.mostWeeks ?? 9);
  const week = weeks.at(-1)!;
  const work = changeoversOf(cell, plan, options);
  const year = changeoverYear({
    work,
    plan,
    calendar,
    shifts: cell.shifts,
    conditions: steps.at(-1)!.conditions,
    steady: week,
  });
  const summary = changeoverSummary(work, year);
  const standstills = year?.fullest.standstills ?? week.standstills;
  const counts = goodParts(cell, plan, week, year);
  const labour = labourCostPerWeek(rows);
  const ceilingPerWeek = withTotal(
    plan.parts,
    (part) => (schedule.partsPerH[part] ?? 0) * calendar.hoursPerWeek,
  );
  return {
    pattern,
    hoursPerWeek: calendar.hoursPerWeek,
    attendedH: calendar.attendedH,
    unattendedH: calendar.unattendedH,
    shiftsPerWeek: calendar.shifts.length,
    partsPerWeek: counts.good,
    partsPerShift: scaled(counts.good, 1 / calendar.shifts.length),
    byShift: byShiftName(calendar, rows, counts.outByShift, counts.good.total!),
    ceilingPerWeek,
    losses: told ? waterfall(ceilingPerWeek.total!, steps, weeks, counts) : [],
    labourCostPerWeek: labour,
    labourCostPerPart: counts.good.total! > 0 ? labour / counts.good.total! : null,
    contributionPerWeek: contribution(cell, plan, counts.good, labour, calendar.hoursPerWeek),
    demandMetPct: demandMetPct(cell, counts.good, calendar.shifts.length),
    robotUtilizationPct: ((100 / 3600) * (week.busyS - (year?.loss.busyS ?? 0))) / calendar.hoursPerWeek,
    partsInside: week.inside,
    week: calendar.segments,
    standstills: weekStandstills(standstills, calendar),
    changeovers: (year?.fullest.changeovers ?? []).map((c) => weekChangeover(c, calendar)),
    changeoverYear: summary,
    weekRepeats: week.repeats,
    notes: [
      ...(atEnd === wanted ? [] : [NO_RUN_OUT]),
      ...changeoverNotes(work, summary, rows),
      ...changeoverCostNotes(summary, year, schedule.partsPerH.total ?? 0),
      ...shiftNotes({ cell, calendar, week, standstills, steps, good: counts.good, plan, atEnd }),
    ],
    assumptions: shiftAssumptions({ cell, plan, work, hasBreaks, atEnd, steps: steps.map((s) => s.cause) }),
  };
}

/** One settled week a step; a step whose conditions change nothing for it repeats the one before. */
function runSteps(
  plan: OrderPlan,
  steps: ReturnType<typeof lossSteps>,
  calendar: WeekCalendar,
  mostWeeks: number,
): SteadyWeek[] {
  return steps.map((s) => steadyWeek(plan, s.conditions, calendar.shifts.length, mostWeeks));
}

function changeoversOf(cell: Cell, plan: OrderPlan, options: ShiftYieldOptions): ChangeoverWork[] {
  const visited = new Set(plan.events.map((e) => e.station));
  const minutes = options.changeoverMinutesByStation ?? {};
  const changeovers = cell.changeovers.map((row) => ({
    ...row,
    minutesOther: minutes[row.station] ?? row.minutesOther,
  }));
  return changeoverWork({ changeovers }, visited, options.ways ?? harnessWays(cell));
}

interface PartCounts {
  /** All parts that come out in time, before changeovers and scrap. */
  readonly inTime: ByPart;
  readonly afterChangeovers: ByPart;
  readonly good: ByPart;
  /** Put out by shift of the calendar, after changeovers. */
  readonly outByShift: readonly number[];
  readonly hasChangeovers: boolean;
  readonly hasScrap: boolean;
}

function goodParts(cell: Cell, plan: OrderPlan, week: SteadyWeek, year: ChangeoverYear | null): PartCounts {
  const yieldOf = (part: string): number => (cell.parts.find((p) => p.part === part)?.yieldPct ?? 100) / 100;
  const left = (amount: number, lost: number | undefined): number => Math.max(0, amount - (lost ?? 0));
  const afterChangeovers = withTotal(plan.parts, (_, i) => left(week.out[i]!, year?.loss.out[i]));
  return {
    inTime: withTotal(plan.parts, (_, i) => week.out[i]!),
    afterChangeovers,
    good: withTotal(plan.parts, (part) => afterChangeovers[part]! * yieldOf(part)),
    outByShift: week.outByShift.map((amount, i) => left(amount, year?.loss.outByShift[i])),
    hasChangeovers: year !== null,
    hasScrap: plan.parts.some((part) => yieldOf(part) < 1),
  };
}

function waterfall(
  ceiling: number,
  steps: ReturnType<typeof lossSteps>,
  weeks: readonly SteadyWeek[],
  counts: PartCounts,
): Loss[] {
  const losses: Loss[] = [];
  let level = ceiling;
  const downTo = (cause: string, next: number): void => {
    losses.push({ cause, partsPerWeek: level - next });
    level = next;
  };
  steps.forEach((step, i) => {
    downTo(step.cause, sum(weeks[i]!.out) + sum(weeks[i]!.overrun));
  });
  if (sum(weeks.at(-1)!.overrun) > 0) downTo('longest waits overrun', counts.inTime.total!);
  if (counts.hasChangeovers) downTo('changeovers', counts.afterChangeovers.total!);
  if (counts.hasScrap) downTo('scrap', counts.good.total!);
  return losses;
}

/** Good parts by shift name: each shift's share of the parts put out. */
function byShiftName(
  calendar: WeekCalendar,
  rows: readonly { readonly shift: string }[],
  outByShift: readonly number[],
  good: number,
): { shift: string; partsPerShift: number }[] {
  const all = sum(outByShift);
  return [...new Set(rows.map((row) => row.shift))].map((shift) => {
    const here = calendar.shifts.flatMap((s, i) => (rows[s.row]!.shift === shift ? [i] : []));
    const out = here.reduce((total, i) => total + outByShift[i]!, 0);
    return { shift, partsPerShift: all > 0 ? ((out / all) * good) / here.length : 0 };
  });
}

function contribution(
  cell: Cell,
  plan: OrderPlan,
  good: ByPart,
  labour: number,
  hours: number,
): number | null {
  let earned = 0;
  for (const part of plan.parts) {
    const each = cell.parts.find((p) => p.part === part)?.contribution ?? null;
    if (each === null && plan.events.some((e) => e.part === part)) return null;
    earned += good[part]! * (each ?? 0);
  }
  const running = cell.robot.costPerH + cell.stations.reduce((total, s) => total + s.costPerH, 0);
  return earned - labour - running * hours;
}

function demandMetPct(cell: Cell, good: ByPart, shifts: number): number | null {
  const shares = cell.parts.flatMap(({ part, perShift }) => {
    if (perShift === null || perShift <= 0) return [];
    const share = (100 * (good[part] ?? 0)) / (perShift * shifts);
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
