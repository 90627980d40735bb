/** Reads price breaks such as `1:900;4:820`: from 1 box 900 each, from 4 boxes 820 each. */
import { inBackticks } from './in-backticks.js';
import { readNumber } from './read-number.js';
import { type NumberStyle, type Reading, read, refuse } from './reading.js';

const ALLOWED = 'price breaks such as `1:900;4:820`, with quantities that rise';

/** @returns the breaks in one spelling: decimal points, no spaces */
export function readPriceBreaks(text: string, style: NumberStyle): Reading<string> {
  const breaks: string[] = [];
  let before = 0;
  let at = 0;
  for (const part of text.split(';')) {
    const [quantity, price, ...more] = part.split(':').map((side) => numberOr(side.trim(), style));
    const isRight =
      quantity != null && price != null && more.length === 0 && Number.isInteger(quantity) && price >= 0;
    if (!isRight || quantity <= before) {
      const found = `found ${inBackticks(part.trim())}, expected ${ALLOWED}`;
      const help = isRight
        ? `The quantity after ${before} must be larger than it.`
        : 'Each break is a whole number of boxes, a colon and the price of one.';
      return refuse({ code: 'COS06', text: found, help, span: [at, at + part.length] });
    }
    breaks.push(`${quantity}:${price}`);
    before = quantity;
    at += part.length + 1;
  }
  return read(breaks.join(';'));
}

function numberOr(text: string, style: NumberStyle): number | null {
  const reading = readNumber(text, style, ALLOWED);
  return reading.ok ? reading.value : null;
}
