/**
 * What the people of a pattern cost in a week.
 *
 * Breaks of 20 minutes or less are paid, longer ones are not: rest periods of 5 to about 20 minutes count as hours
 * worked (29 CFR 785.18), bona fide meal periods, ordinarily of 30 minutes or more, do not (29 CFR 785.19). Where
 * local rules differ, write the break out of the shift or the rate up. Unattended shifts have nobody to pay.
 */
import type { Shift } from '../model/cell.js';

/** Longest break that is paid, minutes. */
export const PAID_BREAK_MIN = 20;

/**
 * @param shifts the rows of one pattern
 * @returns money per week
 */
export function labourCostPerWeek(shifts: readonly Shift[]): number {
  return shifts.reduce((sum, shift) => sum + shiftCost(shift), 0);
}

function shiftCost(shift: Shift): number {
  if (!shift.attended) return 0;
  const unpaidMin = shift.breaks
    .map((b) => b.endMin - b.startMin)
    .filter((minutes) => minutes > PAID_BREAK_MIN)
    .reduce((a, b) => a + b, 0);
  const paidH = (shift.endMin - shift.startMin - unpaidMin) / 60;
  return shift.days.length * paidH * shift.operators * shift.labourPerH;
}
