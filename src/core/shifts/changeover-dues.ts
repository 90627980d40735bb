/**
 * When the changeovers of a year fall due. The due times of each machine are spread evenly over the hours in which
 * somebody is there, and the machines are shifted against each other so that they do not all fall due together. Nothing
 * is drawn by lot.
 *
 * Where all counts of a year are whole, the year is cut to the part after which it repeats.
 */

import { YEAR_WEEKS } from '../calendar/year.js';
import type { WorkClock } from '../floor/work-clock.js';
import type { ChangeoverWork } from './changeover-work.js';

export interface ChangeoverDues {
  /** Weeks after which the due times repeat (the whole year where counts are not whole). */
  readonly weeks: number;
  /** By row of the work: seconds, rising, none in or after the last second with an operator. */
  readonly dueS: readonly (readonly number[])[];
}

/** Fewer weeks would let the chance of where a run begins and ends show. */
const LEAST_WEEKS = 13;

/**
 * @param work the rows
 * @param clock a clock that knows when the operator is there, breaks out
 * @param fromS the Monday 00:00 from which on they fall due, seconds
 */
export function changeoverDues(
  work: readonly ChangeoverWork[],
  clock: WorkClock,
  fromS: number,
): ChangeoverDues {
  const weeks = repeatingWeeks(work.map((row) => row.perYear));
  const weekOperatorS = clock.operatorBetween(0, clock.weekS);
  const dueS = work.map((row, r) => {
    const count = placedCount(row.perYear, weeks);
    const phase = (r + 0.5) / work.length;
    return Array.from({ length: count }, (_, k) => {
      // Whole minutes of the operator's time, so that no figure hangs on the last digits.
      const atS = 60 * Math.floor((((k + phase) / count) * weeks * weekOperatorS) / 60 + 1e-6);
      const week = Math.floor(atS / weekOperatorS);
      return clock.operatorEnd(fromS + week * clock.weekS, atS - week * weekOperatorS);
    });
  });
  return { weeks, dueS };
}

/** How many a machine has in so many weeks: at least one, so that a rare one is not left out. */
function placedCount(perYear: number, weeks: number): number {
  return Math.max(1, Math.round((perYear * weeks) / YEAR_WEEKS));
}

/** The shortest part of the year in which every machine has a whole number, but not below 13 weeks. */
function repeatingWeeks(perYear: readonly number[]): number {
  if (!perYear.every((n) => Math.abs(n - Math.round(n)) < 1e-9)) return YEAR_WEEKS;
  const parts = perYear.reduce((divisor, n) => commonDivisor(divisor, Math.round(n)), YEAR_WEEKS);
  const least = YEAR_WEEKS / parts;
  return Math.min(YEAR_WEEKS, least * Math.ceil(LEAST_WEEKS / least));
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
