/** Rows with a bar each from zero, with an interval where there is one and a line to be reached: for counts side by side. */

import { scaleLinear } from 'd3-scale';
import { tableBlock } from '../document/table-block.js';
import { numberText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import { AXIS_BELOW, axisBelow, tickDigits } from './axes.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { namedRows } from './named-rows.js';
import { label, oblong, stroke } from './svg.js';
import { textWidth } from './text-width.js';

const BAR = 15;

export interface BarRow {
  readonly name: string;
  readonly value: number;
  /** Bounds of the value; null where none are known. */
  readonly low?: number | null;
  readonly high?: number | null;
  /** What the bar could reach at most, drawn as a frame around it. */
  readonly most?: number;
}

export interface BarsChart {
  /** The finding, as a sentence without its full stop. */
  readonly title: string;
  /** What is counted, with its unit. */
  readonly unit: string;
  readonly rows: readonly BarRow[];
  readonly note: string;
  readonly digits: number;
  /** A line across all bars, such as 100% of the demand. */
  readonly line?: number;
  /** Where no table beside the chart has its figures. */
  readonly data?: TableData;
}

export function barsChart(chart: BarsChart): ChartOrReason {
  const { title, unit, rows, note, digits, data } = chart;
  if (rows.length === 0) return noChart(`There is nothing to draw in ${unit}.`);
  return chartOf({
    title,
    description: rows.map(({ name, value }) => `${name} ${numberText(value, digits)}`).join('; '),
    note,
    ...(data === undefined ? {} : { data: tableBlock(title, data, { wide: true }) }),
    draw: (width) => drawing(chart, width),
  });
}

function drawing({ rows, unit, digits, line }: BarsChart, width: number): Drawing {
  const texts = rows.map(({ value }) => numberText(value, digits));
  const room = 14 + Math.max(...texts.map((text) => textWidth(text)));
  const levels = rows.flatMap(({ value, high, most }) => [value, high ?? value, most ?? value]);
  const lines = namedRows(
    rows.map(({ name }) => name),
    width,
    { top: 4, bar: BAR, right: room, mostName: 340 },
  );
  const least = Math.min(0, ...rows.map(({ value, low }) => Math.min(value, low ?? value)));
  const x = scaleLinear([least, Math.max(...levels, line ?? 0) || 1], [lines.x0, lines.x1]);
  const bottom = 4 + lines.height + 2;
  const count = width === WIDE ? 6 : 4;
  const axis = {
    scale: x,
    count,
    text: (v: number) => numberText(v, tickDigits(x, count)),
    title: unit,
  };
  return {
    height: bottom + AXIS_BELOW,
    content: [
      ...axisBelow(axis, 4, bottom),
      ...rows.flatMap((row, k) => barOf(row, lines.middle(k), x)),
      ...(line === undefined ? [] : [stroke(x(line), 4, x(line), bottom, 'line dash')]),
      ...rows.map((_, k) => lines.name(k)),
      ...texts.map((text, k) => label(text, width, lines.middle(k) + 4, 'strong', 'end')),
    ],
  };
}

function barOf({ value, low, high, most }: BarRow, middle: number, x: (value: number) => number): string[] {
  const box = (to: number, look: string) =>
    oblong(Math.min(x(0), x(to)), middle - BAR / 2, Math.abs(x(to) - x(0)), BAR, look);
  const bounds =
    low == null || high == null
      ? []
      : [
          stroke(x(low), middle, x(high), middle, 'line'),
          ...[low, high].map((end) => stroke(x(end), middle - 5, x(end), middle + 5, 'line')),
        ];
  return [...(most === undefined ? [] : [box(most, 'bare')]), box(value, 'work'), ...bounds];
}
