/** Scales of charts: thin lines across the field, and their values along its edge. */
import { label, stroke } from './svg.js';
import { textWidth } from './text-width.js';

export interface TickScale {
  (value: number): number;
  ticks(count: number): number[];
  domain(): number[];
  range(): number[];
}

export interface Axis {
  readonly scale: TickScale;
  /** About how many values are shown. */
  readonly count: number;
  readonly text: (value: number) => string;
  /** What is measured, with its unit. */
  readonly title: string;
}

/** Values below a field that reaches from `top` to `bottom`; takes `AXIS_BELOW` more below it. */
export function axisBelow({ scale, count, text, title }: Axis, top: number, bottom: number): string[] {
  const [from, to] = [Math.min(...scale.range()), Math.max(...scale.range())];
  const ticks = scale.ticks(count).map((value) => ({ value, at: scale(value), words: text(value) }));
  return [
    ...ticks.map(({ value, at }) => stroke(at, top, at, bottom, value === 0 ? 'axis' : 'grid')),
    ...ticks.map(({ at, words }) => {
      // Values at the ends stay within the field.
      const half = textWidth(words, 12) / 2;
      const x = Math.max(Math.min(at, to + 5 - half), Math.min(from, at) - 2 + (at - half < 0 ? half : 0));
      return label(words, x, bottom + 16, 'tick', 'middle');
    }),
    label(title, to, bottom + 33, 'tick', 'end'),
  ];
}

export const AXIS_BELOW = 40;

/** Values to the left of a field that reaches from `left` to `right`, the title above it. */
export function axisBeside(
  { scale, count, text, title }: Axis,
  left: number,
  right: number,
  titleY: number,
): string[] {
  return [
    label(title, 0, titleY),
    ...scale
      .ticks(count)
      .flatMap((value) => [
        stroke(left, scale(value), right, scale(value), value === 0 ? 'axis' : 'grid'),
        label(text(value), left - 7, scale(value) + 4, 'tick', 'end'),
      ]),
  ];
}

/** Room that the values beside a field take. */
export function besideWidth({ scale, count, text }: Axis): number {
  return 12 + Math.max(0, ...scale.ticks(count).map((value) => textWidth(text(value), 12)));
}

/** As many digits as the steps between ticks need. */
export function tickDigits(scale: TickScale, count: number): number {
  const ticks = scale.ticks(count);
  if (ticks.length < 2) return 0;
  return Math.min(6, Math.max(0, -Math.floor(Math.log10(ticks[1]! - ticks[0]!) + 1e-9)));
}
