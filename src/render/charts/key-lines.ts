/** What each kind of bar means, shown by a bar of its kind: as many to a line as fit. */
import { bar, type Mark } from './bar.js';
import { label } from './svg.js';
import { textWidth } from './text-width.js';

const SWATCH = 22;
const BAR = 11;
const LINE = 20;
const GAP = 16;

export interface KeyEntry {
  readonly mark: Mark;
  readonly text: string;
}

/**
 * @param top where the first line begins
 * @param width pixels of a line
 */
export function keyLines(
  entries: readonly KeyEntry[],
  left: number,
  top: number,
  width: number,
): { readonly content: string[]; readonly height: number } {
  let [x, y] = [left, top];
  const content = entries.map(({ mark, text }) => {
    const taken = SWATCH + 6 + textWidth(text, 12);
    if (x > left && x + taken > left + width) [x, y] = [left, y + LINE];
    const drawn = `${bar(mark, x, y + 2, SWATCH, BAR)}${label(text, x + SWATCH + 6, y + 12, 'tick')}`;
    x += taken + GAP;
    return drawn;
  });
  return { content, height: y + LINE - top };
}
