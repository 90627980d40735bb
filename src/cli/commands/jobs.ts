/** `jobs`: the week's jobs on machines and shifts, with the set-ups between them, so that due days are met. */
import { basename, join, resolve } from 'node:path';
import { InvalidArgumentError, Option } from 'commander';
import { caseWays, jobsLacking, leftOutWarning } from '../../core/jobs/case-ways.js';
import type { WayMinutes } from '../../core/cost/way-minutes.js';
import { DEFAULT_NODES } from '../../core/jobs/plan-jobs.js';
import type { AskedWay } from '../../core/jobs/setup-ways.js';
import { type WeeklyJobOptions, type WeeklyJobs, weeklyJobs } from '../../core/jobs/weekly-jobs.js';
import type { Cell } from '../../core/model/cell.js';
import { bestSchedule } from '../../core/schedule/best-schedule.js';
import { patternNames } from '../../core/shifts/week-calendar.js';
import { writeFiles } from '../../files/write-files.js';
import { jobFiles, renderJobs } from '../../render/jobs.js';
import { highsSolver } from '../../solver/highs-solver.js';
import { nameHelp } from '../../tables/nearest-name.js';
import type { Answer } from '../answer.js';
import { cellAnswer, complaintLines, type OpenCell } from '../cell-answer.js';
import { type CommandSpec, numberOf, type OptionValues } from '../command-spec.js';
import { currencyOf } from '../currency.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { numberOption } from '../option-values.js';
import { withProgress } from '../progress.js';
import { UsageError } from '../usage-error.js';

/** A name of a machine, or all, with what is said of it. */
interface Named {
  readonly name: string | null;
  readonly value: string;
}

export const jobsCommand: CommandSpec = {
  name: 'jobs',
  usage: '<folder>',
  argument: 'folder that holds the tables of the cell, with jobs.csv and shifts.csv',
  summary: 'plan the jobs of a week over machines and shifts, with the set-ups between them',
  options: () => [
    new Option('--pattern <name>', 'plan this shift pattern only'),
    new Option(
      '--way <way>',
      'how the signals come to the machines at a set-up: `case` as the cost case decides (the default), `harness` or `box`; for one machine `mill_1=box`; may be given several times',
    ).argParser(readWay),
    new Option(
      '--now <machine=part>',
      'part that a machine is set up for when the week begins; may be given several times',
    ).argParser(readNow),
    new Option('--robot-stands', 'the robot stands while a machine is set up'),
    numberOption(
      '--hours-pct <number>',
      'share of the hours of machines and robot to count on; default 100',
      {
        words: 'per cent',
        min: 0,
        aboveMin: true,
        max: 100,
      },
    ),
    numberOption(
      '--nodes <number>',
      `steps that the search for one goal may take; default ${DEFAULT_NODES}`,
      {
        words: 'steps',
        min: 1,
        max: 1e9,
        whole: true,
      },
    ),
    new Option('--out <folder>', 'write the plan as tables into this folder'),
  ],
  examples: ['jobs my-cell', 'jobs my-cell --pattern day --way box --now mill_1=cap'],
  run: (folder, values, io) => cellAnswer(folder!, io, (open) => jobsAnswer(open, values, io)),
};

function readWay(text: string, before: readonly Named[] = []): readonly Named[] {
  const [, name, value] = /^(?:(.+)=)?(case|harness|box)$/.exec(text) ?? [];
  if (value === undefined)
    throw new InvalidArgumentError(
      `found \`${text}\`, expected \`case\`, \`harness\` or \`box\`, or one of them for a machine, such as \`mill_1=box\``,
    );
  return [...before, { name: name ?? null, value }];
}

function readNow(text: string, before: readonly Named[] = []): readonly Named[] {
  const [, name, value] = /^([^=]+)=(.+)$/.exec(text) ?? [];
  if (name === undefined || value === undefined)
    throw new InvalidArgumentError(
      `found \`${text}\`, expected a machine and a part, such as \`mill_1=cap\``,
    );
  return [...before, { name, value }];
}

async function jobsAnswer(open: OpenCell, values: OptionValues, io: Io): Promise<Answer> {
  const { cell } = open;
  const lacking = jobsLacking(cell);
  if (lacking !== null)
    return {
      exit: EXIT.infeasible,
      fields: { status: 'nothing to plan', plans: [], best: null, recommendation: lacking },
      text: () => `There is nothing to plan: ${lacking}\n`,
      inputs: open.inputs,
      warnings: complaintLines(open.complaints),
    };
  const options = askedOptions(cell, values);
  const { ways, warnings } = waysOf(cell, values, io);
  const solve = await highsSolver();
  const result = withProgress(io, 'Planning the jobs', () => weeklyJobs(cell, { ...options, ways }, solve));
  return answerOf(open, result, warnings, values, io);
}

function askedOptions(cell: Cell, values: OptionValues): Omit<WeeklyJobOptions, 'ways'> {
  const pattern = values.pattern as string | undefined;
  if (pattern !== undefined) requireName(pattern, patternNames(cell.shifts), 'shift pattern of shifts.csv');
  const setUpFor: Record<string, string> = {};
  for (const { name, value } of namedOf(values, 'now')) {
    requireName(name!, machinesOf(cell), 'machine of stations.csv');
    const parts = cell.routes
      .filter((r) => r.steps.some((s) => s.stations.includes(name!)))
      .map((r) => r.part);
    requireName(value, parts, `part that a route makes on ${name}`);
    setUpFor[name!] = value;
  }
  const [hoursPct, nodes] = [numberOf(values, 'hoursPct'), numberOf(values, 'nodes')];
  return {
    ...(pattern === undefined ? {} : { pattern }),
    setUpFor,
    robotStands: values.robotStands === true,
    ...(hoursPct === undefined ? {} : { hoursPct }),
    ...(nodes === undefined ? {} : { nodes }),
  };
}

function namedOf(values: OptionValues, option: string): readonly Named[] {
  return (values[option] as readonly Named[] | undefined) ?? [];
}

function machinesOf(cell: Cell): string[] {
  return cell.stations.filter((s) => s.kind === 'machine').map((s) => s.name);
}

function requireName(name: string, known: readonly string[], what: string): void {
  if (known.includes(name)) return;
  const help = nameHelp(name, known, 'names');
  throw new UsageError(`\`${name}\` is no ${what}.${help === null ? '' : ` ${help}`}`);
}

/** The ways by the cost case; where there is none, no minutes of theirs are counted, and that is said. */
function waysOf(
  cell: Cell,
  values: OptionValues,
  io: Io,
): { readonly ways: Readonly<Record<string, WayMinutes>>; readonly warnings: readonly string[] } {
  const named = namedOf(values, 'way');
  for (const { name } of named)
    if (name !== null) requireName(name, machinesOf(cell), 'machine of stations.csv');
  if (named.length === 0 && cell.costs.length === 0) return { ways: {}, warnings: [] };
  const asked = Object.fromEntries(
    named.flatMap(({ name, value }) => (name === null ? [] : [[name, value as AskedWay]])),
  );
  const forAll = named.filter(({ name }) => name === null).at(-1)?.value as AskedWay | undefined;
  const { ways, lacking } = withProgress(io, 'Working out the cost case', () => {
    // The same search as `costcase` makes, so that both decide alike.
    const schedule = bestSchedule(cell, { improvements: false });
    return caseWays(cell, 'order' in schedule ? schedule : null, asked, forAll);
  });
  if (lacking === null) return { ways, warnings: [] };
  if (named.length > 0) throw new UsageError(`\`--way\` needs the minutes of the cost case. ${lacking}`);
  return { ways: {}, warnings: [leftOutWarning(lacking)] };
}

async function answerOf(
  open: OpenCell,
  result: WeeklyJobs,
  before: readonly string[],
  values: OptionValues,
  io: Io,
): Promise<Answer> {
  const { assumptions, warnings, ...fields } = result;
  const out = values.out as string | undefined;
  const paths = out === undefined ? [] : await writeFiles(resolve(io.cwd, out), jobFiles(result));
  const written = paths.map((path) => join(out!, basename(path)));
  return {
    exit: result.best === null ? EXIT.limitReached : EXIT.done,
    fields: { ...fields, ...(out === undefined ? {} : { written }) },
    text: (style) =>
      `${renderJobs(result, currencyOf(open.cell), style)}${written.length === 0 ? '' : `\nWritten: ${written.join(', ')}.\n`}`,
    inputs: open.inputs,
    assumptions,
    warnings: [...complaintLines(open.complaints), ...before, ...warnings],
  };
}
