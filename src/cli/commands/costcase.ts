/** `costcase`: boxes that stay on the machines against one harness that is moved. */
import { type CostCaseOptions, costCase } from '../../core/cost/cost-case.js';
import { lostContribution } from '../../core/cost/lost-contribution.js';
import { bestSchedule } from '../../core/schedule/best-schedule.js';
import { renderCostCase, renderTooLittle } from '../../render/cost-case.js';
import type { Answer } from '../answer.js';
import { cellAnswer, complaintFields, complaintLines, type OpenCell } from '../cell-answer.js';
import { type CommandSpec, numberOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { numberOption } from '../option-values.js';
import { withProgress } from '../progress.js';
import { withSchedule } from '../schedule-outcome.js';

export const costcaseCommand: CommandSpec = {
  name: 'costcase',
  usage: '<folder>',
  argument: 'folder that holds the tables of the cell',
  summary: 'weigh interface boxes that stay on the machines against moving one harness',
  options: () => [
    numberOption(
      '--changeovers <number>',
      'changeovers over the horizon and all machines, in the proportions of changeovers.csv',
      { words: 'changeovers', min: 0, max: 1e7 },
    ),
    numberOption('--trials <number>', 'trials of the risk estimate; default 10,000', {
      words: 'trials',
      min: 1,
      max: 1_000_000,
      whole: true,
    }),
    numberOption('--seed <number>', 'seed of the trials: the same seed gives the same figures; default 1', {
      words: 'seed',
      min: 0,
      max: 2 ** 31,
      whole: true,
    }),
  ],
  examples: ['costcase my-cell', 'costcase my-cell --changeovers 400'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, (open) => {
      const outcome = withProgress(io, 'Searching for the best sequence', () =>
        bestSchedule(open.cell, { improvements: false }),
      );
      return withSchedule(outcome, open, (schedule) =>
        withProgress(io, 'Working out the cost case', () =>
          answerOf(open, costCase(open.cell, lostContribution(open.cell, schedule), caseOptions(values)), [
            ...schedule.warnings,
          ]),
        ),
      );
    }),
};

function caseOptions(values: OptionValues): CostCaseOptions {
  const changeovers = numberOf(values, 'changeovers');
  const trials = numberOf(values, 'trials');
  const seed = numberOf(values, 'seed');
  return {
    ...(changeovers === undefined ? {} : { changeovers }),
    ...(trials === undefined ? {} : { trials }),
    ...(seed === undefined ? {} : { seed }),
  };
}

/** `too little data` is an answer: it says what to find out first. */
function answerOf(open: OpenCell, result: ReturnType<typeof costCase>, before: readonly string[]): Answer {
  const warnings = [...complaintLines(open.complaints), ...before];
  const common = { inputs: open.inputs, warnings };
  if (result.status === 'wrong') {
    const { status, complaints, missing, recommendation } = result;
    return {
      ...common,
      exit: EXIT.wrongInput,
      fields: { status, complaints: complaintFields(complaints), missing, recommendation },
      text: () => '',
      complaints: [...open.complaints, ...complaints],
    };
  }
  if (result.status === 'too little data')
    return {
      ...common,
      exit: EXIT.done,
      fields: { ...result },
      text: (style) => renderTooLittle(result, style),
    };
  const { assumptions, warnings: remarks, ...fields } = result;
  return {
    ...common,
    exit: EXIT.done,
    fields,
    text: (style) => renderCostCase(result, style),
    assumptions,
    warnings: [...warnings, ...remarks],
  };
}
