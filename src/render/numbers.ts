/** Numbers as people read them, always in one fixed form (1,234.5), whatever the settings of the machine. */

const formats = new Map<number, Intl.NumberFormat>();

/**
 * @param digits digits after the point; all are shown
 * @example numberText(1234.56, 1) // '1,234.6'
 */
export function numberText(value: number, digits = 0): string {
  let format = formats.get(digits);
  if (!format) {
    format = new Intl.NumberFormat('en', { minimumFractionDigits: digits, maximumFractionDigits: digits });
    formats.set(digits, format);
  }
  // A zero with a minus sign says nothing to a reader.
  const text = format.format(value);
  return /^-[0.,]*$/.test(text) ? text.slice(1) : text;
}

/** With a plus where more than nothing is left after rounding. @example signedText(3.25, 1) // '+3.3' */
export function signedText(value: number, digits = 0): string {
  const text = numberText(value, digits);
  return value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/** @example secondsText(12.34) // '12.3 s' */
export function secondsText(seconds: number): string {
  return `${numberText(seconds, 1)} s`;
}

/** @example percentText(61.234) // '61.2%' */
export function percentText(percent: number): string {
  return `${numberText(percent, 1)}%`;
}

/** A count with its word. @example countText(1, 'part') // '1 part' */
export function countText(count: number, word: string, many = `${word}s`): string {
  return `${numberText(count)} ${count === 1 ? word : many}`;
}
