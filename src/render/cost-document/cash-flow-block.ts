/** Money by year: what each way costs, what the watched one has over moving the harness, and when that has paid itself back. */

import { scaleBand, scaleLinear } from 'd3-scale';
import type { AlternativeResult, CostCaseFound } from '../../core/cost/result.js';
import { type Axis, axisBeside, besideWidth } from '../charts/axes.js';
import { chartOf, type Drawing, WIDE } from '../charts/chart-of.js';
import { circle, label, oblong, path } from '../charts/svg.js';
import type { ChartBlock, TableBlock } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { tableBlock } from '../document/table-block.js';
import { upperFirst } from '../first-letter.js';
import { flowTable } from '../result-tables/cost-tables.js';
import {
  type CaseView,
  commaMoney,
  decisiveIncrement,
  discountText,
  inMoney,
  wayInWords,
} from './case-view.js';

const TITLE_HEIGHT = 34;
const PANEL_GAP = 22;

/** Flows and values that count: after tax where a tax is given. */
interface Flows {
  readonly harness: readonly number[];
  readonly way: readonly number[];
  readonly difference: readonly number[];
  /** Present value of the difference up to each year. */
  readonly running: readonly number[];
}

/** @param data where no table beside the chart has its figures */
export function cashFlowBlock(view: CaseView, data?: TableBlock): ChartBlock {
  const { result, watched, numbers } = view;
  const flows = flowsOf(view);
  const last = flows.running.length - 1;
  return chartOf({
    title: titleOf(view, flows),
    description: `Spent at the start: ${numbers.money(-flows.difference[0]!)} more than the harness. By the end of year ${last} the difference is worth ${numbers.money(flows.running[last]!)} today.`,
    note: `${upperFirst(result.basis)}; money out is below the line. Open bars: ${view.harness.name}; full bars: ${wayInWords(view, watched)}. The line: running present value of the difference at ${discountText(view)}.`,
    data,
    draw: (width) => drawing(view, flows, width),
  });
}

export function flowBlock(view: CaseView, basis: CostCaseFound['basis'] = view.result.basis): TableBlock {
  const caption = `Cash flow by year ${basis}${inMoney(view)}; money out is negative; rounded after adding up`;
  return tableBlock(caption, flowTable(view, basis));
}

function flowsOf(view: CaseView): Flows {
  const taxed = view.result.basis === 'after tax';
  const of = (way: AlternativeResult) => (taxed ? way.afterTax!.cashFlow : way.cashFlow);
  const { cashFlow: difference, runningPresentValue: running } = decisiveIncrement(view, view.watched)!;
  return { harness: of(view.harness), way: of(view.watched), difference, running };
}

function titleOf(view: CaseView, { running, difference }: Flows): string {
  const { result, numbers } = view;
  const name = wayInWords(view, view.watched);
  const paid = running.findIndex(
    (value, year) => year > 0 && running.slice(year).every((v) => v >= 0) && value >= 0,
  );
  const spent = -difference[0]!;
  const start =
    spent > 0
      ? `${numbers.money(spent)} more spent on ${name} at the start`
      : `${name} asks for no more at the start`;
  const years = `${result.horizonYears} ${result.horizonYears === 1 ? 'year' : 'years'}`;
  if (spent > 0 && paid > 0)
    return `The ${numbers.money(spent)} more spent on ${name} at the start is paid back, with interest, in year ${paid}`;
  const end = running.at(-1)!;
  return end >= 0
    ? `${start}; over ${years} the difference is worth ${numbers.money(end)}`
    : `${start}; over ${years} the difference costs ${numbers.money(-end)}`;
}

function drawing(view: CaseView, flows: Flows, width: number): Drawing {
  const { numbers } = view;
  const isWide = width === WIDE;
  const years = flows.difference.map((_, year) => `${year}`);
  const unit = commaMoney(view);
  const panels = [
    {
      title: `cash flow of each option${unit}`,
      height: isWide ? 120 : 105,
      values: [...flows.harness, ...flows.way],
    },
    { title: `difference, by year${unit}`, height: isWide ? 100 : 90, values: flows.difference },
    { title: `running present value of the difference${unit}`, height: 80, values: flows.running },
  ];
  const axes = panels.map(({ title, height, values }) => axisOf(title, height, values, numbers));
  const x0 = Math.max(...axes.map(besideWidth));
  const x = scaleBand(years, [x0, width - (isWide ? 8 : 2)])
    .paddingInner(0.3)
    .paddingOuter(0.15);
  let top = 0;
  const content = panels.flatMap(({ height }, k) => {
    const axis = axes[k]!;
    const y = (value: number) => top0 + TITLE_HEIGHT + axis.scale(value);
    const top0 = top;
    top += TITLE_HEIGHT + height + (k < panels.length - 1 ? PANEL_GAP - 12 : 0);
    return [
      ...axisBeside(
        { ...axis, scale: shifted(axis.scale, top0 + TITLE_HEIGHT) },
        x0,
        x.range()[1]!,
        top0 + 14,
      ),
      ...marksOf(k, flows, x, y, numbers, isWide),
    ];
  });
  return {
    height: top + 36,
    content: [
      ...content,
      ...years.map((year) => label(year, x(year)! + x.bandwidth() / 2, top + 16, 'tick', 'middle')),
      label('end of year', x.range()[1]!, top + 32, 'tick', 'end'),
    ],
  };
}

type Scale = Axis['scale'];

function axisOf(title: string, height: number, values: readonly number[], numbers: LocaleNumbers): Axis {
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)];
  const scale = scaleLinear(least === most ? [-1, 1] : [least, most], [height - 8, 8]).nice(3);
  return { scale, count: 3, text: (value) => numbers.number(value), title };
}

/** The same scale further down the page. */
function shifted(scale: Scale, by: number): Scale {
  return Object.assign((value: number) => scale(value) + by, {
    ticks: (count: number) => scale.ticks(count),
    domain: () => scale.domain(),
    range: () => scale.range().map((at) => at + by),
  });
}

type Band = ((year: string) => number | undefined) & { bandwidth(): number };

function marksOf(
  panel: number,
  flows: Flows,
  x: Band,
  y: (value: number) => number,
  numbers: LocaleNumbers,
  isWide: boolean,
): string[] {
  const years = flows.difference.map((_, year) => year);
  const half = x.bandwidth() / 2;
  const left = (year: number) => x(`${year}`)!;
  if (panel === 0)
    return years.flatMap((year) => [
      column(left(year), half - 1, flows.harness[year]!, y, 'open'),
      column(left(year) + half + 1, half - 1, flows.way[year]!, y, 'full'),
    ]);
  if (panel === 1)
    return years.flatMap((year) => {
      const value = flows.difference[year]!;
      return [
        column(left(year), 2 * half, value, y, value < 0 ? 'loss' : 'gain'),
        ...(isWide ? [valueLabel(value, left(year) + half, y, numbers)] : []),
      ];
    });
  const [middle, level] = [(year: number) => left(year) + half, (year: number) => y(flows.running[year]!)];
  return [
    path(years, middle, level, 'line'),
    ...years.map((year) => circle(middle(year), level(year), 3.5, 'mark')),
  ];
}

function column(x: number, width: number, value: number, y: (v: number) => number, kind: string): string {
  const height = Math.abs(y(value) - y(0));
  return oblong(x, Math.min(y(value), y(0)), width, height, kind);
}

/** At the end of a bar, on the side away from it. */
function valueLabel(value: number, x: number, y: (v: number) => number, numbers: LocaleNumbers): string {
  return label(numbers.number(value), x, value < 0 ? y(0) - 5 : y(value) - 5, 'tick', 'middle');
}
