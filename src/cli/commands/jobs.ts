/** `jobs`: the week's jobs on machines and shifts, with the set-ups between them, so that due days are met. */

import { InvalidArgumentError, Option } from 'commander';
import { patternNames } from '../../core/calendar/week-calendar.js';
import type { WayMinutes } from '../../core/cost/way-minutes.js';
import { leftOutWarning, nothingToPlan } from '../../core/jobs/case-ways.js';
import { DEFAULT_JOB_NODES } from '../../core/jobs/plan-jobs.js';
import type { WeeklyJobOptions, WeeklyJobs } from '../../core/jobs/weekly-jobs.js';
import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import { runStudy, studies } from '../../core/studies/studies.js';
import { bestJobPlan } from '../../render/job-plan-text.js';
import { lateTexts, renderJobs } from '../../render/jobs.js';
import { JOB_TABLES, jobTables } from '../../render/result-tables/job-tables.js';
import { quantities } from '../../tables/quantities.js';
import { askedWays, machinesOf, type NamedValue, namedOf, requireName, wayOption } from '../asked-ways.js';
import { type CellAnswer, cellAnswer, type OpenCell } from '../cell-answer.js';
import { type CommandBody, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import { numberOption, timeLimitOption } from '../option-values.js';
import { withProgress } from '../progress.js';

export const jobsCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell, with jobs.csv and shifts.csv',
  options: () => [
    new Option('--pattern <name>', 'plan this shift pattern only'),
    wayOption('`case` as the cost case decides (the default), `harness` or `box`'),
    new Option(
      '--now <machine=part>',
      'part that a machine is set up for when the week begins; may be given several times',
    ).argParser(readNow),
    new Option('--robot-stands', 'the robot is stopped while a machine is set up'),
    numberOption(
      '--hours-pct <number>',
      'share of the hours of machines and robot to count on; default 100',
      quantities.perCentAbove0,
    ),
    timeLimitOption(),
    numberOption(
      '--nodes <number>',
      `steps that the search for one goal may take; default ${DEFAULT_JOB_NODES}`,
      { words: 'steps', min: 1, max: 1e9, whole: true },
    ),
  ],
  tables: JOB_TABLES,
  examples: ['jobs my-cell', 'jobs my-cell --pattern day --connection box --now mill_1=cap'],
  run: (folder, values, io) => cellAnswer(folder!, io, (open) => jobsAnswer(open, values, io)),
};

function readNow(text: string, before: readonly NamedValue[] = []): readonly NamedValue[] {
  const [, name, value] = /^([^=]+)=(.+)$/.exec(text) ?? [];
  if (name === undefined || value === undefined)
    throw new InvalidArgumentError(
      `found \`${text}\`, expected a machine and a part, such as \`mill_1=cap\``,
    );
  return [...before, { name, value }];
}

async function jobsAnswer(open: OpenCell, values: OptionValues, io: Io): Promise<CellAnswer> {
  const { cell } = open;
  const nothing = nothingToPlan(cell, open.tables);
  if (nothing !== null)
    return {
      exit: EXIT.infeasible,
      fields: { ...nothing },
      text: () => `There is nothing to plan: ${nothing.recommendation}\n`,
    };
  const startMs = Date.now();
  const asked = askedOptions(cell, values);
  const { ways, warnings } = waysOf(cell, values, io);
  // The user's limit holds for all of it: what the cost case took is gone.
  const goneS = (Date.now() - startMs) / 1000;
  const options =
    asked.timeLimitS === undefined ? asked : { ...asked, timeLimitS: Math.max(0, asked.timeLimitS - goneS) };
  const result = await withProgress(io, 'Planning the jobs', () =>
    runStudy('jobs', { cell, schedule: null }, { ...options, ways }, ON_THIS_THREAD),
  );
  return answerOf(open, result, warnings);
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
  return {
    ...(pattern === undefined ? {} : { pattern }),
    setUpFor,
    robotStands: values.robotStands === true,
    ...numbersOf(values, { hoursPct: 'hoursPct', nodes: 'nodes', timeLimitS: 'timeLimit' }),
  };
}

/** The ways by the cost case; where there is none, no minutes of theirs are counted, and that is said. */
function waysOf(
  cell: Cell,
  values: OptionValues,
  io: Io,
): { readonly ways: Readonly<Record<string, WayMinutes>>; readonly warnings: readonly string[] } {
  const named = namedOf(values, 'connection');
  if (named.length === 0 && cell.costs.length === 0) return { ways: {}, warnings: [] };
  const { ways, lacking } = askedWays(cell, named, 'case', io);
  return { ways, warnings: lacking === null ? [] : [leftOutWarning(lacking)] };
}

function answerOf(open: OpenCell, result: WeeklyJobs, before: readonly string[]): CellAnswer {
  const { assumptions, warnings } = result;
  const currency = currencyOf(open.cell);
  const plan = bestJobPlan(result);
  return {
    exit: result.timeUp ? EXIT.limitReached : EXIT.done,
    bestSoFar: result.timeUp,
    fields: studies.jobs.fields(result),
    text: (style) => renderJobs(result, currency, style),
    tables: () => ({
      sentences: [result.recommendation, ...(plan === null ? [] : lateTexts(plan))],
      tables: jobTables(result),
    }),
    assumptions,
    warnings: [...before, ...warnings],
  };
}
