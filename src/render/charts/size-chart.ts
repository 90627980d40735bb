/** Parts, cost and margin against the number of machines: one small panel each, the recommended number marked. */

import { scaleLinear } from 'd3-scale';
import { amountText } from '../../core/model/amount-text.js';
import type { Estimate } from '../../core/simulate/simulation-result.js';
import type { Recommendation } from '../../core/size/recommend.js';
import type { SizeRow } from '../../core/size/size-row.js';
import { countText, numberText } from '../numbers.js';
import { AXIS_BELOW, type Axis, axisBeside, besideWidth, tickDigits } from './axes.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { circle, element, flag, label, oblong, path, stroke } from './svg.js';
import { textWidth } from './text-width.js';

const [FIELD_HEIGHT, TITLE_HEIGHT, GAP] = [130, 56, 28];

/** A row of the sizing, with what the simulation says of it where it was simulated. */
export type DrawnSizeRow = SizeRow & {
  readonly simulated?: { readonly partsPerShift: Estimate; readonly costPerPart?: Estimate | null } | null;
};

export interface DrawnSize {
  readonly rows: readonly DrawnSizeRow[];
  readonly recommended: Recommendation | null;
}

/** What one panel shows of each number of machines. */
interface Measure {
  readonly name: string;
  readonly digits: number;
  readonly of: (row: DrawnSizeRow) => number | null;
  readonly simulated: (row: DrawnSizeRow) => Estimate | null | undefined;
}

/** @param currency empty where the money has no name */
export function sizeChart(size: DrawnSize, currency: string): ChartOrReason {
  const { rows, recommended } = size;
  if (rows.length === 0)
    return noChart('For no number of machines a sequence was found, so there is nothing to draw.');
  const measures = measuresOf(rows, currency);
  const isSimulated = rows.some(({ simulated }) => simulated);
  return chartOf({
    title: titleOf(size, currency),
    description: rows
      .map(
        (row) =>
          `${countText(row.machines, 'machine')}: ${numberText(row.partsPerShift, 1)} good parts a shift at constant times`,
      )
      .join('; '),
    note: `Dots: the best sequence at constant times${isSimulated ? '; open dots with bars: simulated means with their intervals' : ''}. Open squares mark a number of machines for which the sequence may not be the best one. ${recommended === null ? '' : 'The dashed line marks the recommended number.'}`.trim(),
    draw: (width) => drawing(size, measures, width),
  });
}

function measuresOf(rows: readonly DrawnSizeRow[], currency: string): Measure[] {
  const unit = currency === '' ? '' : `, ${currency}`;
  const [parts, cost, margin] = ['good parts a shift', `cost per part${unit}`, `margin an hour${unit}`];
  const all: Measure[] = [
    {
      name: parts,
      digits: 0,
      of: (row) => row.partsPerShift,
      simulated: (row) => row.simulated?.partsPerShift,
    },
    { name: cost, digits: 2, of: (row) => row.costPerPart, simulated: (row) => row.simulated?.costPerPart },
    { name: margin, digits: 2, of: (row) => row.contributionPerH, simulated: () => null },
  ];
  return all.filter(({ of }) => rows.some((row) => of(row) !== null));
}

function titleOf({ rows, recommended }: DrawnSize, currency: string): string {
  const best = rows.find((row) => row.machines === recommended?.machines);
  if (!best || recommended === null) {
    const most = rows.reduce((a, b) => (b.partsPerShift > a.partsPerShift ? b : a));
    return `${countText(most.machines, 'machine')} ${most.machines === 1 ? 'makes' : 'make'} ${numberText(most.partsPerShift)} good parts a shift at constant times`;
  }
  const parts = `${numberText(best.partsPerShift)} good parts a shift at constant times`;
  const cost = best.costPerPart === null ? '' : ` at ${amountText(best.costPerPart, currency)} a part`;
  return `${countText(best.machines, 'machine')}: ${parts}${cost}, the best by ${recommended.measure.replace('contribution', 'margin')}`;
}

function drawing(size: DrawnSize, measures: readonly Measure[], width: number): Drawing {
  const columns = width === WIDE ? Math.max(2, measures.length) : 1;
  const panelWidth = (width - (columns - 1) * GAP) / columns;
  const panelHeight = TITLE_HEIGHT + FIELD_HEIGHT + AXIS_BELOW + (columns === 1 ? 14 : 0);
  return {
    height: Math.ceil(measures.length / columns) * panelHeight,
    content: measures.map((measure, k) =>
      panel(size, measure, {
        left: (k % columns) * (panelWidth + GAP),
        top: Math.floor(k / columns) * panelHeight,
        width: panelWidth,
      }),
    ),
  };
}

interface Place {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

function panel({ rows, recommended }: DrawnSize, measure: Measure, place: Place): string {
  const [top, bottom] = [place.top + TITLE_HEIGHT, place.top + TITLE_HEIGHT + FIELD_HEIGHT];
  const axis = valueAxis(rows, measure, top, bottom);
  const [x0, x1] = [besideWidth(axis), place.width - 6];
  const counts = rows.map(({ machines }) => machines);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  const x = scaleLinear([least - 0.5, most + 0.5], [x0, x1]);
  const inner = [
    ...axisBeside(axis, x0, x1, place.top + 13),
    ...machineTicks(counts, x, bottom),
    label('machines', x1, bottom + 33, 'tick', 'end'),
    ...(recommended === null
      ? []
      : flag(
          `${recommended.machines} recommended`,
          x(recommended.machines),
          { from: top - 28, to: bottom, textY: top - 22, right: x1 },
          'tick over',
        )),
    ...curve(rows, measure, x, axis.scale),
    ...rows.flatMap((row) => interval(measure.simulated(row), x(row.machines) + 6, axis.scale)),
    ...values(rows, measure, x, axis.scale, x1),
  ];
  return element(
    'g',
    { transform: `translate(${Math.round(place.left)} 0)`, class: 'panel' },
    inner.join(''),
  );
}

function valueAxis(rows: readonly DrawnSizeRow[], measure: Measure, top: number, bottom: number): Axis {
  const values = rows.flatMap((row) => {
    const run = measure.simulated(row);
    const ends = !run ? [] : [run.mean, run.ciLow ?? run.mean, run.ciHigh ?? run.mean];
    return [measure.of(row) ?? 0, ...ends];
  });
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)];
  const scale = scaleLinear(least === most ? [0, 1] : [least, most], [bottom, top]).nice(4);
  const digits = tickDigits(scale, 4);
  return { scale, count: 4, text: (value) => numberText(value, digits), title: measure.name };
}

type Scale = (value: number) => number;

/** As many counts as stand clear of one another. */
function machineTicks(counts: readonly number[], x: Scale, bottom: number): string[] {
  let free = Number.NEGATIVE_INFINITY;
  return counts.flatMap((count) => {
    const half = textWidth(`${count}`, 12) / 2;
    if (x(count) - half < free + 5) return [];
    free = x(count) + half;
    return [label(`${count}`, x(count), bottom + 17, 'tick', 'middle')];
  });
}

function curve(rows: readonly DrawnSizeRow[], measure: Measure, x: Scale, y: Scale): string[] {
  const known = rows.filter((row) => measure.of(row) !== null);
  const [across, level] = [
    (row: DrawnSizeRow) => x(row.machines),
    (row: DrawnSizeRow) => y(measure.of(row)!),
  ];
  return [
    path(known, across, level, 'thin'),
    ...known.map((row) => {
      const [cx, cy] = [across(row), level(row)];
      return row.proven ? circle(cx, cy, 4, 'full point') : oblong(cx - 4, cy - 4, 8, 8, 'mark point');
    }),
  ];
}

function interval(run: Estimate | null | undefined, x: number, y: Scale): string[] {
  if (!run) return [];
  const dot = circle(x, y(run.mean), 3.5, 'mark simulated');
  if (run.ciLow === null || run.ciHigh === null) return [dot];
  return [stroke(x, y(run.ciLow), x, y(run.ciHigh), 'line'), dot];
}

/** The values beside their dots, where all have room. */
function values(rows: readonly DrawnSizeRow[], measure: Measure, x: Scale, y: Scale, x1: number): string[] {
  const known = rows.filter((row) => measure.of(row) !== null);
  const texts = known.map((row) => numberText(measure.of(row)!, measure.digits));
  const room = Math.max(...texts.map((text) => textWidth(text, 12))) + 4;
  if (known.length > 1 && Math.abs(x(2) - x(1)) < room) return [];
  return known.map((row, k) => {
    const level = (of: DrawnSizeRow | undefined) => y(measure.of(of ?? row)!);
    // Off the line: where it rises it leaves to the right, where it falls it comes from the left.
    const isRising =
      known[k + 1] === undefined ? level(known[k - 1]) >= level(row) : level(known[k + 1]) < level(row);
    const at = isRising
      ? x(row.machines) + 3
      : Math.min(x(row.machines) - 3, x1 + 6 - textWidth(texts[k]!, 12));
    return label(texts[k]!, at, level(row) - 9, 'tick over', isRising ? 'end' : 'start');
  });
}
