/** A column of numbers within a range. */
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { readNumber } from './read-number.js';
import { type NumberStyle, type Reading, read, refuse } from './reading.js';

export interface NumberRule {
  /** Unit in words, such as `seconds`. */
  readonly words: string;
  readonly min?: number;
  /** The least value itself is not allowed. */
  readonly aboveMin?: boolean;
  readonly max?: number;
  readonly whole?: boolean;
  /** Help for a value out of range. */
  readonly help?: string;
}

/** A needed column of numbers; wrap it in `optional` to give it a default. */
export function numberColumn(unit: string, meaning: string, rule: NumberRule): Column<number> {
  const allowed = rangeInWords(rule);
  return neededColumn({ unit, meaning, allowed, read: (text, style) => readInRange(text, style, rule) });
}

/** Reads a number and holds it against its range. */
export function readInRange(text: string, style: NumberStyle, rule: NumberRule): Reading<number> {
  const allowed = rangeInWords(rule);
  const reading = readNumber(text, style, allowed);
  if (!reading.ok) return reading;
  const found = `found ${inBackticks(text)}, expected ${allowed}`;
  if (isOutside(reading.value, rule)) return refuse({ code: 'VAL03', text: found, help: rule.help ?? null });
  if (rule.whole && !Number.isInteger(reading.value))
    return refuse({ code: 'VAL04', text: found, help: null });
  return read(reading.value);
}

function isOutside(value: number, { min, max, aboveMin }: NumberRule): boolean {
  if (min !== undefined && (aboveMin ? value <= min : value < min)) return true;
  return max !== undefined && value > max;
}

/** @example rangeInWords({ words: 'seconds', min: 0 }) // 'seconds, 0 or more' */
export function rangeInWords({ words, min, max, aboveMin, whole }: NumberRule): string {
  const what = whole ? `a whole number of ${words}` : words;
  if (min === undefined) return max === undefined ? what : `${what}, ${max} or less`;
  if (max === undefined) return aboveMin ? `${what} above ${min}` : `${what}, ${min} or more`;
  return aboveMin ? `${what} above ${min} and up to ${max}` : `${what} from ${min} to ${max}`;
}
