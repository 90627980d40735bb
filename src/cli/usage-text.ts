/** Wrong uses of the command line in plain sentences, with the nearest known name. */
import type { CommanderError } from 'commander';

/** Names that commands and options had before, and have now. */
const RENAMED: Readonly<Record<string, string>> = {
  points: 'io',
  '--way': '--connection',
  '--shard': '--part',
  '--half-width-pct': '--precision-pct',
};

/** @returns the sentences, without a line end */
export function usageText(error: CommanderError): string {
  const message = error.message.replace(/^error: /, '');
  const name = /'([^']*)'/.exec(message)?.[1] ?? '';
  return `${sentence(error.code, name, message.split('\n')[0]!)}${hint(name, message)}`;
}

function hint(name: string, message: string): string {
  const renamed = RENAMED[name];
  if (renamed !== undefined) return ` It is called \`${renamed}\` now.`;
  const near = /\(Did you mean (?:one of )?([^?]+)\?\)/.exec(message)?.[1];
  if (near === undefined) return '';
  const names = near.split(', ').map((known) => `\`${known}\``);
  return ` The nearest known: ${names.join(', ')}.`;
}

function sentence(code: string, name: string, message: string): string {
  if (code === 'commander.unknownOption') return `There is no option \`${name}\` here.`;
  if (code === 'commander.unknownCommand') return `There is no command \`${name}\`.`;
  if (code === 'commander.missingArgument') return `The command needs a ${name}; none is given.`;
  if (code === 'commander.optionMissingArgument')
    return `The option \`${optionName(message)}\` needs a value; none is given.`;
  if (code === 'commander.excessArguments') return 'There are more arguments than the command takes.';
  if (code === 'commander.invalidArgument') return invalidValue(message);
  return `${message.charAt(0).toUpperCase()}${message.slice(1).replace(/\.?$/, '.')}`;
}

function optionName(message: string): string {
  return /(--[a-z-]+)/.exec(message)?.[1] ?? message;
}

/** The reader of the value has said what it found and expected. */
function invalidValue(message: string): string {
  const said = /is invalid\. (.*)$/s.exec(message)?.[1] ?? message;
  return `For the option \`${optionName(message)}\`: ${said.replace(/\.?$/, '.')}`;
}
