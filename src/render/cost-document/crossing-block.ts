/** Cost of both ways against the number of changeovers: the chart with what it says, and its figures. */
import type { CostCaseFound } from '../../core/cost/result.js';
import { crossingChart } from '../charts/crossing-chart.js';
import { type Column, figures, readTable, words } from '../columns.js';
import type { ChartBlock, TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { type CaseView, changeoverCountText, inMoney, subject, wayInWords } from './case-view.js';

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
  return crossingChart(result, { title, description, note, data: costTable(view) }, numbers);
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
