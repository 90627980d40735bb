/** `compare`: two or more cells, or dispatch rules, side by side. */

import { InvalidArgumentError, Option } from 'commander';
import type { ComparedVariant, CompareOptions } from '../../core/compare/compare-cells.js';
import type { CellComparison } from '../../core/compare/comparison.js';
import { PROGRAMS } from '../../core/floor/robot.js';
import { sharedCurrency } from '../../core/model/cost-value.js';
import type { ProgramChoice } from '../../core/shifts/best-program.js';
import { cellsStudies } from '../../core/studies/cells-studies.js';
import { renderComparison } from '../../render/comparison.js';
import { comparisonPage } from '../../render/comparison-page.js';
import { sentence } from '../../render/first-letter.js';
import { COMPARISON_TABLES, comparisonTables } from '../../render/result-tables/comparison-tables.js';
import { nameHelp } from '../../tables/nearest-name.js';
import type { Answer } from '../answer.js';
import { type CommandBody, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { onPool } from '../on-pool.js';
import { replicationsOption, runHoursOption, seedOption, workersOption } from '../option-values.js';
import {
  changesOf,
  checkTwice,
  csvFormIn,
  folderNotes,
  inputsOf,
  type ReadFolder,
  readFolders,
  tableWarnings,
  wrongAnswer,
} from '../read-folders.js';
import { UsageError } from '../usage-error.js';

type Rule = ProgramChoice;

export const compareCommand: CommandBody = {
  argument: 'folders of the cells to compare; one is enough with several rules of --dispatch',
  options: () => [
    new Option(
      '--dispatch <rules>',
      `robot program: ${PROGRAMS.join(', ')}; several with commas between are compared too; default: for each cell the one that earns most`,
    ).argParser(readRules),
    new Option('--pattern <name>', 'shift pattern to simulate; default: the first that all cells have'),
    replicationsOption('runs of each cell; default 20'),
    runHoursOption(),
    seedOption(),
    workersOption(),
  ],
  tables: COMPARISON_TABLES,
  page: true,
  examples: ['compare my-cell --dispatch first,nearest --replications 5'],
  run: async (_first, values, io) => {
    const folders = values.folders as readonly string[];
    const rules = (values.dispatch ?? ['best']) as readonly Rule[];
    checkUse(folders, rules);
    const read = await readFolders(folders, io);
    return wrongAnswer(read) ?? compareAnswer(read, rules, values, io);
  },
};

function readRules(text: string): readonly Rule[] {
  return text.split(',').map((given) => {
    const rule = PROGRAMS.find((r) => r === given.trim());
    if (rule) return rule;
    throw new InvalidArgumentError(
      `found \`${given}\`, expected ${PROGRAMS.join(', ')}. ${nameHelp(given, PROGRAMS, 'rules') ?? ''}`,
    );
  });
}

function checkUse(folders: readonly string[], rules: readonly Rule[]): void {
  if (folders.length * rules.length < 2)
    throw new UsageError(
      'A comparison needs two folders or more, or one folder and several rules such as `--dispatch first,nearest`.',
    );
  checkTwice([...folders, ...rules]);
}

async function compareAnswer(
  read: readonly ReadFolder[],
  rules: readonly Rule[],
  values: OptionValues,
  io: Io,
): Promise<Answer> {
  const variants: ComparedVariant[] = read.flatMap(({ name, cell }) =>
    rules.map((dispatch) => ({
      name: rules.length === 1 ? name : read.length === 1 ? dispatch : `${name}, ${dispatch}`,
      cell: cell!,
      dispatch,
    })),
  );
  const result = await onPool(values, async (run) => {
    try {
      return await cellsStudies.compare.run(variants, compareOptions(values), run);
    } catch (error) {
      if (error instanceof RangeError && /pattern/.test(error.message))
        throw new UsageError(sentence(error.message));
      throw error;
    }
  });
  return answerOf(read, result, io);
}

function compareOptions(values: OptionValues): CompareOptions {
  const numbers = numbersOf(values, { replications: 'replications', hours: 'hours', seed: 'seed' });
  const pattern = values.pattern as string | undefined;
  return { ...numbers, ...(pattern === undefined ? {} : { pattern }) };
}

function answerOf(read: readonly ReadFolder[], result: CellComparison, io: Io): Answer {
  const changes = changesOf(read, io.settings ?? []);
  const { cells, ...fields } = cellsStudies.compare.fields(result);
  const found = result.cells.filter((c) => 'order' in c.schedule).length;
  const currency = sharedCurrency(read.map(({ cell }) => cell!)) ?? '';
  return {
    exit: found === 0 ? EXIT.infeasible : EXIT.done,
    fields: { cells, changes, ...fields },
    text: (style) => renderComparison(result, changes, currency, style),
    tables: () => ({
      sentences: [result.recommendation],
      tables: comparisonTables(result, changes),
      form: csvFormIn(read),
      currency,
      page: comparisonPage(result, changes, currency),
    }),
    inputs: inputsOf(read),
    assumptions: [...folderNotes(read), ...result.assumptions],
    warnings: [...tableWarnings(read), ...result.warnings],
  };
}
