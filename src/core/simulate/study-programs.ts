/**
 * The cell simulated under its best program, or the one asked for, with the other programs beside where none is asked:
 * what `simulate` and the report show.
 */
import { isCallRule, PROGRAMS, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import type { PatternFloorOptions } from '../shifts/pattern-floor.js';
import { simulatedFloor } from './simulated-floor.js';
import type { SimulateContext, SimulateOptions } from './simulation-options.js';
import { type SimulationStudy, type StudyOptions, studyCell } from './study-cell.js';

export interface ProgramStudyOptions
  extends Omit<SimulateOptions, 'program' | 'order' | 'openSpans' | 'changeovers' | 'runsOut'> {
  /** The only program to simulate; without one the best, with the others beside it. */
  readonly program?: Program;
  /** Programs to hold beside it; default all others where none was asked. */
  readonly against?: readonly Program[];
  readonly floor?: Omit<PatternFloorOptions, 'program'>;
}

/** The study of one pattern. */
export interface SimulateStudy extends SimulationStudy {
  /** null = day and night. */
  readonly pattern: string | null;
}

/** @param schedule null where there is no sequence: then only the programs that answer calls are looked at */
export function programStudyOptions(
  cell: Cell,
  schedule: ScheduleFound | null,
  pattern: string | null,
  { program, against, floor, ...rest }: ProgramStudyOptions,
): StudyOptions {
  const options = simulatedFloor(cell, schedule, pattern, { ...floor, program: program ?? 'best' });
  const others = (): Program[] =>
    PROGRAMS.filter((p) => p !== options.program && (schedule !== null || isCallRule(p)));
  return { ...rest, ...options, against: against ?? (program === undefined ? others() : []) };
}

export async function studyPrograms(
  cell: Cell,
  schedule: ScheduleFound | null,
  pattern: string | null,
  options: ProgramStudyOptions = {},
  context: SimulateContext = {},
): Promise<SimulateStudy> {
  const study = await studyCell(cell, programStudyOptions(cell, schedule, pattern, options), context);
  return { ...study, pattern };
}
