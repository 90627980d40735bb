/** `invest`: cells against each other as investments; the first is what is there. */

import { Option } from 'commander';
import { patternNames } from '../../core/calendar/week-calendar.js';
import type { CaseInputs } from '../../core/cost/case-inputs.js';
import { discountWords } from '../../core/cost/discount-rate.js';
import { investmentTerms } from '../../core/cost/invest/investments.js';
import { readCase } from '../../core/cost/read-case.js';
import type { Cell } from '../../core/model/cell.js';
import { costNumber, currencyOf } from '../../core/model/cost-value.js';
import { listText } from '../../core/model/list-text.js';
import { cellsStudies } from '../../core/studies/cells-studies.js';
import { investmentAnswer, renderInvestments } from '../../render/invest.js';
import { investmentPage } from '../../render/investment-page.js';
import { paragraph } from '../../render/paragraph.js';
import { INVESTMENT_TABLES, investmentTables } from '../../render/result-tables/investment-tables.js';
import type { Answer } from '../answer.js';
import { type CommandBody, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { onPool } from '../on-pool.js';
import { replicationsOption, seedOption, workersOption } from '../option-values.js';
import {
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

const NEEDED = ['horizon_years', 'discount_pct'] as const;

export const investCommand: CommandBody = {
  argument:
    'folders of cells: first the one that is there, then those that could be bought; price and life are in their costs.csv (invest_price, invest_life_years, invest_yearly_cost, invest_salvage)',
  options: () => [
    new Option('--pattern <name>', 'shift pattern of all cells; default: the first of each cell'),
    replicationsOption('runs of each cell; default 20'),
    seedOption(),
    workersOption(),
  ],
  tables: INVESTMENT_TABLES,
  page: true,
  examples: ['invest my-cell my-cell-dual --replications 5'],
  run: async (_first, values, io) => {
    const folders = values.folders as readonly string[];
    if (folders.length < 2)
      throw new UsageError(
        'Give two folders or more: first the cell that is there, then what could be bought.',
      );
    checkTwice(folders);
    const read = await readFolders(folders, io);
    return wrongAnswer(read) ?? investAnswer(read, values);
  },
};

async function investAnswer(read: readonly ReadFolder[], values: OptionValues): Promise<Answer> {
  const cells = read.map(({ cell }) => cell!);
  const common = { inputs: inputsOf(read), warnings: tableWarnings(read) };
  const missing = missingOf(read, cells);
  if (missing.length > 0)
    return {
      ...common,
      exit: EXIT.done,
      fields: { status: 'too little data', missing },
      text: (style) =>
        `${paragraph(`Too little data to say. Missing: ${missing.join('; ')}.`, style.columns)}\n`,
    };
  const asked = values.pattern as string | undefined;
  const patterns = cells.map((cell) => asked ?? patternNames(cell.shifts)[0]!);
  const strange = cells.findIndex((cell, k) => !patternNames(cell.shifts).includes(patterns[k]!));
  if (strange !== -1)
    throw new UsageError(`No shift pattern \`${patterns[strange]}\` in ${read[strange]!.folder}/shifts.csv.`);
  const outcome = await onPool(values, (context) =>
    cellsStudies.invest.run(
      read.map(({ name }, k) => ({ name, cell: cells[k]!, pattern: patterns[k]! })),
      numbersOf(values, { replications: 'replications', seed: 'seed' }),
      context,
    ),
  );
  if (outcome.status === 'infeasible') {
    const { cell } = outcome;
    return {
      ...common,
      exit: EXIT.infeasible,
      fields: cellsStudies.invest.fields(outcome),
      text: (style) =>
        `${paragraph(`No feasible repeating sequence for ${cell}. Run \`schedule\` on it for the reason.`, style.columns)}\n`,
    };
  }
  const { investments: result } = outcome;
  const currency = currencyOf(cells[0]!);
  const inputs = readCase(cells[0]!, null, null);
  const terms = investmentTerms(inputs);
  const facts = {
    currency,
    years: terms.horizonYears,
    discountPct: Number((100 * terms.discount).toFixed(2)),
    pattern: [...new Set(patterns)].join(', '),
    afterTax: terms.tax > 0,
    programs: outcome.programs,
  };
  return {
    ...common,
    exit: EXIT.done,
    fields: {
      ...cellsStudies.invest.fields(outcome),
      pattern: facts.pattern,
      horizonYears: facts.years,
      discountPct: facts.discountPct,
    },
    text: (style) => renderInvestments(result, facts, style),
    tables: () => ({
      sentences: investmentAnswer(result, facts),
      tables: investmentTables(result),
      page: investmentPage(result, facts),
      form: csvFormIn(read),
      currency,
    }),
    assumptions: [...folderNotes(read), ...assumptionsOf(inputs, outcome)],
    warnings: [...common.warnings, ...outcome.warnings],
  };
}

function missingOf(read: readonly ReadFolder[], cells: readonly Cell[]): string[] {
  const terms = NEEDED.filter((item) => costNumber(cells[0]!.costs, item) === null).map(
    (item) => `${item} in ${read[0]!.folder}/costs.csv`,
  );
  const currencies = [...new Set(cells.map(currencyOf))];
  return [
    ...(currencies.length === 1
      ? []
      : [`one currency in every costs.csv, found ${listText(currencies.map((name) => name || 'none'))}`]),
    ...terms,
    ...cells.flatMap((cell, k) => [
      ...(cell.shifts.length === 0 ? [`shifts in ${read[k]!.folder}/shifts.csv`] : []),
      ...(cell.parts.some((part) => (part.contribution ?? 0) > 0)
        ? []
        : [`contribution in ${read[k]!.folder}/parts.csv`]),
      ...(k > 0 && costNumber(cell.costs, 'invest_price') === null
        ? [`invest_price in ${read[k]!.folder}/costs.csv`]
        : []),
    ]),
  ];
}

function assumptionsOf(inputs: CaseInputs, { replications, seed }: { replications: number; seed: number }) {
  const { weeksPerYear, horizonYears } = investmentTerms(inputs);
  return [
    `Parts a week: mean of ${replications} runs (seed ${seed}) of each cell in its own pattern under its own best robot program, with downtime and variation, all on the same random numbers.`,
    `A year has ${weeksPerYear} such weeks; discount rate, tax, price rise and horizon are those of the first cell.`,
    discountWords(inputs),
    `What is worn out before ${horizonYears} years is bought again at the same price; what is left of a life then counts at its share of the price.`,
    'How sure: the 95% interval of the simulated difference in good parts a week to the first cell, carried into money. Not clear: this interval, or all that a better robot sequence could add to the cell that earns less, turns the sign.',
  ];
}
