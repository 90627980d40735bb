/** Each doubtful input alone at its low and its high: how far the present value moves. */
import { scaleLinear } from 'd3-scale';
import type { TornadoBar } from '../../core/cost/doubt/tornado.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { element, label, picture, stroke } from './svg.js';

const WIDTH = 700;
const FRAME = { left: 212, right: 20, top: 52, bottom: 26 };
const ROW = 26;
const BAR = 15;

export interface TornadoChart {
  readonly bars: readonly TornadoBar[];
  /** Present value with every input at its value. */
  readonly npv: number;
  readonly currency: string;
  readonly title: string;
  readonly description: string;
}

export function tornadoChart(chart: TornadoChart, numbers: LocaleNumbers): string {
  const { bars, npv, title, description } = chart;
  const height = FRAME.top + bars.length * ROW + FRAME.bottom;
  const ends = [0, npv, ...bars.flatMap((bar) => [bar.npvLow, bar.npvHigh])];
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  // Room beside the bars for the values at which they end.
  const room = (most - least) * 0.09 || 1;
  const x = scaleLinear([least - room, most + room], [FRAME.left, WIDTH - FRAME.right]);
  const bottom = height - FRAME.bottom;
  const unit = chart.currency === '' ? '' : `, ${chart.currency}`;
  return picture({
    width: WIDTH,
    height,
    title,
    description,
    content: [
      label(`net present value${unit}`, WIDTH - FRAME.right, 14, { 'text-anchor': 'end' }),
      ...x
        .ticks(6)
        .flatMap((tick) => [
          stroke(x(tick), FRAME.top - 6, x(tick), bottom, tick === 0 ? 'axis' : 'grid'),
          label(numbers.number(tick), x(tick), bottom + 17, { class: 'tick', 'text-anchor': 'middle' }),
        ]),
      ...bars.flatMap((bar, k) => row(bar, FRAME.top + k * ROW, npv, x, numbers)),
      stroke(x(npv), FRAME.top - 8, x(npv), bottom, 'line'),
      label(`as planned ${numbers.amount(npv)}`, x(npv), FRAME.top - 14, {
        class: 'strong',
        'text-anchor': 'middle',
      }),
    ],
  });
}

function row(
  bar: TornadoBar,
  top: number,
  npv: number,
  x: (value: number) => number,
  numbers: LocaleNumbers,
): string[] {
  const middle = top + ROW / 2;
  const ends = [
    { value: bar.low, npv: bar.npvLow, kind: 'open' },
    { value: bar.high, npv: bar.npvHigh, kind: 'full' },
  ];
  // The longer end first, so that a shorter one on the same side stays to be seen.
  const drawn = [...ends].sort((a, b) => Math.abs(b.npv - npv) - Math.abs(a.npv - npv));
  const sameSide = (bar.npvLow - npv) * (bar.npvHigh - npv) > 0;
  return [
    label(bar.item, FRAME.left - 8, middle + 4, { 'text-anchor': 'end' }),
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
        return label(numbers.typed(end.value), x(end.npv) + (rightwards ? 5 : -5), middle + 4, {
          class: 'tick',
          'text-anchor': rightwards ? 'start' : 'end',
        });
      }),
  ];
}
