/** `size`: how many machines the robot can tend, from a folder or from a few figures alone. */

import { Option } from 'commander';
import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import { PLAIN_CSV } from '../../core/model/csv-form.js';
import { type IdenticalMachines, identicalCell } from '../../core/size/identical-machines.js';
import type { RowSimulation, SizeStudy } from '../../core/size/size-study.js';
import { MOST_BY_FIGURES, runStudy, type SizeStudyOptions, studies } from '../../core/studies/studies.js';
import { SIZE_TABLES, sizeTables } from '../../render/result-tables/size-tables.js';
import { renderSize, sizeSentences } from '../../render/size.js';
import type { TextStyle } from '../../render/text-style.js';
import { quantities } from '../../tables/quantities.js';
import type { Answer } from '../answer.js';
import { cellAnswer, withHands } from '../cell-answer.js';
import { type CommandBody, numberOf, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { onPool } from '../on-pool.js';
import {
  handsOption,
  numberOption,
  replicationsOption,
  runHoursOption,
  seedOption,
  workersOption,
} from '../option-values.js';
import { liveProgress } from '../progress.js';
import { UsageError } from '../usage-error.js';

/** Options that describe one machine and the robot where there is no folder: option, field, needed. */
const FIGURES = [
  ['cycle', 'cycleS', true],
  ['load', 'loadS', true],
  ['unload', 'unloadS', true],
  ['travel', 'travelS', true],
  ['ready', 'readyS', false],
  ['close', 'closeS', false],
  ['index', 'indexS', false],
  ['robotCost', 'robotCostPerH', false],
  ['machineCost', 'machineCostPerH', false],
  ['labour', 'labourPerH', false],
  ['contribution', 'contributionPerPart', false],
  ['mtbf', 'mtbfH', false],
  ['mttr', 'mttrMin', false],
  ['cycleSd', 'cycleSdS', false],
] as const;

/** Simulated hours of a row up to which no threads are started unasked. */
const LIGHT_HOURS = 2500;

export const sizeCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell; without it the figures are given as options',
  options: () => [
    numberOption(
      '--max <number>',
      `most machines to try; ${MOST_BY_FIGURES} where nothing is said and there is no folder`,
      { words: 'machines', min: 1, max: 100, whole: true },
    ),
    numberOption(
      '--max-wait-pct <percent>',
      'highest acceptable waiting for the robot; default 5',
      quantities.perCent,
    ),
    ...figureOptions(),
    handsOption(),
    ...simulationOptions(),
  ],
  tables: SIZE_TABLES,
  examples: [
    'size my-cell',
    'size --cycle 240 --load 12 --unload 10 --travel 4 --max 8',
    'size --cycle 240 --load 12 --unload 10 --travel 4 --max 12 --mtbf 20 --mttr 15 --cycle-sd 10',
  ],
  run: async (folder, values, io) => {
    if (folder === undefined) return sizeByFigures(values, io);
    const surplus = FIGURES.filter(([name]) => numberOf(values, name) !== undefined);
    if (surplus.length > 0)
      throw new UsageError(
        `The figure ${surplus.map(([name]) => `\`${flagOf(name)}\``).join(', ')} cannot be given together with a folder, whose tables hold it.`,
      );
    return sizeFolder(folder, values, io);
  },
};

function figureOptions(): Option[] {
  const { seconds } = quantities;
  const money = { words: 'money', min: 0, max: 1e9 };
  return [
    numberOption('--cycle <seconds>', 'without a folder: automatic time of one machine', {
      words: 'seconds',
      min: seconds.least,
      max: seconds.max,
    }),
    numberOption('--load <seconds>', 'without a folder: robot time to place a part', seconds),
    numberOption('--unload <seconds>', 'without a folder: robot time to take a part out', seconds),
    numberOption('--travel <seconds>', 'without a folder: robot time between any two places', seconds),
    numberOption('--ready <seconds>', 'without a folder: machine time before the robot may enter', seconds),
    numberOption('--close <seconds>', 'without a folder: machine time after the robot has left', seconds),
    numberOption('--index <seconds>', 'without a folder: time to turn a two-handed gripper', seconds),
    numberOption('--robot-cost <money>', 'without a folder: running cost of the robot an hour', money),
    numberOption('--machine-cost <money>', 'without a folder: running cost of one machine an hour', money),
    numberOption('--labour <money>', 'without a folder: people for the whole cell an hour', money),
    numberOption('--contribution <money>', 'without a folder: contribution of one more part', {
      words: 'money',
      min: -1e9,
      max: 1e9,
    }),
    numberOption(
      '--mtbf <hours>',
      'without a folder: processing hours between random stops of a machine',
      quantities.hoursBetween,
    ),
    numberOption('--mttr <minutes>', 'without a folder: minutes to clear a random stop', quantities.minutes),
    numberOption(
      '--cycle-sd <seconds>',
      'without a folder: standard deviation of the automatic time',
      seconds,
    ),
  ];
}

function simulationOptions(): Option[] {
  return [
    new Option('--no-simulation', 'leave out the simulation of each row with its downtime and variation'),
    replicationsOption('runs of each row; default 20'),
    runHoursOption(),
    seedOption(),
    workersOption('threads to run on; default: all cores where there is much to simulate'),
  ];
}

function flagOf(name: string): string {
  return `--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
}

async function sizeByFigures(values: OptionValues, io: Io): Promise<Answer> {
  const lacking = FIGURES.filter(([name, , needed]) => needed && numberOf(values, name) === undefined);
  if (lacking.length > 0)
    throw new UsageError(
      `Without a folder, ${lacking.map(([name]) => `\`${flagOf(name)}\``).join(', ')} ${lacking.length === 1 ? 'is' : 'are'} needed too. An example: \`roundsman ${sizeCommand.examples[1]}\`.`,
    );
  if ((numberOf(values, 'mtbf') === undefined) !== (numberOf(values, 'mttr') === undefined))
    throw new UsageError(
      '`--mtbf` and `--mttr` belong together: how often a machine stops, and how long it takes to clear.',
    );
  const given = numbersOf(values, Object.fromEntries(FIGURES.map(([name, field]) => [field, name])));
  const hands = numberOf(values, 'hands') === 2 ? 2 : 1;
  const figures = { ...given, hands } as IdenticalMachines;
  const most = numberOf(values, 'max') ?? MOST_BY_FIGURES;
  const result = await study(identicalCell(figures, most), { figures }, values, io);
  const { tables, ...answer } = answerOf(result, '', []);
  return { ...answer, inputs: [], tables: () => ({ ...tables(), form: PLAIN_CSV, currency: '' }) };
}

function sizeFolder(folder: string, values: OptionValues, io: Io): Promise<Answer> {
  return cellAnswer(folder, io, async (open) => {
    const { cell, assumptions } = withHands(open.cell, numberOf(values, 'hands'));
    const result = await study(cell, {}, values, io);
    return answerOf(result, currencyOf(cell), assumptions);
  });
}

function study(
  cell: Cell,
  options: Partial<SizeStudyOptions>,
  values: OptionValues,
  io: Io,
): Promise<SizeStudy> {
  const progress = liveProgress(io);
  progress.show('Adding machines …');
  const asked = {
    ...options,
    ...numbersOf(values, { maxWaitPct: 'maxWaitPct', maxMachines: 'max' }),
    simulation: rowSimulation(values),
  };
  const threads = numberOf(values, 'workers') ?? (isLight(values) ? 1 : undefined);
  const where = threads === undefined ? values : { ...values, workers: threads };
  return onPool(where, (context) =>
    runStudy('size', { cell, schedule: null }, asked, {
      ...context,
      onProgress: (done, of) => progress.show(`Sizing: ${done} of at most ${of} steps`),
    }),
  ).finally(progress.end);
}

/** So few runs that threads would take longer to start than the work takes. */
function isLight(values: OptionValues): boolean {
  return (numberOf(values, 'replications') ?? 20) * (numberOf(values, 'hours') ?? 40) <= LIGHT_HOURS;
}

/** null where the simulation is to be left out. */
function rowSimulation(values: OptionValues): RowSimulation | null {
  if (values.simulation === false) return null;
  return numbersOf(values, { seed: 'seed', replications: 'replications', hours: 'hours' });
}

function answerOf(result: SizeStudy, currency: string, before: readonly string[]) {
  const { assumptions, warnings } = result;
  return {
    exit: result.recommended === null ? EXIT.infeasible : EXIT.done,
    fields: studies.size.fields(result),
    text: (style: TextStyle) => renderSize(result, currency, style),
    tables: () => ({ sentences: sizeSentences(result), tables: sizeTables(result) }),
    assumptions: [...before, ...assumptions],
    warnings,
  };
}
