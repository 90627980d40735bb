/** A column of numbers within a range. */
import { type Column, neededColumn } from './column.js';
import { inBackticks } from './in-backticks.js';
import { readNumber } from './read-number.js';
import { type NumberStyle, type Reading, readAs, refuse } from './reading.js';

export interface NumberRule {
  /** Unit in words, such as `seconds`. */
  readonly words: string;
  readonly min?: number;
  /** The least value itself is not allowed. */
  readonly aboveMin?: boolean;
  /** The least value above 0; 0 itself is allowed. */
  readonly least?: number;
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
  const reading = readSpelling(text, style, rule) ?? readNumber(text, style, allowed);
  if (!reading.ok) return reading;
  const found = `found ${inBackticks(text)}, expected ${allowed}`;
  if (isOutside(reading.value, rule)) return refuse({ code: 'VAL03', text: found, help: rule.help ?? null });
  if (rule.whole && !Number.isInteger(reading.value))
    return refuse({ code: 'VAL04', text: found, help: null });
  return reading;
}

const CLOCK = /^(?:(\d+):)?(\d+):([0-5]\d)$/;
const PERCENT = /^(\S+?)\s*%$/;

/** Minutes and seconds with a colon, and shares with their sign: read where they are plain, else asked about. */
function readSpelling(text: string, style: NumberStyle, rule: NumberRule): Reading<number> | null {
  const clock = CLOCK.exec(text);
  if (clock) return readClock(text, clock, rule);
  const share = PERCENT.exec(text);
  if (!share) return null;
  const isShare = rule.min === 0 && rule.max === 1;
  if (!isShare && !/per cent/.test(rule.words)) return null;
  const reading = readNumber(share[1]!, style, rangeInWords(rule));
  if (!reading.ok) return null;
  const value = isShare ? Number((reading.value / 100).toPrecision(15)) : reading.value;
  return readAs(value, String(value));
}

function readClock(
  text: string,
  [, first, second, third]: RegExpExecArray,
  rule: NumberRule,
): Reading<number> {
  const [h, min, s] = [Number(first ?? 0), Number(second), Number(third)];
  const seconds = h * 3600 + min * 60 + s;
  const isOfDay = first !== undefined && h > 0 && s === 0;
  if (rule.words === 'seconds' && !isOfDay && (first === undefined || min < 60))
    return readAs(seconds, String(seconds));
  return refuse({
    code: 'VAL02',
    text: `found ${inBackticks(text)}, expected ${rangeInWords(rule)}`,
    help: clockHelp([h, min, s], first !== undefined, rule),
  });
}

/** What a time with colons may have been meant as. A spreadsheet makes `5:10` a time of day of five hours. */
function clockHelp([h, min, s]: readonly [number, number, number], isLong: boolean, { words }: NumberRule) {
  if (words === 'seconds' && isLong)
    return `Write ${h * 60 + min} if ${h} minutes and ${min} seconds are meant, ${h * 3600 + min * 60 + s} if ${h} hours and ${min} minutes are.`;
  return `Write the number of ${words}, such as \`5.5\`; a time with a colon has two meanings here.`;
}

function isOutside(value: number, { min, max, aboveMin, least }: NumberRule): boolean {
  if (least !== undefined && value > 0 && value < least) return true;
  if (min !== undefined && (aboveMin ? value <= min : value < min)) return true;
  return max !== undefined && value > max;
}

/** @example rangeInWords({ words: 'seconds', min: 0 }) // 'seconds, 0 or more' */
export function rangeInWords({ words, min, max, aboveMin, least, whole }: NumberRule): string {
  const what = whole ? `a whole number of ${words}` : words;
  if (least !== undefined && max !== undefined) return `${what}, 0 or from ${least} to ${max}`;
  if (min === undefined) return max === undefined ? what : `${what}, ${max} or less`;
  if (max === undefined) return aboveMin ? `${what} above ${min}` : `${what}, ${min} or more`;
  return aboveMin ? `${what} above ${min} and up to ${max}` : `${what} from ${min} to ${max}`;
}
