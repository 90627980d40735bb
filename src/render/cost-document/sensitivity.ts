/** How the answer bears doubt: each input alone, the values that turn it, all at once, and the number of changeovers. */
import type { BreakPoint } from '../../core/cost/doubt/break-points.js';
import type { Risk } from '../../core/cost/doubt/risk.js';
import type { TornadoBar } from '../../core/cost/doubt/tornado.js';
import { tornadoChart } from '../charts/tornado-chart.js';
import { type Block, left, right } from '../document/blocks.js';
import { type CaseView, decisiveIncrement, inMoney, wayInWords } from './case-view.js';

const BARS_SHOWN = 12;
const TURNS_SHOWN = 12;

export function sensitivityBlocks(view: CaseView): Block[] {
  return [
    { kind: 'section', title: 'Sensitivity and risk' },
    ...tornadoBlocks(view),
    breakPointTable(view),
    ...riskBlocks(view),
    { kind: 'section', title: 'Cost against the number of changeovers' },
    costTable(view),
  ];
}

function tornadoBlocks(view: CaseView): Block[] {
  const { result, numbers, watched } = view;
  const bars = result.tornadoOfChoice ?? result.tornado;
  if (bars.length === 0)
    return [
      {
        kind: 'paragraph',
        text: 'No cost item has a low and a high, so nothing can be said about sensitivity. Fill in both columns of costs.csv for the items that you are least sure of.',
      },
    ];
  const shown = bars.slice(0, BARS_SHOWN);
  const npv = decisiveIncrement(view, watched)?.npv ?? 0;
  const title = tornadoTitle(view, bars, npv);
  const description = `${shown[0]!.item} moves the present value from ${numbers.money(shown[0]!.npvLow)} to ${numbers.money(shown[0]!.npvHigh)}.`;
  const svg = tornadoChart({ bars: shown, npv, currency: result.currency, title, description }, numbers);
  const note = `Open bar: the item at its low; full bar: at its high; the numbers beside the bars are these values. ${wayInWords(view, watched)} less moving the harness, ${result.basis}.${bars.length > shown.length ? ` The ${shown.length} largest of ${bars.length} are drawn.` : ''}`;
  return [{ kind: 'chart', title, description, svg, note }, tornadoTable(view, bars)];
}

function tornadoTitle(view: CaseView, bars: readonly TornadoBar[], npv: number): string {
  const turning = bars.filter((bar) => npv > 0 !== bar.npvLow > 0 || npv > 0 !== bar.npvHigh > 0);
  const most = `${bars[0]!.item} moves the value of ${wayInWords(view, view.watched)} most`;
  if (turning.length === 0) return `${most}; no item alone turns the answer within its range`;
  return `${most}; ${turning.length === 1 ? `${turning[0]!.item} alone turns` : `${turning.length} items can each turn`} the answer within ${turning.length === 1 ? 'its range' : 'their ranges'}`;
}

function tornadoTable(view: CaseView, bars: readonly TornadoBar[]): Block {
  const { numbers } = view;
  return {
    kind: 'table',
    caption: `Present value with one item alone at its low and at its high${inMoney(view)}`,
    columns: [left('item'), right('low'), right('high'), right('value at low'), right('value at high')],
    rows: bars.map((bar) => [
      bar.item,
      numbers.typed(bar.low),
      numbers.typed(bar.high),
      numbers.number(bar.npvLow),
      numbers.number(bar.npvHigh),
    ]),
  };
}

function breakPointTable(view: CaseView): Block {
  const { result, numbers } = view;
  const points = (result.breakPointsOfChoice ?? result.breakPoints).slice(0, TURNS_SHOWN);
  const change = ({ changePct }: BreakPoint) => (changePct === null ? 'from 0' : numbers.percent(changePct));
  return {
    kind: 'table',
    caption: `Break points of ${wayInWords(view, view.watched)}: the value of each item alone at which the answer turns; the ${points.length} nearest`,
    columns: [left('item'), right('as planned'), right('turns at'), right('change')],
    rows: points.map((point) => [
      point.item,
      numbers.typed(point.value),
      numbers.typed(Number(point.turnsAt.toPrecision(4))),
      change(point),
    ]),
  };
}

function riskBlocks(view: CaseView): Block[] {
  const { result, numbers, watched, boxes } = view;
  if (result.risk.items.length === 0) return [];
  const columns: readonly (readonly [name: string, risk: Risk])[] = result.riskOfChoice
    ? [
        [watched.name, result.riskOfChoice],
        [boxes.name, result.risk],
      ]
    : [[boxes.name, result.risk]];
  const row = (what: string, text: (risk: Risk) => string) => [what, ...columns.map(([, r]) => text(r))];
  const { trials, seed, distribution, items, correlations } = result.risk;
  const together =
    correlations.length === 0
      ? 'independent of one another'
      : `rank correlations ${correlations.map(({ a, b, rank }) => `${a} and ${b} ${numbers.typed(rank)}`).join('; ')}, all others independent`;
  return [
    {
      kind: 'table',
      caption: `Risk: all doubtful items at once, present value ${result.basis}${inMoney(view)}`,
      columns: [left('measure'), ...columns.map(([name]) => right(name))],
      rows: [
        row('chance that it pays', (r) => numbers.percent(100 * r.probabilityPays)),
        row('its standard error, points', (r) => numbers.number(100 * r.probabilityStandardError, 2)),
        row('mean', (r) => numbers.number(r.npv.mean)),
        row('standard deviation', (r) => numbers.number(r.npv.sd)),
        row('one in ten is below', (r) => numbers.number(r.npv.p10)),
        row('half are below', (r) => numbers.number(r.npv.p50)),
        row('one in ten is above', (r) => numbers.number(r.npv.p90)),
      ],
    },
    {
      kind: 'paragraph',
      tone: 'note',
      text: `${numbers.number(trials)} trials, seed ${seed}, ${distribution === 'pert' ? 'PERT' : 'triangular'} distributions, ${items.length} ${items.length === 1 ? 'item' : 'items'}: ${items.join(', ')}; ${together}.`,
    },
  ];
}

function costTable(view: CaseView): Block {
  const { result, numbers, harness, boxes } = view;
  const { points, crossing } = result.cumulativeCost;
  const withChoice = points[0]?.choice !== undefined;
  // Every second of the even counts, and the two that matter.
  const shown = points.filter(
    (point, k) =>
      k % 2 === 0 || point.changeovers === crossing || point.changeovers === result.plannedChangeovers,
  );
  const mark = (count: number) =>
    [count === crossing ? 'cross' : '', count === result.plannedChangeovers ? 'planned' : '']
      .filter((word) => word !== '')
      .join(', ');
  return {
    kind: 'table',
    caption: `Present value of all costs before tax against the changeovers over ${result.horizonYears} years${inMoney(view)}`,
    columns: [
      right('changeovers'),
      right(harness.name),
      right(boxes.name),
      ...(withChoice ? [right(result.decision)] : []),
      left('note'),
    ],
    rows: shown.map((point) => [
      numbers.number(point.changeovers, Number.isInteger(point.changeovers) ? 0 : 1),
      numbers.number(point.harness),
      numbers.number(point.box),
      ...(withChoice ? [numbers.number(point.choice!)] : []),
      mark(point.changeovers),
    ]),
  };
}
