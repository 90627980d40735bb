/** `help`: the help of a command, or what a table may hold. */
import type { Command } from 'commander';
import { tableHelp, tablesOverview } from '../render/table-help.js';
import { nearestName } from '../tables/nearest-name.js';
import { besideFormats, type TableFormat, tableFormats } from '../tables/table-formats.js';
import type { Io } from './io.js';
import { UsageError } from './usage-error.js';
import { PROGRAM } from './version.js';

const MOST_COLUMNS = 100;

/**
 * @param topic a command, `tables`, or a table with or without `.csv`; a name that is both is the command
 * @throws UsageError for a name that is neither
 */
export function printHelp(program: Command, topic: string | undefined, io: Io): void {
  const width = Math.min(MOST_COLUMNS, io.columns ?? 80);
  if (topic === 'tables') {
    io.stdout(`${tablesOverview(width)}\nThe columns of one: \`${PROGRAM} help stations\`.\n`);
    return;
  }
  const command = topic === undefined ? program : program.commands.find((c) => c.name() === topic);
  const table = topic === undefined ? undefined : tableOf(topic);
  if (command === undefined && table === undefined) throw new UsageError(noTopic(program, topic!));
  if (command === undefined) io.stdout(tableHelp(table!, width));
  else command.outputHelp();
  if (command !== undefined && table !== undefined)
    io.stdout(`\nThe columns of ${table.file}: ${PROGRAM} help ${table.file}\n`);
}

function tableOf(topic: string): TableFormat | undefined {
  return [...tableFormats, ...besideFormats].find(({ file }) => file === topic || file === `${topic}.csv`);
}

function noTopic(program: Command, topic: string): string {
  const tables = [...tableFormats, ...besideFormats].map(({ file }) => file.replace('.csv', ''));
  const names = [...program.commands.map((c) => c.name()), 'tables', ...tables];
  const near = nearestName(topic, names);
  const hint = near === null ? '' : ` The nearest known: \`${near}\`.`;
  return `There is no command and no table \`${topic}\`.${hint} \`${PROGRAM} --help\` lists the commands, \`${PROGRAM} help tables\` the tables.`;
}
