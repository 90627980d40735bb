/**
 * The form in which headers and words are compared, so that `Cycle time (s)`, `cycle-s` and `CYCLE_S` are alike: small
 * letters, units in their short form, all else between the words gone.
 */
const UNITS: Readonly<Record<string, string>> = {
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  mins: 'min',
  minute: 'min',
  minutes: 'min',
  hr: 'h',
  hrs: 'h',
  hour: 'h',
  hours: 'h',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  percent: 'pct',
  percentage: 'pct',
};

/** Words that say nothing more. */
const IDLE = new Set(['time', 'the', 'of', 'a', 'in', 'no']);

/** @example plainWords('Running cost (money / hour)') // ['running', 'cost', 'money', 'h'] */
export function plainWords(text: string): readonly string[] {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll('%', ' pct ')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .map((word) => (Object.hasOwn(UNITS, word) ? UNITS[word]! : word));
}

/** Two texts in one form. @example sameWords('Not before', 'not_before') // true */
export function sameWords(a: string, b: string): boolean {
  return plainWords(a).join(' ') === plainWords(b).join(' ');
}

/** The words without those that say nothing more. */
export function tellingWords(text: string): readonly string[] {
  return plainWords(text).filter((word) => !IDLE.has(word));
}

const UNIT_WORDS = new Set(['s', 'min', 'h', 'm', 'pct', 'mm2', 'm2']);

/** Words without the unit at their end, and that unit. */
export function wordsAndUnit(words: readonly string[]): {
  readonly stem: string;
  readonly unit: string | null;
} {
  const last = words.at(-1) ?? '';
  const isUnit = words.length > 1 && UNIT_WORDS.has(last);
  return { stem: (isUnit ? words.slice(0, -1) : words).join(' '), unit: isUnit ? last : null };
}
