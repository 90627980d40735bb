/** What each way costs in all against the number of changeovers, and where the lines cross. */
import { scaleLinear } from 'd3-scale';
import type { CostCaseFound } from '../../core/cost/result.js';
import type { ChartBlock } from '../document/blocks.js';
import type { LocaleNumbers } from '../document/locale-numbers.js';
import type { TickScale } from './axes.js';
import { type ChartTexts, chartOf, type Drawing, WIDE } from './chart-of.js';
import { nameLabel } from './name-label.js';
import { element, flag, label, path, stroke } from './svg.js';
import { textWidth } from './text-width.js';

const FRAME = { top: 30, bottom: 48 };
const TEXT_GAP = 16;

type Point = CostCaseFound['cumulativeCost']['points'][number];

interface Series {
  readonly name: string;
  readonly kind: string;
  readonly cost: (point: Point) => number;
}

/** @returns null where no changeovers are planned, so that there is nothing to draw */
export function crossingChart(
  result: CostCaseFound,
  texts: ChartTexts,
  numbers: LocaleNumbers,
): ChartBlock | null {
  if (result.cumulativeCost.points.length === 0) return null;
  return chartOf({ ...texts, draw: (width) => drawing(result, numbers, width) });
}

/** Edges of the field in which the lines run. */
interface Field {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly isWide: boolean;
}

function drawing(result: CostCaseFound, numbers: LocaleNumbers, width: number): Drawing {
  const isWide = width === WIDE;
  const height = isWide ? 330 : 300;
  const { points } = result.cumulativeCost;
  const series = seriesOf(result);
  const most = Math.max(...points.map((p) => p.changeovers));
  const costs = series.flatMap(({ cost }) => points.map(cost));
  const bottom = height - FRAME.bottom;
  const y = scaleLinear([Math.min(0, ...costs), Math.max(...costs)], [bottom, FRAME.top]).nice();
  const left = 12 + Math.max(...y.ticks(5).map((tick) => textWidth(numbers.number(tick), 12)));
  const field: Field = { left, right: width - (isWide ? 198 : 16), bottom, isWide };
  const x = scaleLinear([0, most], [field.left, field.right]);
  const key = isWide ? [] : seriesKey(series, height);
  return {
    height: height + key.length * (TEXT_GAP + 4),
    content: [
      ...axes(result, x, y, numbers, field),
      ...planned(result, x, y, numbers, field),
      ...series.map(({ cost, kind }) =>
        path(
          points,
          (p) => x(p.changeovers),
          (p) => y(cost(p)),
          kind,
        ),
      ),
      ...(isWide ? names(series, points, y, field) : key),
      ...crossing(result, x, y, numbers, field),
    ],
  };
}

/** Where there is no room at the ends of the lines, their names stand below. */
function seriesKey(series: readonly Series[], top: number): string[] {
  return series.map((s, k) => {
    const at = top + k * TEXT_GAP + 12;
    return `${stroke(0, at, 34, at, s.kind)}${nameLabel(s.name, 42, at + 4, 300)}`;
  });
}

type Scale = (value: number) => number;

function seriesOf({ alternatives, cumulativeCost, decision }: CostCaseFound): Series[] {
  const [harness, boxes] = alternatives;
  const base: Series[] = [
    { name: harness!.name, kind: 'line', cost: (p) => p.harness },
    { name: boxes!.name, kind: 'line dash', cost: (p) => p.box },
  ];
  if (cumulativeCost.points[0]?.choice === undefined) return base;
  return [...base, { name: decision, kind: 'line dots', cost: (p) => p.choice! }];
}

function axes(
  result: CostCaseFound,
  x: TickScale,
  y: TickScale,
  numbers: LocaleNumbers,
  { left, right: rightEnd, bottom, isWide }: Field,
): string[] {
  const unit = result.currency === '' ? '' : `, ${result.currency}`;
  return [
    ...y
      .ticks(5)
      .flatMap((tick) => [
        stroke(left, y(tick), rightEnd, y(tick), 'grid'),
        label(numbers.number(tick), left - 8, y(tick) + 4, 'tick', 'end'),
      ]),
    ...x
      .ticks(isWide ? 6 : 4)
      .flatMap((tick) => [
        stroke(x(tick), bottom, x(tick), bottom + 5, 'axis'),
        label(numbers.number(tick), x(tick), bottom + 19, 'tick', 'middle'),
      ]),
    stroke(left, bottom, rightEnd, bottom, 'axis'),
    label(`present value of costs${unit}`, 4, 14),
    label(`changeovers over ${result.horizonYears} years, all machines`, rightEnd, bottom + 42, '', 'end'),
  ];
}

/** Each line is named at its end, so that no colour is needed to tell them apart. */
function names(
  series: readonly Series[],
  points: readonly Point[],
  y: Scale,
  { right: end, bottom }: Field,
): string[] {
  const last = points[points.length - 1]!;
  const wanted = series.map((s) => y(s.cost(last)) + 4);
  const heights = spreadLabels(wanted, TEXT_GAP, bottom);
  return series.map((s, k) => nameLabel(s.name, end + 8, heights[k]!, 190));
}

function planned(
  result: CostCaseFound,
  x: Scale,
  y: TickScale,
  numbers: LocaleNumbers,
  { right }: Field,
): string[] {
  const text = `${numbers.number(result.plannedChangeovers)} planned`;
  const place = { from: y(y.domain()[0]!), to: FRAME.top - 4, textY: FRAME.top + 4, right };
  return flag(text, x(result.plannedChangeovers), place);
}

/** Of the recommended way, where it has a line of its own. */
function crossing(
  result: CostCaseFound,
  x: Scale,
  y: Scale,
  numbers: LocaleNumbers,
  { left, right: end }: Field,
): string[] {
  const { crossing: every, choiceCrossing, points } = result.cumulativeCost;
  const count = choiceCrossing ?? every;
  const point = points.find((p) => p.changeovers === count);
  if (count === null || point === undefined) return [];
  const [cx, cy] = [x(count), y(point.harness)];
  const text = `cross at ${numbers.number(Math.ceil(count - 1e-9))}`;
  const room = textWidth(text) + 10;
  // Under the lines, where the third one crosses below the second.
  const isBelow = choiceCrossing != null;
  const before = cx + room > end || (!isBelow && count <= result.plannedChangeovers && cx - room > left);
  return [
    element('circle', { cx, cy, r: 5, class: 'mark' }),
    label(text, cx + (before ? -10 : 10), cy + (isBelow ? 20 : -10), 'strong over', before ? 'end' : 'start'),
  ];
}

/**
 * Moves labels apart where they would cover one another.
 *
 * @param wanted heights at which the labels would best stand
 * @param gap least distance between two
 * @returns heights in the order of `wanted`, as near to them as the gap lets, none beyond `most`
 * @example spreadLabels([10, 12], 14, 100) // [10, 24]
 */
export function spreadLabels(wanted: readonly number[], gap: number, most: number): number[] {
  const order = wanted.map((_, k) => k).sort((a, b) => wanted[a]! - wanted[b]!);
  const heights = [...wanted];
  let last = Number.NEGATIVE_INFINITY;
  for (const k of order) last = heights[k] = Math.max(wanted[k]!, last + gap);
  let next = most + gap;
  for (const k of order.reverse()) next = heights[k] = Math.min(heights[k]!, next - gap);
  return heights;
}
