/** Each doubtful input alone at its low and its high: how far the present value moves. */
import { scaleLinear } from 'd3-scale';
import type { TornadoBar } from '../../core/cost/doubt/tornado.js';
import type { ChartBlock } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { type ChartTexts, chartOf, type Drawing, WIDE } from './chart-of.js';
import { nameLabel } from './name-label.js';
import { element, label, stroke } from './svg.js';
import { textWidth } from './text-width.js';

const FRAME = { top: 52, bottom: 26 };
const BAR = 15;
/** Room for names beside the bars. */
const [LEAST_LEFT, MOST_LEFT] = [140, 300];

export interface TornadoChart extends ChartTexts {
  readonly bars: readonly TornadoBar[];
  /** Present value with every input at its value. */
  readonly npv: number;
  readonly currency: string;
}

export function tornadoChart(chart: TornadoChart, numbers: LocaleNumbers): ChartBlock {
  return chartOf({ ...chart, draw: (width) => drawing(chart, numbers, width) });
}

/** Where the bars stand. */
interface Rows {
  readonly left: number;
  readonly height: number;
  readonly npv: number;
  readonly x: (value: number) => number;
}

function drawing({ bars, npv, currency }: TornadoChart, numbers: LocaleNumbers, width: number): Drawing {
  const isWide = width === WIDE;
  const names = Math.max(...bars.map(({ item }) => textWidth(item))) + 10;
  const [left, right] = isWide
    ? [Math.min(Math.max(names, LEAST_LEFT), MOST_LEFT), width - 20]
    : [0, width - 4];
  // On a narrow page the item's name stands over its bar.
  const rowHeight = isWide ? 26 : 42;
  const height = FRAME.top + bars.length * rowHeight + FRAME.bottom;
  const ends = [0, npv, ...bars.flatMap((bar) => [bar.npvLow, bar.npvHigh])];
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  // Room beside the bars for the values at which they end.
  const room = (most - least) * (isWide ? 0.09 : 0.2) || 1;
  const x = scaleLinear([least - room, most + room], [left, right]);
  const bottom = height - FRAME.bottom;
  const unit = currency === '' ? '' : `, ${currency}`;
  const planned = `as planned ${numbers.amount(npv)}`;
  const half = textWidth(planned) / 2;
  return {
    height,
    content: [
      label(`net present value${unit}`, right, 14, '', 'end'),
      ...x
        .ticks(isWide ? 6 : 4)
        .flatMap((tick) => [
          stroke(x(tick), FRAME.top - 6, x(tick), bottom, tick === 0 ? 'axis' : 'grid'),
          label(numbers.number(tick), x(tick), bottom + 17, 'tick', 'middle'),
        ]),
      ...bars.flatMap((bar, k) =>
        row(bar, FRAME.top + k * rowHeight, { left, height: rowHeight, npv, x }, numbers),
      ),
      stroke(x(npv), FRAME.top - 8, x(npv), bottom, 'line'),
      label(
        planned,
        Math.min(Math.max(x(npv), left + half), right - half),
        FRAME.top - 14,
        'strong',
        'middle',
      ),
    ],
  };
}

function row(bar: TornadoBar, top: number, { left, height, npv, x }: Rows, numbers: LocaleNumbers): string[] {
  const middle = left > 0 ? top + height / 2 : top + height - BAR / 2 - 4;
  const ends = [
    { value: bar.low, npv: bar.npvLow, kind: 'open' },
    { value: bar.high, npv: bar.npvHigh, kind: 'full' },
  ];
  // The longer end first, so that a shorter one on the same side stays to be seen.
  const drawn = [...ends].sort((a, b) => Math.abs(b.npv - npv) - Math.abs(a.npv - npv));
  const sameSide = (bar.npvLow - npv) * (bar.npvHigh - npv) > 0;
  return [
    left > 0
      ? nameLabel(bar.item, left - 8, middle + 4, left - 8, '', 'end')
      : nameLabel(bar.item, 0, top + 14, 340, 'over'),
    ...drawn.map((end) =>
      element('rect', {
        x: Math.min(x(npv), x(end.npv)),
        y: middle - BAR / 2,
        width: Math.abs(x(end.npv) - x(npv)),
        height: BAR,
        class: end.kind,
      }),
    ),
    ...(sameSide ? drawn.slice(0, 1) : drawn)
      .filter((end) => end.npv !== npv)
      .map((end) => {
        const rightwards = end.npv > npv;
        return label(
          numbers.typed(end.value),
          x(end.npv) + (rightwards ? 5 : -5),
          middle + 4,
          'tick',
          rightwards ? 'start' : 'end',
        );
      }),
  ];
}
