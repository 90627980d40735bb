/** The floor of a pattern as options of a simulation: the same program, hours and changeovers as its week without chance. */
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { type PatternFloorOptions, patternFloor } from '../shifts/pattern-floor.js';
import type { SimulateOptions } from './simulation-options.js';

export type SimulatedFloor = Pick<
  SimulateOptions,
  'program' | 'order' | 'openSpans' | 'changeovers' | 'runsOut'
>;

/** @param pattern of shifts.csv; null = day and night */
export function simulatedFloor(
  cell: Cell,
  schedule: ScheduleFound | null,
  pattern: string | null,
  options: PatternFloorOptions,
): SimulatedFloor {
  const { program, order, openSpans, changeovers, runsOut } = patternFloor(cell, schedule, pattern, options);
  return {
    program,
    runsOut,
    ...(order === null ? {} : { order }),
    ...(openSpans === null ? {} : { openSpans }),
    ...(changeovers === null ? {} : { changeovers }),
  };
}
