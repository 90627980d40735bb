/** The warm-up and the shifts that each replication counts, in open seconds. */
import { type OpenWeek, openCalendar } from '../floor/open-calendar.js';
import type { ResolvedOptions } from './simulation-options.js';

export interface CountedTime {
  readonly warmupS: number;
  readonly shiftsS: readonly number[];
  /** Name of each shift, where the calendar has names. */
  readonly shiftNames: readonly string[];
}

/** Warm-up up to the end of a shift; then whole weeks of the calendar, or whole shifts without one. */
export function countedTime(options: ResolvedOptions, leastWarmupS: number): CountedTime {
  if (options.openSpans === null) {
    const shiftS = options.shiftHours * 3600;
    const count = Math.max(1, Math.ceil((options.hours * 3600) / shiftS - 1e-9));
    return { warmupS: leastWarmupS, shiftsS: new Array<number>(count).fill(shiftS), shiftNames: [] };
  }
  const week = openCalendar(options.openSpans);
  const weeks = Math.max(1, Math.ceil((options.hours * 3600) / week.openS - 1e-9));
  return alignToShifts(week, leastWarmupS, weeks);
}

function alignToShifts(
  { shiftEndsS, shiftNames, openS }: OpenWeek,
  leastWarmupS: number,
  weeks: number,
): CountedTime {
  const lengths = Array.from(shiftEndsS, (end, i) => end - (i === 0 ? 0 : shiftEndsS[i - 1]!));
  const wholeWeeksS = Math.floor(leastWarmupS / openS) * openS;
  const rest = leastWarmupS - wholeWeeksS;
  const passed = rest <= 0 ? 0 : shiftEndsS.findIndex((end) => end >= rest) + 1;
  const warmupS = wholeWeeksS + (passed === 0 ? 0 : shiftEndsS[passed - 1]!);
  const turned = <T>(list: readonly T[]): T[] => [...list.slice(passed), ...list.slice(0, passed)];
  const repeated = <T>(list: readonly T[]): T[] => Array.from({ length: weeks }, () => list).flat();
  return {
    warmupS,
    shiftsS: repeated(turned(lengths)),
    shiftNames: repeated(turned(shiftNames)),
  };
}
