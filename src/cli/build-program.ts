/** The program as a tree of commands on a given surrounding, so that tests run it in their own process. */

import { Command } from 'commander';
import { OutputRefused } from '../files/output-refused.js';
import { sentence } from '../render/first-letter.js';
import { allCommands, loadCommand } from './all-commands.js';
import type { Answer } from './answer.js';
import type { CommandHead, CommandSpec, OptionValues } from './command-spec.js';
import { deliver } from './deliver.js';
import { EXIT, type ExitCode } from './exit-codes.js';
import type { Io } from './io.js';
import {
  assumptionsOption,
  fullOption,
  jsonOption,
  localeOption,
  setOption,
  tableOptions,
} from './option-values.js';
import { UsageError } from './usage-error.js';
import { PROGRAM, programVersion } from './version.js';

/**
 * @param args the words after the program's name: only the command they ask for is read whole
 * @param ended is told the exit status when a command has run
 */
export async function buildProgram(
  args: readonly string[],
  io: Io,
  ended: (code: ExitCode) => void,
): Promise<Command> {
  const program = quiet(new Command(PROGRAM), io)
    .description(
      'Plans the robot cycle of one robot that tends several machines: the best repeating sequence, parts per hour and per shift, how many machines it can tend, and what interface boxes are worth against moving one harness.',
    )
    .version(programVersion(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand(false)
    .usage('<command> [options]')
    .addHelpText('after', programHelp());
  const [first, second] = args.filter((word) => !word.startsWith('-'));
  const asked = first === 'help' ? second : first;
  for (const entry of allCommands)
    program.addCommand(
      entry.name === asked ? commandOf(await loadCommand(entry), io, ended) : listed(entry, io),
    );
  program.addCommand(helpCommand(program, io));
  return program;
}

/** A line of the help, and a name that a misspelt one is held against. */
function listed(head: CommandHead, io: Io): Command {
  const command = quiet(new Command(head.name), io).summary(head.summary);
  for (const word of wordsOf(head)) command.argument(word);
  return command.addOption(jsonOption());
}

function helpCommand(program: Command, io: Io): Command {
  return quiet(new Command('help'), io)
    .summary('print the help of a command, or the columns of a table: `help tables`, `help stations`')
    .argument('[topic]', 'a command, `tables`, or the name of a table')
    .action(async (topic: string | undefined) => {
      const { printHelp } = await import('./help-command.js');
      printHelp(program, topic, io);
    });
}

function commandOf(spec: CommandSpec, io: Io, ended: (code: ExitCode) => void): Command {
  const command = quiet(new Command(spec.name), io)
    .summary(spec.summary)
    .description(sentence(spec.summary))
    .helpOption('-h, --help', 'print this help')
    .addHelpText('after', examplesText(spec));
  addArguments(command, spec);
  const shared = readsTables(spec) ? [setOption(), localeOption(), assumptionsOption(), fullOption()] : [];
  const tables = spec.tables === undefined ? [] : tableOptions(spec);
  const own = [...spec.options(), ...tables, ...shared, jsonOption()];
  for (const option of own) command.addOption(option);
  return command.action(async (...given: unknown[]) => {
    const list = Array.isArray(given[0]) ? (given[0] as string[]) : undefined;
    const words = list ?? given.slice(0, wordsOf(spec).length);
    const [first, second] = words;
    const argument = first as string | undefined;
    const more = list ? { folders: list } : isPair(spec) ? { folder: second } : {};
    const values: OptionValues = { ...command.opts(), ...more };
    const folder = isPair(spec) ? (second as string | undefined) : argument;
    refuseEmpty(words);
    const cells = list ?? [folder].filter((name) => name !== undefined);
    const reads = words.filter((word) => typeof word === 'string');
    const asked = { argument, cells, reads, values };
    const answer = await answerOf(spec, asked, withSettings(io, values, folder));
    ended(deliver(spec.name, answer, values, io));
  });
}

interface Asked {
  readonly argument: string | undefined;
  /** Folders or workbooks of the cells, as the user gave them. */
  readonly cells: readonly string[];
  /** All that the run reads. */
  readonly reads: readonly string[];
  readonly values: OptionValues;
}

/** Where the result may not be written, that is told before the work. */
async function answerOf(
  spec: CommandSpec,
  { argument, cells, reads, values }: Asked,
  io: Io,
): Promise<Answer> {
  const { checkOutputs, refusedAnswer } = await import('./outputs.js');
  try {
    await checkOutputs(spec, values, reads, io);
    const answer = await spec.run(argument, values, io);
    if (spec.tables === undefined) return answer;
    const { withTables } = await import('./table-output.js');
    return await withTables(answer, { command: spec.name, cells, values, io });
  } catch (error) {
    if (error instanceof OutputRefused) return refusedAnswer(error);
    throw error;
  }
}

/** A script whose variable is empty would otherwise read, or write, the folder in which it runs. */
function refuseEmpty(args: readonly unknown[]): void {
  if (args.some((arg) => typeof arg === 'string' && arg.trim() === ''))
    throw new UsageError('The name of a file or folder is empty.');
}

function addArguments(command: Command, spec: CommandSpec): void {
  const meanings = [spec.argument].flat();
  for (const [i, word] of wordsOf(spec).entries()) command.argument(word, meanings[i]);
}

function wordsOf({ usage }: CommandHead): string[] {
  return usage === '' ? [] : usage.split(' ');
}

/** A file and the folder of the cell that it belongs to. */
function isPair(spec: CommandSpec): boolean {
  return wordsOf(spec).length === 2;
}

/** Commands that start from a folder of tables can change cells of them. */
function readsTables(spec: CommandSpec): boolean {
  return spec.usage.includes('folder') && spec.name !== 'init';
}

function withSettings(io: Io, values: OptionValues, folder: string | undefined): Io {
  const settings = values.set as readonly string[] | undefined;
  if (settings === undefined) return io;
  if (folder === undefined)
    throw new UsageError(
      '`--set` changes the tables of a folder; name the folder too, or leave `--set` out.',
    );
  return { ...io, settings };
}

/** Errors are thrown and printed in one place, in our own words; help goes where the caller says. */
function quiet(command: Command, io: Io): Command {
  return command.exitOverride().configureOutput({
    writeOut: io.stdout,
    writeErr: io.stderr,
    outputError: () => {},
    getOutHelpWidth: () => Math.min(100, io.columns ?? 80),
    getErrHelpWidth: () => Math.min(100, io.columns ?? 80),
    getOutHasColors: () => false,
    getErrHasColors: () => false,
  });
}

function examplesText(spec: CommandSpec): string {
  const lines = spec.examples.map((example) => `  ${PROGRAM} ${example}`);
  return `\n${lines.length === 1 ? 'Example' : 'Examples'}:\n${lines.join('\n')}\n`;
}

function programHelp(): string {
  return `
Exit status: ${EXIT.done} done; ${EXIT.wrongInput} the input is wrong; ${EXIT.wrongUse} wrong use of the command;
${EXIT.infeasible} no feasible answer exists; ${EXIT.limitReached} a limit ended the work: what there was until then is shown.

Start with a filled-in folder of tables or a workbook (init my-cell.xlsx), check it, and ask for the short answer:
  ${PROGRAM} init my-cell
  ${PROGRAM} check my-cell
  ${PROGRAM} my-cell
  ${PROGRAM} schedule my-cell
What a table may hold:
  ${PROGRAM} help tables
  ${PROGRAM} help stations
`;
}
