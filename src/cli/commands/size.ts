/** `size`: how many machines the robot can tend, from a folder or from a few figures alone. */
import type { Option } from 'commander';
import type { IdenticalMachines } from '../../core/size/identical-machines.js';
import { type SizeOptions, type SizeResult, sizeCell } from '../../core/size/size-cell.js';
import { sizeSearch } from '../../core/size/size-search.js';
import { renderSize } from '../../render/size.js';
import type { Answer } from '../answer.js';
import { cellAnswer, complaintLines, withHands } from '../cell-answer.js';
import { type CommandSpec, numberOf, type OptionValues } from '../command-spec.js';
import { currencyOf } from '../currency.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { handsOption, numberOption } from '../option-values.js';
import { withProgress } from '../progress.js';
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
] as const;

export const sizeCommand: CommandSpec = {
  name: 'size',
  usage: '[folder]',
  argument: 'folder that holds the tables of the cell; without it the figures are given as options',
  summary: 'find how many machines the robot can tend, machine by machine',
  options: () => [
    numberOption('--max <number>', 'most machines to try; 8 where nothing is said and there is no folder', {
      words: 'machines',
      min: 1,
      max: 100,
      whole: true,
    }),
    numberOption('--max-wait-pct <percent>', 'waiting for the robot that is still taken as fair; default 5', {
      words: 'per cent',
      min: 0,
      max: 100,
    }),
    ...figureOptions(),
    handsOption(),
  ],
  examples: ['size my-cell', 'size --cycle 240 --load 12 --unload 10 --travel 4 --max 8'],
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
  const seconds = { words: 'seconds', min: 0, max: 1e6 };
  const money = { words: 'money', min: 0, max: 1e9 };
  return [
    numberOption('--cycle <seconds>', 'without a folder: automatic time of one machine', {
      ...seconds,
      aboveMin: true,
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
    numberOption('--contribution <money>', 'without a folder: what one more part brings', {
      words: 'money',
      min: -1e9,
      max: 1e9,
    }),
  ];
}

function flagOf(name: string): string {
  return `--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
}

function sizeByFigures(values: OptionValues, io: Io): Answer {
  const lacking = FIGURES.filter(([name, , needed]) => needed && numberOf(values, name) === undefined);
  if (lacking.length > 0)
    throw new UsageError(
      `Without a folder, ${lacking.map(([name]) => `\`${flagOf(name)}\``).join(', ')} ${lacking.length === 1 ? 'is' : 'are'} needed too. An example: \`roundsman ${sizeCommand.examples[1]}\`.`,
    );
  const given = FIGURES.flatMap(([name, field]) => {
    const value = numberOf(values, name);
    return value === undefined ? [] : [[field, value] as const];
  });
  const hands = numberOf(values, 'hands') === 2 ? 2 : 1;
  const identical = { ...Object.fromEntries(given), hands } as unknown as IdenticalMachines;
  const options = { identical, maxMachines: numberOf(values, 'max') ?? 8, ...waitOption(values) };
  const result = withProgress(io, 'Adding machines', () => sizeCell(options, sizeSearch(null)));
  return answerOf(result, '', { inputs: [], assumptions: [], warnings: [] });
}

function sizeFolder(folder: string, values: OptionValues, io: Io): Promise<Answer> {
  return cellAnswer(folder, io, (open) => {
    const { cell, assumptions } = withHands(open.cell, numberOf(values, 'hands'));
    const most = numberOf(values, 'max');
    const options: SizeOptions = {
      cell,
      order: 'best',
      ...waitOption(values),
      ...(most === undefined ? {} : { maxMachines: most }),
    };
    const result = withProgress(io, 'Adding machines', () => sizeCell(options, sizeSearch(cell)));
    return answerOf(result, currencyOf(cell), {
      inputs: open.inputs,
      assumptions,
      warnings: complaintLines(open.complaints),
    });
  });
}

function waitOption(values: OptionValues): { maxWaitPct?: number } {
  const maxWaitPct = numberOf(values, 'maxWaitPct');
  return maxWaitPct === undefined ? {} : { maxWaitPct };
}

function answerOf(
  result: SizeResult,
  currency: string,
  before: Pick<Answer, 'inputs'> & { assumptions: readonly string[]; warnings: readonly string[] },
): Answer {
  const { assumptions, warnings, ...fields } = result;
  return {
    exit: result.recommended === null ? EXIT.infeasible : EXIT.done,
    fields,
    text: (style) => renderSize(result, currency, style),
    inputs: before.inputs,
    assumptions: [...before.assumptions, ...assumptions],
    warnings: [...before.warnings, ...warnings],
  };
}
