/**
 * Reads a decimal number strictly: no empty text as 0, no hexadecimal, no thousands separators, no units, nothing
 * that is not finite.
 */
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import { type NumberStyle, type Reading, read, readAs, refuse } from './reading.js';

/** Longest spelling of a number; the patterns below are not tried on longer texts. */
const LONGEST = 60;

const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const DECIMAL_COMMA = /^[+-]?(\d+,\d*|,\d+)(e[+-]?\d+)?$/i;
/** A comma that may part the thousands as well. */
const COMMA_OF_TWO_MEANINGS = /^[+-]?[1-9]\d{0,2},\d{3}$/;
const GROUPED = /^[+-]?\d{1,3}([ ,.'’\u00a0\u202f]\d{3})+([.,]\d+)?$/;
const WITH_UNIT = /^([+-]?(?:\d+[.,]?\d*|[.,]\d+))\s*([\p{L}%‰°$€£¥][\p{L}\d%/²^.]*)$/u;
const WITH_CURRENCY = /^([$€£¥]|[\p{Lu}]{3}\s)\s*([+-]?(?:\d+[.,]?\d*|[.,]\d+))$/u;

/**
 * @param text the cell without spaces around it
 * @param style whether every comma is a decimal one; elsewhere one is read where it can be nothing else
 * @param allowed what the cell may hold, for the complaint, such as `seconds of 0 or more`
 */
export function readNumber(text: string, style: NumberStyle, allowed: string): Reading<number> {
  if (text.length > LONGEST)
    return refuse({ code: 'VAL02', text: `found ${inBackticks(text)}, expected ${allowed}`, help: null });
  const isComma = DECIMAL_COMMA.test(text) && (style.decimalComma || !COMMA_OF_TWO_MEANINGS.test(text));
  const plain = isComma ? text.replace(',', '.') : text;
  if (!DECIMAL.test(plain)) {
    const fault = { code: 'VAL02', text: `found ${inBackticks(text)}, expected ${allowed}` } as const;
    return refuse({ ...fault, help: likelyCause(text) });
  }
  const value = Number(plain);
  if (isSane(value, plain)) {
    const sane = value === 0 ? 0 : value;
    return isComma && !style.decimalComma ? readAs(sane, plain) : read(sane);
  }
  return refuse({
    code: 'VAL14',
    text: `found ${inBackticks(text)}, expected ${allowed}; a number here is 0 or between ${tableLimits.smallestNumber} and ${tableLimits.largestNumber} in size`,
    help: 'Look for a slipped exponent or a wrong unit.',
  });
}

/** A number that is written with a digit other than 0 and comes out as 0 is too small, too. */
function isSane(value: number, written: string): boolean {
  const size = Math.abs(value);
  if (size === 0) return !/[1-9]/.test(written.replace(/e.*$/i, ''));
  return size >= tableLimits.smallestNumber && size <= tableLimits.largestNumber;
}

function likelyCause(text: string): string | null {
  if (/^[+-]?0x[\da-f]+$/i.test(text)) return 'Write the number in decimal digits.';
  if (/^[−–]\d/.test(text)) return 'Write the minus sign as a plain `-`.';
  if (COMMA_OF_TWO_MEANINGS.test(text))
    return `Write \`${text.replace(',', '.')}\` if the comma is a decimal one, \`${text.replace(',', '')}\` if it parts the thousands.`;
  if (GROUPED.test(text)) return `Leave out the thousands separators: ${inBackticks(withoutGroups(text))}.`;
  const unit = WITH_UNIT.exec(text);
  if (unit) return `Write the number alone, \`${unit[1]}\`, without a unit.`;
  const money = WITH_CURRENCY.exec(text);
  if (money) return `Write the amount alone, \`${money[2]}\`; the currency is named once, in costs.csv.`;
  return null;
}

function withoutGroups(text: string): string {
  const tail = /[.,](\d+)$/.exec(text);
  const marks = new Set(text.replace(/[+\-\d]/g, ''));
  const decimals = tail && (tail[1]?.length !== 3 || marks.size > 1) ? tail[0] : '';
  const whole = text.slice(0, text.length - decimals.length).replace(/[^+\-\d]/g, '');
  return whole + decimals.replace(',', '.');
}
