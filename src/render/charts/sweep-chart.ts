/** One figure against one input of the cell. */

import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { ChartBlock } from '../document/blocks.js';
import { numberText } from '../numbers.js';
import { axisBelow, axisBeside, besideWidth, type TickScale, tickDigits } from './axes.js';
import { type ChartTexts, chartOf, type Drawing, WIDE } from './chart-of.js';
import { circle, element, flag } from './svg.js';

export interface SweepLine {
  /** What is changed and what is drawn, with their units. */
  readonly input: string;
  readonly figure: string;
  /** By rising input; `y` null where there is no figure. */
  readonly points: readonly { readonly x: number; readonly y: number | null }[];
  /** The input as the tables have it. */
  readonly now: number;
}

const TOP = 30;
const BELOW = 44;

/** @param swept at least one point with a figure */
export function sweepChart(swept: SweepLine, texts: ChartTexts): ChartBlock {
  return chartOf({ ...texts, draw: (width) => drawing(swept, width) });
}

function drawing({ input, figure, points, now }: SweepLine, width: number): Drawing {
  const height = width === WIDE ? 300 : 260;
  const bottom = height - BELOW;
  const known = points.flatMap(({ x, y }) => (y === null ? [] : [{ x, y }]));
  const [least, most] = [Math.min(...known.map(({ y }) => y)), Math.max(...known.map(({ y }) => y))];
  // A figure that never changes runs through the middle.
  const room = most > least ? 0 : Math.max(1, Math.abs(most) / 10);
  const y = scaleLinear([least - room, most + room], [bottom, TOP]).nice(5);
  const beside = { scale: y, count: 5, text: digitsOf(y, 5), title: figure };
  const [left, right] = [besideWidth(beside), width - 10];
  const x = scaleLinear([points[0]!.x, points.at(-1)!.x], [left, right]);
  const below = { scale: x, count: width === WIDE ? 7 : 4, text: digitsOf(x, 7), title: input };
  const path = line<SweepLine['points'][number]>()
    .defined((point) => point.y !== null)
    .x((point) => x(point.x))
    .y((point) => y(point.y!))
    .digits(1)(points);
  return {
    height,
    content: [
      ...axisBelow(below, TOP, bottom),
      ...axisBeside(beside, left, right, 14),
      element('path', { d: path ?? '', class: 'line' }),
      ...known.map((point) => circle(x(point.x), y(point.y), 3, 'mark')),
      ...tableValue(now, x, bottom),
    ],
  };
}

function digitsOf(scale: TickScale, count: number): (value: number) => string {
  const digits = tickDigits(scale, count);
  return (value) => numberText(value, digits);
}

/** Where the table stands, if that lies within the field. */
function tableValue(now: number, x: TickScale, bottom: number): string[] {
  const [from, to] = x.domain();
  if (now < from! || now > to!) return [];
  return flag('as in the table', x(now), { from: TOP, to: bottom, textY: bottom - 8, right: x.range()[1]! });
}
