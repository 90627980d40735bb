/**
 * The cost case of a cell, whole or as far as its decision goes: without what takes most of the work and does not move it,
 * which is the risk, where the choice turns, and cycle times in doubt.
 */
import { type CostCaseOptions, costCase } from '../cost/cost-case.js';
import type { CostCaseOutcome } from '../cost/result.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { type StandingOptions, standingHours } from './standing-hours.js';

/** @param schedule the best sequence; null = not scheduled */
export function cellCase(
  cell: Cell,
  schedule: ScheduleFound | null,
  decisionOnly: boolean,
  standing: Omit<StandingOptions, 'asPlannedOnly'> = {},
  options: CostCaseOptions = {},
): CostCaseOutcome {
  const facts =
    schedule === null ? null : standingHours(cell, schedule, { ...standing, asPlannedOnly: decisionOnly });
  return costCase(cell, facts, decisionOnly ? { ...options, trials: 1, turns: false } : options);
}
