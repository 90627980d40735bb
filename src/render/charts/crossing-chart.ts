/** What each way costs in all against the number of changeovers, and where the lines cross. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { CostCaseFound } from '../../core/cost/result.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import { spreadLabels } from './spread-labels.js';
import { element, label, picture, stroke } from './svg.js';

const [WIDTH, HEIGHT] = [700, 330];
const FRAME = { left: 66, right: 198, top: 30, bottom: 48 };
const TEXT_GAP = 16;

type Point = CostCaseFound['cumulativeCost']['points'][number];

interface Series {
  readonly name: string;
  readonly kind: string;
  readonly cost: (point: Point) => number;
}

export interface CrossingTexts {
  readonly title: string;
  readonly description: string;
}

/** @returns null where no changeovers are planned, so that there is nothing to draw */
export function crossingChart(
  result: CostCaseFound,
  texts: CrossingTexts,
  numbers: LocaleNumbers,
): string | null {
  const { points } = result.cumulativeCost;
  if (points.length === 0) return null;
  const series = seriesOf(result);
  const most = Math.max(...points.map((p) => p.changeovers));
  const costs = series.flatMap(({ cost }) => points.map(cost));
  const x = scaleLinear([0, most], [FRAME.left, WIDTH - FRAME.right]);
  const y = scaleLinear(
    [Math.min(0, ...costs), Math.max(...costs)],
    [HEIGHT - FRAME.bottom, FRAME.top],
  ).nice();
  const content = [
    ...axes(result, x, y, numbers),
    ...planned(result, x, y, numbers),
    ...series.map((s) => curve(s, points, x, y)),
    ...names(series, points, y),
    ...crossing(result, x, y, numbers),
  ];
  return picture({ width: WIDTH, height: HEIGHT, ...texts, content });
}

type Scale = (value: number) => number;
type TickScale = Scale & { ticks(count: number): number[]; domain(): number[] };

function seriesOf({ alternatives, cumulativeCost, decision }: CostCaseFound): Series[] {
  const [harness, boxes] = alternatives;
  const base: Series[] = [
    { name: harness!.name, kind: 'line', cost: (p) => p.harness },
    { name: boxes!.name, kind: 'line dash', cost: (p) => p.box },
  ];
  if (cumulativeCost.points[0]?.choice === undefined) return base;
  return [...base, { name: decision, kind: 'line dots', cost: (p) => p.choice! }];
}

function axes(result: CostCaseFound, x: TickScale, y: TickScale, numbers: LocaleNumbers): string[] {
  const [left, bottom] = [FRAME.left, HEIGHT - FRAME.bottom];
  const rightEnd = WIDTH - FRAME.right;
  const unit = result.currency === '' ? '' : `, ${result.currency}`;
  return [
    ...y
      .ticks(5)
      .flatMap((tick) => [
        stroke(left, y(tick), rightEnd, y(tick), 'grid'),
        label(numbers.number(tick), left - 8, y(tick) + 4, { class: 'tick', 'text-anchor': 'end' }),
      ]),
    ...x
      .ticks(6)
      .flatMap((tick) => [
        stroke(x(tick), bottom, x(tick), bottom + 5, 'axis'),
        label(numbers.number(tick), x(tick), bottom + 19, { class: 'tick', 'text-anchor': 'middle' }),
      ]),
    stroke(left, bottom, rightEnd, bottom, 'axis'),
    label(`all costs at present value${unit}`, 4, 14),
    label(`changeovers over ${result.horizonYears} years, all machines`, rightEnd, HEIGHT - 6, {
      'text-anchor': 'end',
    }),
  ];
}

function curve(series: Series, points: readonly Point[], x: Scale, y: Scale): string {
  const path = line<Point>()
    .x((point) => x(point.changeovers))
    .y((point) => y(series.cost(point)))
    .digits(1)(points);
  return element('path', { d: path ?? '', class: series.kind });
}

/** Each line is named at its end, so that no colour is needed to tell them apart. */
function names(series: readonly Series[], points: readonly Point[], y: Scale): string[] {
  const end = points[points.length - 1]!;
  const wanted = series.map((s) => y(s.cost(end)) + 4);
  const heights = spreadLabels(wanted, TEXT_GAP, HEIGHT - FRAME.bottom);
  return series.map((s, k) => label(s.name, WIDTH - FRAME.right + 8, heights[k]!));
}

function planned(result: CostCaseFound, x: Scale, y: TickScale, numbers: LocaleNumbers): string[] {
  const at = x(result.plannedChangeovers);
  const text = `${numbers.number(result.plannedChangeovers)} planned`;
  return [
    stroke(at, y(y.domain()[0]!), at, FRAME.top - 4, 'plan'),
    label(text, at + 5, FRAME.top + 4, { class: 'strong' }),
  ];
}

function crossing(result: CostCaseFound, x: Scale, y: Scale, numbers: LocaleNumbers): string[] {
  const { crossing: count, points } = result.cumulativeCost;
  const point = points.find((p) => p.changeovers === count);
  if (count === null || point === undefined) return [];
  const [cx, cy] = [x(count), y(point.box)];
  const before = count <= result.plannedChangeovers;
  return [
    element('circle', { cx, cy, r: 5, class: 'mark' }),
    label(`cross at ${numbers.number(Math.ceil(count - 1e-9))}`, cx + (before ? -10 : 10), cy - 10, {
      class: 'strong',
      'text-anchor': before ? 'end' : 'start',
    }),
  ];
}
