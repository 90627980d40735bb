/** Reads the parameters of a row of variation.csv and holds them against the ranges of its distribution. */
import type { Distribution } from '../core/model/cell.js';
import type { Fault } from './complaint-list.js';
import { distributionFormats } from './distributions.js';
import { inBackticks } from './in-backticks.js';
import { type NumberRule, rangeInWords, readInRange } from './number-column.js';
import { noteTaken, reportCell, type Sheet, type SheetRow } from './sheet.js';

const LETTERS = ['a', 'b', 'c'] as const;
const FEWEST_READINGS = 2;

interface VariationCells {
  readonly row: SheetRow;
  readonly values: {
    readonly distribution: Distribution;
    readonly a: string;
    readonly b: string;
    readonly c: string;
  };
}

type Say = (column: string, fault: Fault) => void;

/** @returns the parameters that could be read, in order */
export function readParameters(sheet: Sheet, { row, values }: VariationCells): number[] {
  const say: Say = (column, fault) =>
    reportCell(sheet, row, sheet.columns.has(column) ? column : 'distribution', fault.code, () => fault);
  const { distribution } = values;
  const { parameters, isList } = distributionFormats[distribution];
  const read = LETTERS.flatMap((letter, i) => {
    const rule = parameters[i];
    if (!rule) return refuseSurplus(say, letter, values[letter], distribution);
    if (values[letter] === '') return refuseLack(say, letter, rule, distribution);
    const texts = isList ? values[letter].split('|') : [values[letter]];
    return readValues({ row, sheet, say }, letter, texts, rule);
  });
  if (isList && values.a !== '' && !values.a.includes('|')) sayFewReadings(say, values.a);
  if (distribution === 'triangular' || distribution === 'pert') checkThreePoints(say, read);
  return read;
}

function refuseSurplus(say: Say, letter: string, text: string, distribution: Distribution): number[] {
  if (text === '') return [];
  const names = distributionFormats[distribution].parameters.map((p) => p.name).join(', ');
  const said = `found ${inBackticks(text)}, but ${distribution} takes only: ${names}`;
  say(letter, { code: 'VAR03', text: said, help: 'Leave the cell empty, or choose another distribution.' });
  return [];
}

function refuseLack(say: Say, letter: string, rule: NumberRule, distribution: Distribution): number[] {
  const help = `Parameters of ${distribution}: ${distributionFormats[distribution].meaning}.`;
  say(letter, {
    code: 'VAR02',
    text: `found nothing, expected ${rangeInWords(rule)} of ${distribution}`,
    help,
  });
  return [];
}

interface At {
  readonly row: SheetRow;
  readonly sheet: Sheet;
  readonly say: Say;
}

function readValues(
  { row, sheet, say }: At,
  letter: string,
  texts: readonly string[],
  rule: NumberRule,
): number[] {
  let at = 0;
  return texts.flatMap((part) => {
    const text = part.trim();
    const reading = readInRange(text, { decimalComma: sheet.delimiter === ';' }, rule);
    const span = [at, at + part.length] as const;
    at += part.length + 1;
    if (reading.ok) {
      if (texts.length === 1) noteTaken(sheet, row, letter, reading);
      return [reading.value];
    }
    const { fault } = reading;
    const code = fault.code === 'VAL02' ? fault.code : 'VAR04';
    say(letter, texts.length > 1 ? { ...fault, code, span } : { ...fault, code });
    return [];
  });
}

function sayFewReadings(say: Say, text: string): void {
  const help = 'Set bars between them, such as `12.1|12.4|11.9`; for one value write `constant`.';
  say('a', {
    code: 'VAR02',
    text: `found one reading, ${inBackticks(text)}, expected ${FEWEST_READINGS} or more`,
    help,
  });
}

function checkThreePoints(say: Say, read: readonly number[]): void {
  const [low, likely, high] = read;
  if (likely === undefined || low === undefined || high === undefined) return;
  if (low <= likely && likely <= high && low < high) return;
  const text = `found low ${low}, likely ${likely}, high ${high}, expected low <= likely <= high with low < high`;
  say('a', {
    code: 'VAR04',
    text,
    help: 'Column a holds the low value, b the likely one, c the high one.',
  });
}
