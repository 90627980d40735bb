/** What each way costs in all against the number of changeovers, where the lines cross, and the figures. */

import { scaleLinear } from 'd3-scale';
import type { CostCaseFound } from '../../core/cost/result.js';
import type { TickScale } from '../charts/axes.js';
import { chartOf, type Drawing, WIDE } from '../charts/chart-of.js';
import { nameLabel } from '../charts/name-label.js';
import { circle, flag, label, path, stroke } from '../charts/svg.js';
import { textWidth } from '../charts/text-width.js';
import { type Column, figures, readTable, words } from '../columns.js';
import type { ChartBlock, TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { type CaseView, changeoverCountText, commaMoney, inMoney, subject, wayInWords } from './case-view.js';

const FRAME = { top: 30, bottom: 48 };
const TEXT_GAP = 16;

type Point = CostCaseFound['cumulativeCost']['points'][number];

/** @returns null where no changeovers are planned */
export function crossingBlock(view: CaseView): ChartBlock | null {
  const { result, numbers } = view;
  const title = crossingTitle(view);
  const { points } = result.cumulativeCost;
  const last = points[points.length - 1];
  if (!last) return null;
  const description = `At ${numbers.number(last.changeovers)} changeovers moving the harness costs ${numbers.money(last.harness)}, a box on every machine ${numbers.money(last.box)}.`;
  const third =
    last.choice === undefined ? '' : `; dotted: ${result.decision} (${wayInWords(view, view.choice)})`;
  const note = `Solid line: ${view.harness.name}; dashed: ${view.boxes.name}${third}. Present value of all costs before tax, counts spread evenly over the years; steps are worn connector sets.`;
  const data = costTable(view);
  return chartOf({ title, description, note, data, draw: (width) => drawing(view, width) });
}

function crossingTitle(view: CaseView): string {
  const { result, numbers } = view;
  const planned = `${numbers.number(result.plannedChangeovers)} are planned`;
  const { crossing } = result.cumulativeCost;
  const own = result.breakEvenChangeovers.ofChoice?.total ?? null;
  if (own !== null) {
    const every = crossing === null ? 'at no number' : `from ${changeoverCountText(view, crossing)} on`;
    return `${subject(view)} cost less than the harness from ${changeoverCountText(view, own)} changeovers on, boxes on every machine ${every}; ${planned}`;
  }
  return crossing === null
    ? `Boxes on every machine cost more than the harness at any number of changeovers; ${planned}`
    : `Boxes on every machine cost less than the harness from ${changeoverCountText(view, crossing)} changeovers on; ${planned}`;
}

export function costTable(view: CaseView): TableBlock {
  const { result, numbers, harness, boxes } = view;
  const { points, crossing, choiceCrossing = null } = result.cumulativeCost;
  // Every second of the even counts, and the two that matter.
  const shown = points.filter(
    (point, k) =>
      k % 2 === 0 || [crossing, choiceCrossing, result.plannedChangeovers].includes(point.changeovers),
  );
  const mark = (count: number) =>
    [
      count === choiceCrossing ? 'cross, recommended' : '',
      count === crossing ? 'cross' : '',
      count === result.plannedChangeovers ? 'planned' : '',
    ]
      .filter((word) => word !== '')
      .join(', ');
  const money = (name: string, of: (point: Point) => number | null) =>
    figures<Point>(name, name, 0, of, { text: (point) => numbers.number(of(point)!) });
  const columns: Column<Point>[] = [
    figures('changeovers', 'changeovers', 0, (point) => point.changeovers, {
      text: ({ changeovers }) => numbers.number(changeovers, Number.isInteger(changeovers) ? 0 : 1),
    }),
    money(harness.name, (point) => point.harness),
    money(boxes.name, (point) => point.box),
    money(result.decision, (point) => point.choice ?? null),
    words('note', 'note', (point) => mark(point.changeovers)),
  ];
  return tableBlock(
    `Present value of all costs before tax against the changeovers over ${result.horizonYears} years${inMoney(view)}`,
    readTable(columns, shown),
  );
}

interface Series {
  readonly name: string;
  readonly kind: string;
  readonly cost: (point: Point) => number;
}

/** The scales, and the edges of the field in which the lines run. */
interface Plot {
  readonly x: TickScale;
  readonly y: TickScale;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly isWide: boolean;
}

function drawing(view: CaseView, width: number): Drawing {
  const { result, numbers } = view;
  const isWide = width === WIDE;
  const height = isWide ? 330 : 300;
  const { points } = result.cumulativeCost;
  const series = seriesOf(result);
  const most = Math.max(...points.map((p) => p.changeovers));
  const costs = series.flatMap(({ cost }) => points.map(cost));
  const bottom = height - FRAME.bottom;
  const y = scaleLinear([Math.min(0, ...costs), Math.max(...costs)], [bottom, FRAME.top]).nice();
  const left = 12 + Math.max(...y.ticks(5).map((tick) => textWidth(numbers.number(tick), 12)));
  const right = width - (isWide ? 198 : 16);
  const x = scaleLinear([0, most], [left, right]);
  const plot: Plot = { x, y, left, right, bottom, isWide };
  const key = isWide ? [] : seriesKey(series, height);
  const xOf = (p: Point) => x(p.changeovers);
  return {
    height: height + key.length * (TEXT_GAP + 4),
    content: [
      ...axes(view, plot),
      ...planned(view, plot),
      ...series.map(({ cost, kind }) => path(points, xOf, (p) => y(cost(p)), kind)),
      ...(isWide ? names(series, points, plot) : key),
      ...crossing(view, plot),
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

function seriesOf({ alternatives, cumulativeCost, decision }: CostCaseFound): Series[] {
  const [harness, boxes] = alternatives;
  const base: Series[] = [
    { name: harness!.name, kind: 'line', cost: (p) => p.harness },
    { name: boxes!.name, kind: 'line dash', cost: (p) => p.box },
  ];
  if (cumulativeCost.points[0]?.choice === undefined) return base;
  return [...base, { name: decision, kind: 'line dots', cost: (p) => p.choice! }];
}

function axes(view: CaseView, { x, y, left, right: rightEnd, bottom, isWide }: Plot): string[] {
  const { result, numbers } = view;
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
    label(`present value of costs${commaMoney(view)}`, 4, 14),
    label(`changeovers over ${result.horizonYears} years, all machines`, rightEnd, bottom + 42, '', 'end'),
  ];
}

/** Each line is named at its end, so that no colour is needed to tell them apart. */
function names(
  series: readonly Series[],
  points: readonly Point[],
  { y, right: end, bottom }: Plot,
): string[] {
  const last = points[points.length - 1]!;
  const wanted = series.map((s) => y(s.cost(last)) + 4);
  const heights = spreadLabels(wanted, TEXT_GAP, bottom);
  return series.map((s, k) => nameLabel(s.name, end + 8, heights[k]!, 190));
}

function planned({ result, numbers }: CaseView, { x, y, right }: Plot): string[] {
  const text = `${numbers.number(result.plannedChangeovers)} planned`;
  const place = { from: y(y.domain()[0]!), to: FRAME.top - 4, textY: FRAME.top + 4, right };
  return flag(text, x(result.plannedChangeovers), place);
}

/** Of the recommended way, where it has a line of its own. */
function crossing({ result, numbers }: CaseView, { x, y, left, right: end }: Plot): string[] {
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
    circle(cx, cy, 5, 'mark'),
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
