/** `invest`: cells against each other as investments; the first is what is there. */
import { Option } from 'commander';
import { patternNames } from '../../core/calendar/week-calendar.js';
import { YEAR_WEEKS } from '../../core/calendar/year.js';
import { cellMoney } from '../../core/compare/cell-money.js';
import { compareCells } from '../../core/compare/compare-cells.js';
import type { CellComparison } from '../../core/compare/comparison.js';
import type { DepreciationMethod } from '../../core/cost/finance/depreciation.js';
import { type InvestmentTerms, weighInvestments } from '../../core/cost/invest/investments.js';
import type { Cell } from '../../core/model/cell.js';
import { costNumber, costWord } from '../../core/model/cost-value.js';
import { investmentAnswer, renderInvestments } from '../../render/invest.js';
import { INVESTMENT_TABLES, investmentTables } from '../../render/result-tables/investment-tables.js';
import type { Answer } from '../answer.js';
import { type CommandBody, numberOf, type OptionValues } from '../command-spec.js';
import { currencyOf } from '../currency.js';
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
    'folders of cells: first the one that is there, then those that could be bought; price and life stand in their costs.csv (invest_price, invest_life_years, invest_yearly_cost, invest_salvage)',
  options: () => [
    new Option('--pattern <name>', 'shift pattern of all cells; default: the first of each cell'),
    replicationsOption('runs of each cell that say how sure the difference is; default 20'),
    seedOption(),
    workersOption(),
  ],
  tables: INVESTMENT_TABLES,
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
      text: () => `Too little data to say. Missing: ${missing.join('; ')}.\n`,
    };
  const asked = values.pattern as string | undefined;
  const patterns = cells.map((cell) => asked ?? patternNames(cell.shifts)[0]!);
  const strange = cells.findIndex((cell, k) => !patternNames(cell.shifts).includes(patterns[k]!));
  if (strange !== -1)
    throw new UsageError(`No shift pattern \`${patterns[strange]}\` in ${read[strange]!.folder}/shifts.csv.`);
  const compared = await onPool(values, (run) =>
    compareCells(
      read.map(({ folder, cell }) => ({ name: folder, cell: cell!, dispatch: 'order' as const })),
      {
        replications: numberOf(values, 'replications') ?? 20,
        ...(numberOf(values, 'seed') === undefined ? {} : { seed: numberOf(values, 'seed')! }),
        ...(asked === undefined ? {} : { pattern: asked }),
      },
      run,
    ),
  );
  const none = compared.cells.find(({ shifts }) => shifts === null);
  if (none !== undefined)
    return {
      ...common,
      exit: EXIT.infeasible,
      fields: { status: 'infeasible', cell: none.name, schedule: none.schedule },
      text: () => `No feasible repeating sequence for ${none.name}. Run \`schedule\` on it for the reason.\n`,
    };
  const money = compared.cells.map(({ name, shifts }, k) => {
    const week = shifts!.patterns.find(({ pattern }) => pattern === patterns[k])!;
    return cellMoney(name, cells[k]!, week, k === 0 ? null : pairOf(compared, name, read[0]!.folder));
  });
  const terms = termsOf(cells[0]!);
  const result = weighInvestments(money, terms);
  const currency = currencyOf(cells[0]!);
  const facts = {
    currency,
    years: terms.horizonYears,
    discountPct: 100 * terms.discount,
    pattern: [...new Set(patterns)].join(', '),
    afterTax: terms.tax > 0,
  };
  return {
    ...common,
    exit: EXIT.done,
    fields: { ...result, pattern: facts.pattern, horizonYears: facts.years, discountPct: facts.discountPct },
    text: (style) => renderInvestments(result, facts, style),
    tables: () => ({
      sentences: investmentAnswer(result, facts),
      tables: investmentTables(result),
      form: csvFormIn(read),
      currency,
    }),
    assumptions: [...folderNotes(read), ...assumptionsOf(terms)],
    warnings: [...common.warnings, ...compared.warnings],
  };
}

/** The difference to the first cell, whichever way round it stands. */
function pairOf({ differences }: CellComparison, name: string, first: string) {
  const pair = differences.find(({ a, b }) => (a === name && b === first) || (a === first && b === name));
  if (pair === undefined) return null;
  const { mean, ciLow, ciHigh } = pair.partsPerShift;
  const turned = (value: number | null) => (value === null ? null : -value);
  return pair.a === name
    ? pair
    : { partsPerShift: { ...pair.partsPerShift, mean: -mean, ciLow: turned(ciHigh), ciHigh: turned(ciLow) } };
}

function missingOf(read: readonly ReadFolder[], cells: readonly Cell[]): string[] {
  const terms = NEEDED.filter((item) => costNumber(cells[0]!.costs, item) === null).map(
    (item) => `${item} in ${read[0]!.folder}/costs.csv`,
  );
  return [
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

function termsOf({ costs }: Cell): InvestmentTerms {
  return {
    horizonYears: costNumber(costs, 'horizon_years')!,
    discount: costNumber(costs, 'discount_pct')! / 100,
    tax: (costNumber(costs, 'tax_pct') ?? 0) / 100,
    depreciation: costWord(costs, 'depreciation') as DepreciationMethod,
    depreciationYears: costNumber(costs, 'depreciation_years') ?? 5,
    weeksPerYear: YEAR_WEEKS,
  };
}

function assumptionsOf({ weeksPerYear, horizonYears }: InvestmentTerms): string[] {
  return [
    `A year has ${weeksPerYear} weeks like the one on the floor; discount rate, tax and horizon are those of the first cell.`,
    `What is worn out before ${horizonYears} years is bought again at the same price; what is left of a life then counts at its share of the price.`,
    'How sure: the 95% interval of the simulated difference in good parts a shift to the first cell, carried into money.',
  ];
}
