/** What a planner should see beside a pattern's figures: when racks ran out, where stops waited, what stays inside. */
import type { Cell } from '../model/cell.js';
import { clockText } from './clock-text.js';
import type { LossStep } from './loss-steps.js';
import type { OrderPlan } from './order-plan.js';
import type { Standstill } from './run-order.js';
import type { SteadyWeek } from './steady-week.js';
import type { WeekCalendar } from './week-calendar.js';

export interface NoteInputs {
  readonly cell: Cell;
  readonly calendar: WeekCalendar;
  readonly week: SteadyWeek;
  /** Of the week that is shown. */
  readonly standstills: readonly Standstill[];
  readonly steps: readonly LossStep[];
  readonly good: Readonly<Record<string, number>>;
  readonly plan: OrderPlan;
  readonly atEnd: 'parts stay' | 'run out';
}

/** Full sentences, the most urgent first. */
export function shiftNotes(inputs: NoteInputs): string[] {
  const { calendar, week, plan } = inputs;
  return [
    ...standstillNotes(inputs),
    ...demandNotes(inputs),
    ...longActNotes(inputs),
    ...longLifeNotes(inputs),
    ...(plan.hasLongestWaits &&
    calendar.attendedH > 0 &&
    plan.slowGapS === null &&
    inputs.cell.robot.attendedSpeedPct < 100
      ? [
          'At the reduced speed of attended hours no timetable keeps all longest waits; parts that overrun one are counted as lost.',
        ]
      : []),
    ...(week.inside > 0
      ? [`${partsText(week.inside)} in machines or in the gripper when the week ends.`]
      : []),
    ...(week.repeats || calendar.hoursPerWeek === 0
      ? []
      : [`Average of ${week.weeks} weeks, first week left out.`]),
  ];
}

/** One sentence for each rack or stop that held up the cell. */
function standstillNotes({ standstills, steps, calendar }: NoteInputs): string[] {
  const groups = new Map<string, Standstill[]>();
  for (const s of standstills) {
    const key = `${s.cause}\u0000${s.station}\u0000${s.stop}`;
    groups.set(key, [...(groups.get(key) ?? []), s]);
  }
  const { clock } = steps.at(-1)!.conditions;
  return [...groups.values()].map((group) => {
    const first = group[0]!;
    if (first.untilS === Number.POSITIVE_INFINITY)
      return `${standstillText(first)} at ${clockText(first.fromS, calendar)}, and no operator ever comes in this pattern: the cell is stopped from then on.`;
    // Times run from the Monday of the week in question; before that the clock folds to the same hours.
    const hours =
      group.reduce((total, s) => total + clock.openBetween(Math.max(0, s.fromS), s.untilS), 0) / 3600;
    const often = group.length === 1 ? 'once in the week' : `${group.length} times in the week`;
    return `${standstillText(first)} at ${clockText(first.fromS, calendar)} ; cell stopped until ${clockText(first.untilS, calendar)} (${often}, ${hours.toFixed(1)} open hours in total).`;
  });
}

function standstillText(s: Standstill): string {
  if (s.cause === 'rack empty') return `The rack at ${s.station} ran empty`;
  if (s.cause === 'rack full') return `The rack at ${s.station} was full`;
  return `${s.stop} at ${s.station} came due with no operator there`;
}

function demandNotes({ cell, calendar, good, plan }: NoteInputs): string[] {
  return plan.parts.flatMap((part) => {
    const asked = cell.parts.find((p) => p.part === part)?.perShift ?? null;
    const made = good[part]! / calendar.shifts.length;
    if (asked === null || made >= asked - 1e-9) return [];
    return [`Part ${part}: ${made.toFixed(1)} good parts a shift against a demand of ${asked}.`];
  });
}

/** An act that no working span can hold would stop the order for good. */
function longActNotes({ plan, steps }: NoteInputs): string[] {
  const { longestSpanS } = steps.at(-1)!.conditions.clock;
  return plan.events
    .filter((e) => e.robotS > longestSpanS)
    .map(
      (e) =>
        `The robot's ${e.action} at ${e.station} takes longer than the longest working span, so no part gets past it.`,
    );
}

/** Where the cell runs out before closing, a part must get through within one working span. */
function longLifeNotes({ plan, steps, atEnd }: NoteInputs): string[] {
  const { longestSpanS } = steps.at(-1)!.conditions.clock;
  const longestS = Math.max(...plan.lifeS);
  if (atEnd !== 'run out' || longestS <= longestSpanS) return [];
  return [
    `A part needs ${(longestS / 3600).toFixed(1)} h from the infeed to the outfeed, longer than the longest working span, so it is never begun.`,
  ];
}

function partsText(n: number): string {
  return n === 1 ? 'One part is' : `${n} parts are`;
}
