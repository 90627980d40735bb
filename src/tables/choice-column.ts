/** A column that holds one of a few words. */
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { listOfWords } from './list-of-words.js';
import { nearestName } from './nearest-name.js';
import { type Reading, read, refuse } from './reading.js';

export function choiceColumn<T extends string>(choices: readonly T[], meaning: string): Column<T> {
  return neededColumn({
    unit: '',
    meaning,
    allowed: choicesInWords(choices),
    read: (text) => readChoice(text, choices),
  });
}

/** A yes-or-no column. */
export function yesNoColumn(meaning: string): Column<boolean> {
  const words = choiceColumn(['yes', 'no'], meaning);
  return {
    ...words,
    blank: undefined,
    read: (text, style) => {
      const reading = words.read(text, style);
      return reading.ok ? read(reading.value === 'yes') : reading;
    },
  };
}

export function readChoice<T extends string>(text: string, choices: readonly T[]): Reading<T> {
  const found = choices.find((choice) => choice === text);
  if (found !== undefined) return read(found);
  const near = nearestName(text, choices);
  return refuse({
    code: 'VAL05',
    text: `found ${inBackticks(text)}, expected ${choicesInWords(choices)}`,
    help: near === null ? null : `Did you mean \`${near}\`?`,
  });
}

function choicesInWords(choices: readonly string[]): string {
  return listOfWords(
    choices.map((c) => `\`${c}\``),
    'or',
  );
}
