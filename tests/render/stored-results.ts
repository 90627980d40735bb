// The result objects that change detectors draw, by name, each with its type: the one place that reads them.
import { readFileSync } from 'node:fs';
import type { CostCaseFound } from '../../src/core/cost/result.js';
import type { ScheduleFound, ScheduleInfeasible } from '../../src/core/schedule/result.js';
import type { ShiftPatterns } from '../../src/core/shifts/shift-patterns.js';
import type { SizeResult } from '../../src/core/size/size-cell.js';
import type { SizeStudy } from '../../src/core/size/size-study.js';
import type { SimulationView } from '../../src/render/simulate.js';

export interface StoredResults {
  readonly demo: ScheduleFound;
  readonly 'wash-line': ScheduleFound;
  readonly 'two-hands': ScheduleFound;
  readonly 'robot-bound': ScheduleFound;
  readonly 'no-schedule': ScheduleInfeasible;
  readonly 'demo-shifts': ShiftPatterns;
  readonly 'figures-size': SizeResult;
  readonly 'size-stops': SizeStudy;
  readonly 'demo-simulation': SimulationView;
  readonly 'one-run-simulation': SimulationView;
  readonly 'demo-cost': CostCaseFound;
  readonly 'taxed-cost': CostCaseFound;
  readonly 'harness-cost': CostCaseFound;
}

/** Those that are schedules, each with another situation. */
export const STORED_SCHEDULES = ['demo', 'wash-line', 'two-hands', 'robot-bound'] as const;

export function stored<Name extends keyof StoredResults>(name: Name): StoredResults[Name] {
  return JSON.parse(readFileSync(storedPath(name), 'utf8')) as StoredResults[Name];
}

export function storedPath(name: keyof StoredResults): URL {
  return new URL(`fixtures/${name}.json`, import.meta.url);
}
