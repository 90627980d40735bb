/** Options that take values, checked as strictly as the cells of a table. */
import { InvalidArgumentError, Option } from 'commander';
import { CSV_FORMS, type CsvForm } from '../core/model/csv-form.js';
import { isKnownLocale } from '../render/document/locale-numbers.js';
import { type NumberRule, rangeInWords, readInRange } from '../tables/number-column.js';
import type { CommandSpec, OptionValues } from './command-spec.js';

/**
 * A decimal comma is read where it can be nothing else.
 * @param flags such as `--time-limit <seconds>`
 */
export function numberOption(flags: string, meaning: string, rule: NumberRule): Option {
  return new Option(flags, `${meaning} (${rangeInWords(rule)})`).argParser((text: string) => {
    const reading = readInRange(text, { decimalComma: false }, rule);
    if (reading.ok) return reading.value;
    const { text: said, help } = reading.fault;
    throw new InvalidArgumentError(help === null ? said : `${said}. ${help}`);
  });
}

/** The form of what is written as CSV. */
export const csvOption = (unasked = 'those of the tables that are read'): Option =>
  new Option(
    '--csv <form>',
    `separator and decimal mark of CSV that is written: comma-point, semicolon-comma or semicolon-point; default: ${unasked}`,
  ).choices(Object.keys(CSV_FORMS));

/** Of the commands that answer with tables. */
export const tableOptions = ({ page }: Pick<CommandSpec, 'page'>): Option[] => [
  new Option(
    '--out <folder>',
    `write every table of the answer into this folder, as CSV and as a workbook${page === true ? ', and a page with its drawings' : ''}; with a name that ends in .xlsx or .ods, the workbook alone`,
  ),
  csvOption(),
];

/** @param read form of the tables that were read */
export function csvFormAsked(values: OptionValues, read: CsvForm): CsvForm {
  const asked = values.csv as keyof typeof CSV_FORMS | undefined;
  return asked === undefined ? read : CSV_FORMS[asked];
}

/** Changes of single cells; given once for each, so that a value may hold commas. */
export const setOption = (): Option =>
  new Option(
    '--set <path=value>',
    'change one cell of the tables for this run, such as `robot.hands=2` or `routes.<part>.<step>.cycle_s=200`; may be given several times',
  ).argParser((text: string, before: readonly string[] = []) => [...before, text]);

export const jsonOption = (): Option => new Option('--json', 'print the result as one JSON object');

export const fullOption = (): Option =>
  new Option('--full', 'print every table, chart, note, assumption and caution');

export const assumptionsOption = (): Option => new Option('--assumptions', 'print all assumptions');

export const handsOption = (): Option =>
  numberOption('--hands <number>', 'parts that the gripper holds at once, in place of the one in robot.csv', {
    words: 'hands',
    min: 1,
    max: 2,
    whole: true,
  });

export const workersOption = (meaning = 'threads to run on; default: all cores'): Option =>
  numberOption('--workers <number>', meaning, { words: 'threads', min: 1, max: 256, whole: true });

export const timeLimitOption = (): Option =>
  numberOption(
    '--time-limit <seconds>',
    'end the search after this time with the best so far; without it the work is limited by counts, the same everywhere',
    { words: 'seconds', min: 0, aboveMin: true, max: 86_400 },
  );

export const seedOption = (meaning = 'random seed; default 1'): Option =>
  numberOption('--seed <number>', meaning, { words: 'seed', min: 0, max: 2 ** 31, whole: true });

export const replicationsOption = (meaning: string): Option =>
  numberOption('--replications <number>', meaning, { words: 'runs', min: 1, max: 10_000, whole: true });

export const runHoursOption = (): Option =>
  numberOption(
    '--hours <number>',
    'hours counted in each run, rounded up to whole weeks of the pattern; default 40',
    { words: 'hours', min: 0, aboveMin: true, max: 100_000 },
  );

export const localeOption = (): Option =>
  new Option(
    '--locale <tag>',
    'how numbers and money are written, such as `en`, `de-DE` or `fr-CH`; default en',
  ).argParser((text: string) => {
    if (isKnownLocale(text)) return text;
    const near = text.replaceAll('_', '-');
    const hint = near !== text && isKnownLocale(near) ? ` (did you mean \`${near}\`?)` : '';
    throw new InvalidArgumentError(
      `found \`${text}\`, expected a language tag that is known here, such as \`en\`, \`de-DE\` or \`fr-CH\`${hint}`,
    );
  });
