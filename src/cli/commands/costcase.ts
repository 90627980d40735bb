/** `costcase`: boxes that stay on the machines against one harness that is moved. */
import { basename, resolve } from 'node:path';
import { InvalidArgumentError, Option } from 'commander';
import type { CostCaseOptions } from '../../core/cost/cost-case.js';
import { correlationFault, type RankCorrelation } from '../../core/cost/doubt/correlation.js';
import { drawnItems } from '../../core/cost/doubt/ranged-items.js';
import type { CostCaseOutcome } from '../../core/cost/result.js';
import { runStudy, studies } from '../../core/studies/studies.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { renderCostCase, renderTooLittle } from '../../render/cost-case.js';
import { COST_CASE_FILES, costCaseFiles } from '../../render/cost-document/cost-case-files.js';
import { COST_CASE_BOOK, costCaseBook } from '../../render/cost-workbook/cost-case-book.js';
import { paragraph } from '../../render/paragraph.js';
import { nearestName } from '../../tables/nearest-name.js';
import { readInRange } from '../../tables/number-column.js';
import { type CellAnswer, cellAnswer, type OpenCell } from '../cell-answer.js';
import { type CommandBody, numberOf, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import { numberOption, seedOption } from '../option-values.js';
import { writeRun } from '../outputs.js';
import { patternOf } from '../pattern-option.js';
import { withProgress } from '../progress.js';
import { searched, withSchedule } from '../schedule-outcome.js';
import { UsageError } from '../usage-error.js';
import { PROGRAM, programVersion } from '../version.js';
import { complaintFields } from '../wrong-input.js';

export const costcaseCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
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
    seedOption('seed of the trials: the same seed gives the same figures; default 1'),
    new Option(
      '--pattern <name>',
      'shift pattern in which an hour of downtime is priced on the floor; default: the first of shifts.csv',
    ),
    correlateOption(),
    new Option(
      '--out <folder>',
      'write the case as a document into this folder: cost-case.html, which opens and prints without a network, cost-case.md, and cost-case.xlsx with every figure as a live formula; with a name that ends in .xlsx or .ods, the workbook alone',
    ),
  ],
  writes: { option: 'out', kind: 'folder', names: [...COST_CASE_FILES, COST_CASE_BOOK] },
  examples: [
    'costcase my-cell',
    'costcase my-cell --changeovers 400',
    'costcase my-cell --out my-case --locale de-DE',
  ],
  run: (folder, values, io) => {
    return cellAnswer(folder!, io, (open) => {
      const outcome = searched(open.cell, io);
      checkCorrelations(open, values);
      const pattern = patternOf(open.cell, values.pattern as string | undefined);
      return withSchedule(outcome, open, async (schedule) => {
        const inputs = { cell: open.cell, schedule };
        const options = { ...caseOptions(values), ...(pattern === null ? {} : { pattern }) };
        const result = await withProgress(io, 'Working out the cost case', () =>
          runStudy('costcase', inputs, options, ON_THIS_THREAD),
        );
        return documented(open, result, schedule.warnings, { io, folder: folder!, values });
      });
    });
  },
};

function correlateOption(): Option {
  return new Option(
    '--correlate <item,item=number>',
    'two cost items that move together in the risk trials, with their rank correlation from -1 to 1, such as `box_price,cable_set_price=0.6`; may be given several times',
  ).argParser((text: string, before: readonly RankCorrelation[] = []) => {
    const [, a, b, number] = /^([^,=]+),([^,=]+)=(.+)$/.exec(text) ?? [];
    const rank = readInRange(
      number ?? '',
      { decimalComma: false },
      { words: 'correlation', min: -1, max: 1 },
    );
    if (a === undefined || b === undefined || !rank.ok)
      throw new InvalidArgumentError(
        `found \`${text}\`, expected two items and a number from -1 to 1, such as \`box_price,cable_set_price=0.6\``,
      );
    return [...before, { a: a.trim(), b: b.trim(), rank: rank.value }];
  });
}

/** Only items that are drawn can move together; which ones these are, the tables say. */
function checkCorrelations({ cell }: OpenCell, values: OptionValues): void {
  const correlations = correlationsOf(values);
  if (correlations.length === 0) return;
  const items = drawnItems(cell.costs, numberOf(values, 'changeovers') !== undefined).map(({ item }) => item);
  const fault = correlationFault(items, correlations);
  if (fault === null) return;
  const strange = correlations.flatMap(({ a, b }) => [a, b]).find((item) => !items.includes(item));
  const near = strange === undefined ? null : nearestName(strange, items);
  throw new UsageError(`\`--correlate\`: ${fault}.${near === null ? '' : ` Did you mean \`${near}\`?`}`);
}

function correlationsOf(values: OptionValues): readonly RankCorrelation[] {
  return (values.correlate as readonly RankCorrelation[] | undefined) ?? [];
}

interface Asked {
  readonly io: Io;
  readonly folder: string;
  readonly values: OptionValues;
}

/** The answer, and with `--out` its document on disk. Where there is no case, nothing is written. */
async function documented(
  open: OpenCell,
  result: CostCaseOutcome,
  before: readonly string[],
  { io, folder, values }: Asked,
): Promise<CellAnswer> {
  const answer = answerOf(open, result, before);
  const out = values.out as string | undefined;
  if (out === undefined) return answer;
  if (result.status !== 'found')
    return {
      ...answer,
      text: (style) =>
        `${answer.text(style)}${answer.exit === EXIT.done ? 'No document was written, since there is no case to show.\n' : ''}`,
    };
  const cell = basename(resolve(io.cwd, folder));
  const files = costCaseFiles(result, {
    cell,
    locale: (values.locale as string | undefined) ?? 'en',
    files: open.inputs,
    program: `${PROGRAM} ${programVersion()}`,
    warnings: [...complaintLines(open.complaints), ...before],
    assumptions: open.notes,
  });
  const book = { name: COST_CASE_BOOK, content: costCaseBook(result, cell) };
  const written = await writeRun({ command: 'costcase', out, files, book }, io);
  return {
    ...answer,
    fields: { ...answer.fields, written },
    text: (style) =>
      `${answer.text(style)}\n${paragraph(`Written: ${written.join(', ')}.`, style.columns)}\n`,
  };
}

function caseOptions(values: OptionValues): CostCaseOptions {
  const numbers = numbersOf(values, { changeovers: 'changeovers', trials: 'trials', seed: 'seed' });
  return { ...numbers, correlations: correlationsOf(values) };
}

/** `too little data` is an answer: it says what to find out first. */
function answerOf(open: OpenCell, result: CostCaseOutcome, before: readonly string[]): CellAnswer {
  if (result.status === 'wrong') {
    const { status, complaints, missing, recommendation } = result;
    return {
      exit: EXIT.wrongInput,
      fields: { status, complaints: complaintFields(complaints), missing, recommendation },
      text: () => '',
      complaints: [...open.complaints, ...complaints],
      warnings: [...complaintLines(open.complaints), ...before],
    };
  }
  const hasCosts = open.tables.includes('costs.csv');
  if (result.status === 'too little data')
    return {
      exit: EXIT.done,
      fields: { ...result },
      text: (style) => `${hasCosts ? '' : 'The folder has no costs.csv. '}${renderTooLittle(result, style)}`,
      warnings: before,
    };
  const { assumptions, warnings } = result;
  return {
    exit: EXIT.done,
    fields: studies.costcase.fields(result),
    text: (style) => renderCostCase(result, style),
    assumptions,
    warnings: [...before, ...warnings],
  };
}
