/** How far each doubtful input alone moves the answer: the chart with what it says, and its figures. */
import type { TornadoBar } from '../../core/cost/doubt/tornado.js';
import { itemLabel } from '../../core/model/cost-items.js';
import { type ChartOrReason, noChart } from '../charts/chart-of.js';
import { tornadoChart } from '../charts/tornado-chart.js';
import { figures, readTable, words } from '../columns.js';
import type { TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { upperFirst } from '../first-letter.js';
import { type CaseView, decisiveIncrement, inMoney, subject, wayInWords } from './case-view.js';

const BARS_SHOWN = 12;

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
  const texts = { title, description, note, data: tornadoTable(view, bars) };
  return tornadoChart({ ...texts, bars: shown, npv, currency: result.currency }, numbers);
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
