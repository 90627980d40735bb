/** The warm-up and the shifts that each replication counts, on the open clock. */
import { type OpenCalendar, openCalendar } from './calendar.js';
import type { ResolvedOptions } from './simulation-options.js';

export interface CountedTime {
  readonly warmupS: number;
  readonly shiftsS: readonly number[];
}

/** Warm-up up to the end of a shift; then whole weeks of the calendar, or whole shifts without one. */
export function countedTime(options: ResolvedOptions, leastWarmupS: number): CountedTime {
  if (options.openSpans === null) {
    const shiftS = options.shiftHours * 3600;
    const count = Math.max(1, Math.ceil((options.hours * 3600) / shiftS - 1e-9));
    return { warmupS: leastWarmupS, shiftsS: new Array<number>(count).fill(shiftS) };
  }
  const calendar = openCalendar(options.openSpans);
  const weeks = Math.max(1, Math.ceil((options.hours * 3600) / calendar.weekS - 1e-9));
  return alignToShifts(calendar, leastWarmupS, weeks);
}

function alignToShifts(calendar: OpenCalendar, leastWarmupS: number, weeks: number): CountedTime {
  const { shiftEndsS, weekS } = calendar;
  const lengths = Array.from(shiftEndsS, (end, i) => end - (i === 0 ? 0 : shiftEndsS[i - 1]!));
  const wholeWeeksS = Math.floor(leastWarmupS / weekS) * weekS;
  const rest = leastWarmupS - wholeWeeksS;
  const passed = rest <= 0 ? 0 : shiftEndsS.findIndex((end) => end >= rest) + 1;
  const warmupS = wholeWeeksS + (passed === 0 ? 0 : shiftEndsS[passed - 1]!);
  const week = [...lengths.slice(passed), ...lengths.slice(0, passed)];
  return { warmupS, shiftsS: Array.from({ length: weeks }, () => week).flat() };
}
