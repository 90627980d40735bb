/** The stretches of a pattern's week in which jobs are made: one shift, cut where a job falls due or its material comes. */

import { WEEK_S, type WeekCalendar, type WeekSegment, weekCalendar } from '../calendar/week-calendar.js';
import type { Day, Shift } from '../model/cell.js';
import { operatorHours } from '../shifts/operator-hours.js';

export interface WeekSlot {
  readonly shift: string;
  /** Day on which its shift starts. */
  readonly day: Day;
  /** Seconds after Monday 00:00. */
  readonly startS: number;
  readonly endS: number;
  /** Hours in which the cell works. */
  readonly openH: number;
  readonly attendedH: number;
  /** Hours in which somebody is there and not in a break. */
  readonly presentH: number;
  /** Person-hours, breaks left out. */
  readonly operatorH: number;
  /** Moments from and to which somebody is there and not in a break, in seconds after Monday 00:00. */
  readonly presence: readonly (readonly [fromS: number, toS: number])[];
  /** People who can work at one moment: a part of a person counts as one, whose hours are fewer. */
  readonly people: number;
}

/**
 * @param shifts the rows of shifts.csv
 * @param pattern the pattern to lay out
 * @param cutsS seconds after Monday 00:00 at which a stretch must end
 * @returns the stretches in the order of the week; what a Sunday's shift leaves for Monday morning comes first
 */
export function weekSlots(shifts: readonly Shift[], pattern: string, cutsS: readonly number[]): WeekSlot[] {
  const calendar = weekCalendar(shifts, pattern);
  const groups: WeekSegment[][] = [];
  for (const segment of calendar.segments.flatMap((s) => cutSegment(s, cutsS))) {
    if (!segment.open) continue;
    const last = groups.at(-1)?.at(-1);
    const goesOn = last && last.endS === segment.startS && last.shift === segment.shift;
    if (goesOn && !cutsS.includes(segment.startS)) groups.at(-1)!.push(segment);
    else groups.push([segment]);
  }
  return groups.map((group) => slotOf(shifts, calendar, group));
}

function cutSegment(segment: WeekSegment, cutsS: readonly number[]): WeekSegment[] {
  const inside = cutsS.filter((t) => segment.startS < t && t < segment.endS && t < WEEK_S);
  const times = [...new Set([segment.startS, ...inside, segment.endS])].sort((a, b) => a - b);
  return times.slice(0, -1).map((startS, i) => ({ ...segment, startS, endS: times[i + 1]! }));
}

function slotOf(shifts: readonly Shift[], calendar: WeekCalendar, group: readonly WeekSegment[]): WeekSlot {
  const { shift, day } = calendar.shifts[group[0]!.shift]!;
  const hours = (of: (s: WeekSegment) => boolean): number =>
    group.reduce((sum, s) => sum + (of(s) ? s.endS - s.startS : 0), 0) / 3600;
  const presentH = hours((s) => s.operator);
  const operatorH = operatorHours(shifts, calendar, group);
  return {
    shift,
    day,
    startS: group[0]!.startS,
    endS: group.at(-1)!.endS,
    openH: hours(() => true),
    attendedH: hours((s) => s.attended),
    presentH,
    operatorH,
    presence: group.filter((s) => s.operator).map((s): [number, number] => [s.startS, s.endS]),
    people: presentH > 0 ? Math.ceil(operatorH / presentH - 1e-9) : 0,
  };
}
