/** A column that holds one of a few words. */
import { listText } from '../core/model/list-text.js';
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { nearestName } from './nearest-name.js';
import { sameWords } from './plain-words.js';
import { type Reading, read, readAs, refuse } from './reading.js';

export function choiceColumn<T extends string>(choices: readonly T[], meaning: string): Column<T> {
  return neededColumn({
    unit: '',
    meaning,
    allowed: choicesInWords(choices),
    choices,
    read: (text) => readChoice(text, choices),
  });
}

/** A yes-or-no column. */
export function yesNoColumn(meaning: string): Column<boolean> {
  const words = choiceColumn(['yes', 'no'], meaning);
  return { ...words, blank: undefined, read: readYesNo };
}

/** Spellings of other languages and of spreadsheets; `0` and `1` as tick boxes save them. */
const YES = new Set([
  'yes',
  'y',
  'true',
  '1',
  'x',
  '✓',
  '✔',
  'on',
  'ja',
  'j',
  'oui',
  'vrai',
  'sí',
  'si',
  'sì',
  'wahr',
  'verdadero',
  'vero',
]);
const NO = new Set(['no', 'n', 'false', '0', 'off', 'nein', 'non', 'faux', 'falsch', 'falso', 'nee', 'nej']);

function readYesNo(text: string): Reading<boolean> {
  if (text === 'yes' || text === 'no') return read(text === 'yes');
  const word = text.normalize('NFC').toLowerCase();
  if (YES.has(word)) return readAs(true, 'yes');
  if (NO.has(word)) return readAs(false, 'no');
  const reading = readChoice(text, ['yes', 'no']);
  return reading.ok ? readAs(reading.value === 'yes', reading.value) : reading;
}

export function readChoice<T extends string>(text: string, choices: readonly T[]): Reading<T> {
  const found = choices.find((choice) => choice === text);
  if (found !== undefined) return read(found);
  const meant = choices.filter((choice) => sameWords(choice, text));
  if (meant.length === 1) return readAs(meant[0]!, meant[0]!);
  const near = nearestName(text, choices);
  return refuse({
    code: 'VAL05',
    text: `found ${inBackticks(text)}, expected ${choicesInWords(choices)}`,
    help: near === null ? null : `Did you mean \`${near}\`?`,
  });
}

function choicesInWords(choices: readonly string[]): string {
  return listText(
    choices.map((c) => `\`${c}\``),
    'or',
  );
}
