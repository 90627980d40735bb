/** The robot's program of the command line. */
import { Option } from 'commander';
import { PROGRAM_TEXTS, PROGRAMS, type Program } from '../core/floor/robot.js';
import type { ProgramChoice } from '../core/shifts/best-program.js';
import type { OptionValues } from './command-spec.js';

export function programOption(): Option {
  const each = PROGRAMS.map((program) => PROGRAM_TEXTS[program]).join('; ');
  return new Option(
    '--dispatch <program>',
    `robot program: ${each}; default: the one that earns most`,
  ).choices([...PROGRAMS]);
}

/** The program asked for, or the best. */
export function programOf(values: OptionValues): ProgramChoice {
  return (values.dispatch as Program | undefined) ?? 'best';
}
