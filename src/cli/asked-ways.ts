/** `--connection`: how the robot is connected to the machines at a changeover, for all of them or one by one. */
import { InvalidArgumentError, Option } from 'commander';
import { type CaseWays, caseWays } from '../core/jobs/case-ways.js';
import type { AskedWay } from '../core/jobs/setup-ways.js';
import type { Cell } from '../core/model/cell.js';
import { bestSchedule } from '../core/schedule/best-schedule.js';
import { nameHelp } from '../tables/nearest-name.js';
import type { OptionValues } from './command-spec.js';
import type { Io } from './io.js';
import { withProgress } from './progress.js';
import { UsageError } from './usage-error.js';

/** A name of a machine, or all, with what is said of it. */
export interface NamedValue {
  readonly name: string | null;
  readonly value: string;
}

/** @param choices the words that it takes, and which of them is the default */
export function wayOption(choices: string): Option {
  return new Option(
    '--connection <option>',
    `how the robot is connected to the machines at a changeover: ${choices}; for one machine \`mill_1=box\`; may be given several times`,
  ).argParser(readWay);
}

/** Choices of the commands that run a week with its changeovers. */
export const WAY_CHOICES =
  '`harness` is moved (the default), `box` on each machine, or `case` as the cost case decides';

/** The ways of `--connection` as options of a week; none where it is not given. */
export function waysAsked(cell: Cell, values: OptionValues, io: Io): Pick<CaseWays, 'ways'> | object {
  const named = namedOf(values, 'connection');
  return named.length === 0 ? {} : { ways: askedWays(cell, named, 'harness', io).ways };
}

function readWay(text: string, before: readonly NamedValue[] = []): readonly NamedValue[] {
  const [, name, value] = /^(?:(.+)=)?(case|harness|box)$/.exec(text) ?? [];
  if (value === undefined)
    throw new InvalidArgumentError(
      `found \`${text}\`, expected \`case\`, \`harness\` or \`box\`, or one of them for a machine, such as \`mill_1=box\``,
    );
  return [...before, { name: name ?? null, value }];
}

export function namedOf(values: OptionValues, option: string): readonly NamedValue[] {
  return (values[option] as readonly NamedValue[] | undefined) ?? [];
}

export function machinesOf(cell: Cell): string[] {
  return cell.stations.filter((s) => s.kind === 'machine').map((s) => s.name);
}

/** @throws UsageError for a name that is not known, with the nearest one that is */
export function requireName(name: string, known: readonly string[], what: string): void {
  if (known.includes(name)) return;
  const help = nameHelp(name, known, 'names');
  throw new UsageError(`\`${name}\` is no ${what}.${help === null ? '' : ` ${help}`}`);
}

/**
 * The ways with the minutes of the cost case.
 *
 * @param named what `--connection` asks for
 * @param otherwise for machines that it does not name
 * @returns ways by machine, none where there is no cost case; and what that lacks, null where it is found
 * @throws UsageError for machines that are not known, and where `--connection` asks for minutes that are not there
 */
export function askedWays(cell: Cell, named: readonly NamedValue[], otherwise: AskedWay, io: Io): CaseWays {
  for (const { name } of named)
    if (name !== null) requireName(name, machinesOf(cell), 'machine of stations.csv');
  const asked = Object.fromEntries(
    named.flatMap(({ name, value }) => (name === null ? [] : [[name, value as AskedWay]])),
  );
  const forAll = named.filter(({ name }) => name === null).at(-1)?.value as AskedWay | undefined;
  const found = withProgress(io, 'Working out the cost case', () => {
    // The same search as `costcase` makes, so that both decide alike.
    const schedule = bestSchedule(cell, { improvements: false });
    return caseWays(cell, 'order' in schedule ? schedule : null, asked, forAll ?? otherwise);
  });
  if (found.lacking !== null && named.length > 0)
    throw new UsageError(`\`--connection\` needs the minutes of the cost case. ${found.lacking}`);
  return found;
}
