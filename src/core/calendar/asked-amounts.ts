/** What parts.csv asks for of a part: so many a shift, or so many a week however many shifts there are. */
import type { Cell, Part } from '../model/cell.js';
import { patternNames, weekCalendar } from './week-calendar.js';

/** Shifts and hours of a week. */
export interface AskedWeek {
  readonly shifts: number;
  readonly hours: number;
}

/** The week where shifts.csv has none: common practice. */
export const PLAIN_WEEK: AskedWeek = { shifts: 5, hours: 40 };

type Asked = Pick<Part, 'perShift' | 'perWeek'>;

export function isAsked({ perShift, perWeek = null }: Asked): boolean {
  return perShift !== null || perWeek !== null;
}

/** @param shifts of the week; null = nothing is asked for */
export function askedPerWeek(part: Asked | undefined, shifts: number): number | null {
  const { perShift = null, perWeek = null } = part ?? {};
  return perWeek ?? (perShift === null ? null : perShift * shifts);
}

/** What of the good parts of a week is sold: all of a part of which no amount is asked, else up to that amount. */
export function soldOf({ routes, parts }: Cell, good: readonly number[], shifts: number): number[] {
  return routes.map(({ part }, r) => {
    const asked = askedPerWeek(
      parts.find((row) => row.part === part),
      shifts,
    );
    return asked === null ? good[r]! : Math.min(good[r]!, asked);
  });
}

/** The part with nothing asked for. */
export function unasked(part: Part): Part {
  return { ...part, perShift: null, perWeek: null };
}

/** The week that the amounts of a cell are held against where no pattern is named: the first pattern's. */
export function firstWeek({ shifts }: Pick<Cell, 'shifts'>): AskedWeek {
  const name = patternNames(shifts)[0];
  const week = name === undefined ? PLAIN_WEEK : patternWeek(shifts, name);
  return week.shifts === 0 ? PLAIN_WEEK : week;
}

/** Shifts and hours of a pattern's week. */
export function patternWeek(shifts: Cell['shifts'], pattern: string): AskedWeek {
  const calendar = weekCalendar(shifts, pattern);
  return { shifts: calendar.shifts.length, hours: calendar.hoursPerWeek };
}
