/** A name beside a mark, cut in the middle where it is too long; the whole of it shows when pointed at. */
import { escapeMarkup } from '../document/escape-markup.js';
import { shortened } from '../shortened.js';
import { type Anchor, element, textAt } from './svg.js';
import { textWidth } from './text-width.js';

const LEAST_LETTERS = 4;

/** @param room pixels that the text may take */
export function nameLabel(
  name: string,
  x: number,
  y: number,
  room: number,
  look = '',
  anchor?: Anchor,
): string {
  const text = fitted(name, room);
  const whole = text === name ? '' : element('title', {}, escapeMarkup(name));
  return textAt(`${escapeMarkup(text)}${whole}`, x, y, look, anchor);
}

/** The name, as much of it as the room holds. */
export function fitted(name: string, room: number, size = 13): string {
  let letters = name.length;
  let text = name;
  while (textWidth(text, size) > room && letters > LEAST_LETTERS) text = shortened(name, --letters);
  return text;
}
