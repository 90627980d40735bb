/** What the search for a sequence left open: what a better one could add at most, by the bound on every sequence. */
import type { ScheduleOutcome } from '../schedule/result.js';

/** @returns a share of what the sequence found makes; 0 where it is proven, null where no bound is known */
export function leftOpenShare(schedule: ScheduleOutcome): number | null {
  if (!('order' in schedule)) return null;
  if (schedule.proven) return 0;
  return schedule.boundS > 0 ? schedule.periodS / schedule.boundS - 1 : null;
}
