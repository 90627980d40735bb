/** Rows of bars with a name each: beside the bar on a wide page, above it on a narrow one. */
import { WIDE } from './chart-of.js';
import { nameLabel } from './name-label.js';
import { textWidth } from './text-width.js';

export interface NamedRows {
  /** Between which the bars run. */
  readonly x0: number;
  readonly x1: number;
  /** Of all rows together. */
  readonly height: number;
  /** Height of the middle of a row's bar. */
  readonly middle: (row: number) => number;
  readonly name: (row: number) => string;
}

export interface RowSizes {
  /** Where the first row begins. */
  readonly top: number;
  /** Thickness of a bar. */
  readonly bar: number;
  /** Kept free to the right of the bars. */
  readonly right: number;
  /** Most that names may take beside the bars. */
  readonly mostName?: number;
  /** Kept free to the right of names above the bars. */
  readonly nameRight?: number;
}

const [GAP_BESIDE, GAP_ABOVE] = [10, 27];

export function namedRows(names: readonly string[], width: number, sizes: RowSizes): NamedRows {
  const { top, bar, right, mostName = 220, nameRight = 0 } = sizes;
  const x1 = width - right;
  if (width !== WIDE) {
    const pitch = bar + GAP_ABOVE;
    return {
      x0: 2,
      x1,
      height: names.length * pitch,
      middle: (row) => top + row * pitch + 21 + bar / 2,
      name: (row) => nameLabel(names[row]!, 0, top + row * pitch + 16, width - nameRight, 'over'),
    };
  }
  const longest = Math.max(0, ...names.map((name) => textWidth(name)));
  const x0 = Math.min(mostName, longest + 14);
  const pitch = bar + GAP_BESIDE;
  const middle = (row: number) => top + (row + 0.5) * pitch;
  return {
    x0,
    x1,
    height: names.length * pitch,
    middle,
    name: (row) => nameLabel(names[row]!, 0, middle(row) + 4, x0 - 10),
  };
}
