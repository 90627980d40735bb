/** How the value of the decision spreads when every doubtful input is drawn at once, and how much of that pays. */

import { scaleLinear } from 'd3-scale';
import type { Risk } from '../../core/cost/doubt/risk.js';
import { chanceText } from '../../core/model/chance-text.js';
import { watchedWay } from '../../core/model/watched-way.js';
import { AXIS_BELOW, axisBelow } from '../charts/axes.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from '../charts/chart-of.js';
import { circle, label, oblong, stroke } from '../charts/svg.js';
import { BOLD, textWidth } from '../charts/text-width.js';
import { type Column, figures, readTable } from '../columns.js';
import type { TableBlock } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { tableBlock } from '../document/table-block.js';
import { type CaseView, commaMoney, subject } from './case-view.js';

const HEIGHT = { wide: 170, narrow: 150 };
const TOP = 62;

export function valueBlock(view: CaseView): ChartOrReason {
  const { result, numbers } = view;
  const { risk } = watchedWay(result);
  const { npv, trials } = risk;
  if (risk.items.length === 0)
    return noChart(
      'No cost item has a low and a high, so the value has no spread to draw. Fill in both columns of costs.csv for the items that you are least sure of.',
    );
  if (npv.histogram.counts.length < 2)
    return noChart(
      `In each of ${numbers.number(trials)} trials the value is about ${numbers.money(npv.mean)}: no spread to draw.`,
    );
  const share = chanceText(risk.probabilityPays, (pct) => numbers.percent(pct));
  return chartOf({
    title: `${subject(view)} pay in ${share} of ${numbers.number(trials)} trials; P10 to P90: ${numbers.money(npv.p10)} to ${numbers.money(npv.p90)}`,
    description: `The median trial is worth ${numbers.money(npv.p50)}, the mean is ${numbers.money(npv.mean)}.`,
    note: `Full bars: trials in which it pays; open bars: trials in which it does not. Net present value over moving the harness, ${result.basis}; ${numbers.number(risk.items.length)} inputs drawn at once, seed ${risk.seed}. The marks below the bars: one trial in ten is below the first, half are below the second, one in ten is above the third.`,
    data: countTable(risk, view),
    draw: (width) => drawing(risk, view, width),
  });
}

function drawing(risk: Risk, view: CaseView, width: number): Drawing {
  const { numbers } = view;
  const isWide = width === WIDE;
  const { from, step, counts } = risk.npv.histogram;
  const bottom = TOP + (isWide ? HEIGHT.wide : HEIGHT.narrow);
  const [x0, x1] = [10, width - 14];
  const x = scaleLinear([Math.min(0, from), Math.max(0, from + step * counts.length)], [x0, x1]);
  const y = scaleLinear([0, Math.max(...counts)], [bottom, TOP]);
  const axis = {
    scale: x,
    count: isWide ? 8 : 4,
    text: (value: number) => numbers.number(value),
    title: `net present value${commaMoney(view)}`,
  };
  const marksHeight = 20;
  return {
    height: bottom + marksHeight + AXIS_BELOW,
    content: [
      ...axisBelow(axis, TOP, bottom + marksHeight),
      ...counts.map((count, k) => stepBar(count, from + k * step, step, x, y)).filter((bar) => bar !== ''),
      stroke(x(0), TOP - 34, x(0), bottom + 4, 'thin'),
      ...shareLabels(risk, numbers, x, x0, x1),
      highest(counts, (k) => x(from + (k + 0.5) * step), TOP, numbers, width),
      ...quantileMarks(risk, x, bottom + 10),
    ],
  };
}

function stepBar(
  count: number,
  from: number,
  step: number,
  x: (v: number) => number,
  y: (n: number) => number,
): string {
  if (count === 0) return '';
  // Steps end at 0: one that begins a hair under it by rounding pays all the same.
  const pays = from > -step / 2;
  return oblong(
    x(from) + 0.5,
    y(count),
    Math.max(0.6, x(from + step) - x(from) - 1),
    y(0) - y(count),
    pays ? 'gain' : 'loss',
  );
}

/** On either side of 0 the share of the trials there; where that side has no room, at the edge of the other. */
function shareLabels(
  risk: Risk,
  numbers: LocaleNumbers,
  x: (v: number) => number,
  x0: number,
  x1: number,
): string[] {
  const [zero, paying] = [x(0), risk.probabilityPays];
  const share = (chance: number) => chanceText(chance, (pct) => numbers.percent(pct));
  const pays = `${share(paying)} pay`;
  const not = `${share(1 - paying)} do not`;
  const fits = (room: number, text: string) => room > BOLD * textWidth(text) + 10;
  const shown = [
    ...(paying > 0 ? [{ text: pays, rightwards: fits(x1 - zero, pays), kind: 'strong' }] : []),
    ...(paying < 1
      ? [{ text: not, rightwards: !fits(zero - x0, not), kind: paying > 0 ? 'figure' : 'strong' }]
      : []),
  ];
  const crowded = shown.length > 1 && shown[0]!.rightwards === shown[1]!.rightwards;
  return shown.map(({ text, rightwards, kind }, k) =>
    label(text, zero + (rightwards ? 8 : -8), crowded && k > 0 ? 36 : 19, kind, rightwards ? 'start' : 'end'),
  );
}

/** The highest bar tells what heights mean. */
function highest(
  counts: readonly number[],
  middle: (k: number) => number,
  y: number,
  numbers: LocaleNumbers,
  width: number,
): string {
  const most = Math.max(...counts);
  const text = `${numbers.number(most)} trials`;
  const half = textWidth(text, 12) / 2;
  const at = Math.min(Math.max(middle(counts.indexOf(most)), half), width - half);
  return label(text, at, y - 5, 'tick', 'middle');
}

function quantileMarks({ npv }: Risk, x: (v: number) => number, y: number): string[] {
  return [
    stroke(x(npv.p10), y, x(npv.p90), y, 'line'),
    ...[npv.p10, npv.p50, npv.p90].map((value, k) =>
      k === 1 ? circle(x(value), y, 4.5, 'mark') : stroke(x(value), y - 5, x(value), y + 5, 'line'),
    ),
  ];
}

function countTable({ npv, trials }: Risk, view: CaseView): TableBlock {
  const { numbers } = view;
  const { from, step, counts } = npv.histogram;
  const digits = Math.min(6, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  const steps = counts.map((count, k) => ({ from: from + k * step, to: from + (k + 1) * step, count }));
  const column = (heading: string, places: number, of: (row: (typeof steps)[number]) => number) =>
    figures(heading, heading, places, of, { text: (row) => numbers.number(of(row), places) });
  const columns: Column<(typeof steps)[number]>[] = [
    column('above', digits, (row) => row.from),
    column('up to', digits, (row) => row.to),
    column('trials', 0, (row) => row.count),
    column('% of all', 1, (row) => (100 * row.count) / trials),
  ];
  return tableBlock(
    `Trials by net present value${commaMoney(view)}; each step includes its upper end`,
    readTable(columns, steps),
  );
}
