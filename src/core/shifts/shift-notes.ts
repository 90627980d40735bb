/** What a planner should see beside a pattern's figures: when racks ran out, where stops waited, what stays inside. */
import { askedPerWeek } from '../calendar/asked-amounts.js';
import { clockText } from '../calendar/clock-text.js';
import type { WeekCalendar } from '../calendar/week-calendar.js';
import type { FloorHold } from '../floor/holds.js';
import type { OpenWeek } from '../floor/open-calendar.js';
import type { OrderPlan } from '../floor/order-plan.js';
import type { Cell } from '../model/cell.js';
import type { SteadyWeek } from './steady-week.js';

export interface NoteInputs {
  readonly cell: Cell;
  readonly calendar: WeekCalendar;
  readonly week: SteadyWeek;
  /** Of the week that is shown. */
  readonly holds: readonly FloorHold[];
  readonly open: OpenWeek;
  readonly good: Readonly<Record<string, number>>;
  /** null where the robot answers calls. */
  readonly plan: OrderPlan | null;
  readonly atEnd: 'parts stay' | 'run out';
}

/** Full sentences, the most urgent first. */
export function shiftNotes(inputs: NoteInputs): string[] {
  const { calendar, week, plan } = inputs;
  return [
    ...(week.locked && inputs.holds.every((h) => Number.isFinite(h.untilS))
      ? ['The cell locks up in this pattern: nothing can move any more.']
      : []),
    ...holdNotes(inputs),
    ...demandNotes(inputs),
    ...longActNotes(inputs),
    ...longLifeNotes(inputs),
    ...(plan?.hasLongestWaits === true &&
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

/** One sentence for each rack or stop that waited for an operator. */
function holdNotes({ holds, open, calendar }: NoteInputs): string[] {
  const groups = new Map<string, FloorHold[]>();
  for (const h of holds) {
    const key = JSON.stringify([h.cause, h.station, h.stop]);
    groups.set(key, [...(groups.get(key) ?? []), h]);
  }
  return [...groups.values()].map((group) => {
    const first = group[0]!;
    const when = `${holdText(first)} ${clockText(first.fromS, calendar)}`;
    if (first.untilS === Number.POSITIVE_INFINITY)
      return `${when}, and no operator ever comes in this pattern: it is stopped from then on.`;
    // Times run from the Monday of the week in question; before that the clock folds to the same hours.
    const hours =
      group.reduce((total, h) => total + open.clock.openBetween(Math.max(0, h.fromS), h.untilS), 0) / 3600;
    const often = group.length === 1 ? 'once in the week' : `${group.length} times in the week`;
    return `${when}, no operator ${isAttended(first.fromS, calendar) ? 'free' : 'there'}: stopped until ${clockText(first.untilS, calendar)} (${often}, ${hours.toFixed(1)} open hours total).`;
  });
}

/** Somebody is there, and not in a break: then who does not come is busy elsewhere. */
function isAttended(atS: number, { segments, weekS }: WeekCalendar): boolean {
  const s = ((atS % weekS) + weekS) % weekS;
  return segments.some(({ startS, endS, operator }) => operator && s >= startS && s < endS);
}

function holdText(h: FloorHold): string {
  if (h.cause === 'rack empty') return `The rack at ${h.station} ran empty`;
  if (h.cause === 'rack full') return `The rack at ${h.station} was full`;
  return `The stop "${h.stop}" at ${h.station} came due`;
}

function demandNotes({ cell, calendar, good }: NoteInputs): string[] {
  return cell.routes.flatMap(({ part }) => {
    const row = cell.parts.find((p) => p.part === part);
    const shifts = calendar.shifts.length;
    const asked = askedPerWeek(row, shifts);
    const made = good[part]!;
    if (asked === null || made >= asked - 1e-9 * shifts) return [];
    const [of, unit] = row!.perShift === null ? [1, 'week'] : [shifts, 'shift'];
    return [
      `Part ${part}: ${(made / of).toFixed(1)} good parts a ${unit} against a demand of ${asked / of}.`,
    ];
  });
}

/** An act that no working span can hold would stop the robot for good. */
function longActNotes({ cell, open }: NoteInputs): string[] {
  const { longestSpanS } = open.clock;
  const kinds = new Map(cell.stations.map((s) => [s.name, s.kind]));
  return cell.routes.flatMap(({ part, steps }) =>
    steps.flatMap((step) => {
      const held = step.stations.some((name) => kinds.get(name) === 'held');
      const actS = held ? step.loadS + step.cycleS + step.unloadS : Math.max(step.loadS, step.unloadS);
      if (actS <= longestSpanS) return [];
      return [
        `The robot's work on ${part} at ${step.stations.join(' or ')} takes longer than the longest working span, so no part gets past it.`,
      ];
    }),
  );
}

/** Where the cell runs out before closing, a part must get through within one working span. */
function longLifeNotes({ plan, open, atEnd }: NoteInputs): string[] {
  const { longestSpanS } = open.clock;
  const longestS = Math.max(0, ...(plan?.lifeS ?? []));
  if (atEnd !== 'run out' || longestS <= longestSpanS) return [];
  return [
    `A part needs ${(longestS / 3600).toFixed(1)} h from the infeed to the outfeed, longer than the longest working span, so it is never begun.`,
  ];
}

function partsText(n: number): string {
  return n === 1 ? 'One part is' : `${n} parts are`;
}
