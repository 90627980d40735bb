/** Each doubtful input alone at its low and its high: how far the present value moves, and its figures. */

import { scaleLinear } from 'd3-scale';
import type { TornadoBar } from '../../core/cost/doubt/tornado.js';
import { itemLabel } from '../../core/model/cost-items.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from '../charts/chart-of.js';
import { nameLabel } from '../charts/name-label.js';
import { label, oblong, stroke } from '../charts/svg.js';
import { textWidth } from '../charts/text-width.js';
import { figures, readTable, words } from '../columns.js';
import type { TableBlock } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { tableBlock } from '../document/table-block.js';
import { upperFirst } from '../first-letter.js';
import { type CaseView, commaMoney, decisiveIncrement, inMoney, subject, wayInWords } from './case-view.js';

const BARS_SHOWN = 12;
const FRAME = { top: 52, bottom: 26 };
const BAR = 15;
/** Room for names beside the bars. */
const [LEAST_LEFT, MOST_LEFT] = [140, 300];

export function tornadoBlock(view: CaseView): ChartOrReason {
  const { result, numbers, watched } = view;
  const bars = (result.tornadoOfChoice ?? result.tornado).map((bar) => ({
    ...bar,
    item: itemLabel(bar.item),
  }));
  if (bars.length === 0)
    return noChart(
      'No cost item has a low and a high, so nothing can be said about sensitivity. Fill in both columns of costs.csv for the items that you are least sure of.',
    );
  const shown = bars.slice(0, BARS_SHOWN);
  const npv = decisiveIncrement(view, watched)?.npv ?? 0;
  const title = tornadoTitle(view, bars, npv);
  const description = `${upperFirst(shown[0]!.item)} moves the present value from ${numbers.money(shown[0]!.npvLow)} to ${numbers.money(shown[0]!.npvHigh)}.`;
  const note = `Open bar: the item at its low; full bar: at its high; the numbers beside the bars are these values. ${subject(view)} less moving the harness, ${result.basis}.${bars.length > shown.length ? ` The ${shown.length} largest of ${bars.length} are drawn.` : ''}`;
  const data = tornadoTable(view, bars);
  return chartOf({ title, description, note, data, draw: (width) => drawing(view, shown, npv, width) });
}

function tornadoTitle(view: CaseView, bars: readonly TornadoBar[], npv: number): string {
  const turning = bars.filter((bar) => npv > 0 !== bar.npvLow > 0 || npv > 0 !== bar.npvHigh > 0);
  const most = `${upperFirst(bars[0]!.item)} moves the value of ${wayInWords(view, view.watched)} most`;
  const worth = `worth ${npv > 0 ? 'less' : 'more'} than the harness`;
  if (turning.length === 0) return `${most}; no input alone makes it ${worth} within its range`;
  return turning.length === 1
    ? `${most}; ${turning[0]!.item} alone can make it ${worth} within its range`
    : `${most}; ${turning.length} inputs can each make it ${worth} within their ranges`;
}

function tornadoTable(view: CaseView, bars: readonly TornadoBar[]): TableBlock {
  const { numbers } = view;
  const typed = (name: string, of: (bar: TornadoBar) => number) =>
    figures<TornadoBar>(name, name, 1, of, { text: (bar) => numbers.typed(of(bar)) });
  const money = (name: string, of: (bar: TornadoBar) => number) =>
    figures<TornadoBar>(name, name, 0, of, { text: (bar) => numbers.number(of(bar)) });
  return tableBlock(
    `Present value with one item alone at its low and at its high${inMoney(view)}`,
    readTable(
      [
        words<TornadoBar>('item', 'item', (bar) => bar.item),
        typed('low', (bar) => bar.low),
        typed('high', (bar) => bar.high),
        money('value at low', (bar) => bar.npvLow),
        money('value at high', (bar) => bar.npvHigh),
      ],
      bars,
    ),
  );
}

/** Where the bars stand. */
interface Rows {
  readonly left: number;
  readonly height: number;
  readonly npv: number;
  readonly x: (value: number) => number;
}

function drawing(view: CaseView, bars: readonly TornadoBar[], npv: number, width: number): Drawing {
  const { numbers } = view;
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
  const planned = `as planned ${numbers.amount(npv)}`;
  const half = textWidth(planned) / 2;
  return {
    height,
    content: [
      label(`net present value${commaMoney(view)}`, right, 14, '', 'end'),
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
      oblong(Math.min(x(npv), x(end.npv)), middle - BAR / 2, Math.abs(x(end.npv) - x(npv)), BAR, end.kind),
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
