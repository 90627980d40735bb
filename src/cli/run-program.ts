/** Runs one command line from start to end; whatever happens, it ends in a sentence and an exit status. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { CommanderError } from 'commander';
import { WriteError } from '../files/write-error.js';
import { visibleText } from '../render/visible-text.js';
import { workbookKind } from '../workbook/workbook.js';
import { allCommands, BRIEF } from './all-commands.js';
import { buildProgram } from './build-program.js';
import { EXIT, type ExitCode } from './exit-codes.js';
import { faultText } from './fault-text.js';
import type { Io } from './io.js';
import { UsageError } from './usage-error.js';
import { usageText } from './usage-text.js';
import { PROGRAM } from './version.js';

/** @param args the words after the program's name */
export async function runProgram(args: readonly string[], io: Io): Promise<ExitCode> {
  let code: ExitCode = EXIT.done;
  try {
    const words = wordsOf(args, io);
    const program = await buildProgram(words, io, (ended) => {
      code = ended;
    });
    await program.parseAsync(words, { from: 'user' });
    return code;
  } catch (error) {
    return endWith(error, args, io);
  }
}

/** A folder or a workbook in the place of the command asks for the short answer; a command of the same name wins. */
function wordsOf(args: readonly string[], { cwd }: Io): string[] {
  const [first] = args;
  if (first === undefined || first.startsWith('-') || allCommands.some(({ name }) => name === first))
    return [...args];
  const isCell = workbookKind(first) !== null || existsSync(resolve(cwd, first));
  return isCell ? [BRIEF, ...args] : [...args];
}

function endWith(error: unknown, args: readonly string[], io: Io): ExitCode {
  if (error instanceof CommanderError) return endOfParsing(error, args, io);
  if (error instanceof UsageError) {
    io.stderr(`${visibleText(error.message)}\n`);
    return EXIT.wrongUse;
  }
  if (error instanceof WriteError) {
    io.stderr(`${visibleText(error.message)}.\n`);
    return EXIT.wrongInput;
  }
  io.stderr(faultText(error));
  return EXIT.wrongInput;
}

function endOfParsing(error: CommanderError, args: readonly string[], io: Io): ExitCode {
  if (error.code === 'commander.helpDisplayed' || error.code === 'commander.version') return EXIT.done;
  // No command at all: the help has been printed on standard error.
  if (error.code === 'commander.help') return EXIT.wrongUse;
  const command =
    args[0] !== undefined && /^[a-z]+$/.test(args[0]) && error.code !== 'commander.unknownCommand';
  const help = command ? `${PROGRAM} ${args[0]} --help` : `${PROGRAM} --help`;
  io.stderr(`${visibleText(usageText(error))}\nOptions: \`${help}\`\n`);
  return EXIT.wrongUse;
}
