/**
 * The first screen, to be read by itself and passed on: one sentence, four figures, the cell with its robot, what each
 * pattern makes, and what a change would add to the week.
 */

import { chanceText } from '../../core/model/chance-text.js';
import { watchedWay } from '../../core/model/watched-way.js';
import type { WeekOption } from '../../core/report/week-options.js';
import { cellPlanChart } from '../charts/cell-plan-chart.js';
import type { ChartOrReason } from '../charts/chart-of.js';
import { patternPartsChart } from '../charts/output-charts.js';
import { wayInWords } from '../cost-document/case-view.js';
import {
  type Block,
  type InnerBlock,
  type KeyFigure,
  lead,
  left,
  note,
  right,
  tableOf,
} from '../document/blocks.js';
import { countText } from '../numbers.js';
import { leadText, recommendedRow } from './answer.js';
import type { ReportView } from './report-view.js';

export function memoBlocks(view: ReportView): Block[] {
  const { cell, schedule, shifts } = view.results;
  const charts = [
    cellPlanChart(cell, schedule),
    ...(shifts === null ? [] : [patternPartsChart(shifts.patterns)]),
  ];
  return [
    lead(leadText(view)),
    { kind: 'figures', items: keyFigures(view) },
    { kind: 'beside', even: true, pieces: charts.map((chart) => [halved(chart)]) },
    ...whatIfBlocks(view),
  ];
}

function halved(chart: ChartOrReason): InnerBlock {
  return chart.kind === 'chart' ? { ...chart, half: true } : chart;
}

const FIGURES_SHOWN = 4;

/** The four that carry the answer; where a table is lacking, what the cell alone gives takes the place. */
export function keyFigures(view: ReportView): KeyFigure[] {
  const { results, numbers } = view;
  const { schedule } = results;
  const gap =
    schedule.gapPct === null ? '' : `; any sequence could gain at most ${numbers.percent(schedule.gapPct)}`;
  const row = recommendedRow(view);
  const all: readonly (KeyFigure | null)[] = [
    {
      value: numbers.number(schedule.partsPerH.total!, 1),
      what: 'parts an hour, steady robot cycle',
      sure: schedule.proven ? 'proven optimal: no sequence makes more' : `best found${gap}`,
    },
    weekFigure(view),
    shiftFigure(view),
    boxFigure(view),
    {
      value: numbers.percent(schedule.robot.utilizationPct, 0),
      what: 'of the robot cycle the robot is busy',
      sure: 'at constant times',
    },
    row === null
      ? null
      : {
          value: numbers.number(row.machines),
          what: `${row.machines === 1 ? 'machine' : 'machines'} to give the robot`,
          sure: `by ${results.size.recommended!.measure}; ${countText(results.size.rows.length, 'number', 'numbers')} of machines tried`,
        },
  ];
  return all.filter((figure) => figure !== null).slice(0, FIGURES_SHOWN);
}

function weekFigure({ results, numbers }: ReportView): KeyFigure | null {
  const week = results.week?.base ?? null;
  if (week === null) return null;
  const share = (100 * week.partsPerWeek.total!) / week.ceilingPerWeek.total!;
  return {
    value: numbers.number(week.partsPerWeek.total!),
    what: `good parts a week, ${week.pattern}, program ${week.program}`,
    sure: `${Number.isFinite(share) ? `${numbers.percent(share, 0)} of the steady rate; ` : ''}without random stops`,
  };
}

function shiftFigure({ results, numbers }: ReportView): KeyFigure | null {
  const { result } = results.simulation;
  const total = result.partsPerShift.total;
  if (total === undefined || result.deadlock !== null) return null;
  const where = results.simulatedPattern ?? 'day and night';
  const sure =
    total.ciLow === null || total.ciHigh === null
      ? 'one run, no interval'
      : `${numbers.number(total.ciLow, 1)} to ${numbers.number(total.ciHigh, 1)} at ${numbers.percent(result.confidencePct, 0)} confidence`;
  return {
    value: numbers.number(total.mean, 1),
    what: `good parts a shift with downtime and variation, ${where}`,
    sure,
  };
}

function boxFigure({ numbers, money }: ReportView): KeyFigure | null {
  if (money === null) return null;
  const { watched } = money;
  const { increment, risk } = watchedWay(money.result);
  if (increment === null) return null;
  return {
    value: numbers.money(increment.npv),
    what: `present value of ${wayInWords(money, watched)} over moving the harness`,
    sure:
      risk.items.length === 0
        ? 'no item has a low and a high'
        : `pays in ${chanceText(risk.probabilityPays, (pct) => numbers.percent(pct))} of ${numbers.number(risk.trials)} trials`,
  };
}

function whatIfBlocks(view: ReportView): Block[] {
  const { numbers, results, facts } = view;
  const { week } = results;
  if (week === null || week.options.length === 0) return [];
  const { base } = week;
  const more = (value: number | null, text: (size: number) => string) =>
    value === null ? '-' : `${value > 0 ? '+' : value < 0 ? '-' : ''}${text(Math.abs(value))}`;
  const unit = facts.currency === '' ? 'money' : facts.currency;
  const row = ({ what, partsPerWeek, moneyPerWeek, sure }: WeekOption) => [
    what,
    more(partsPerWeek, (size) => numbers.number(size)),
    more(moneyPerWeek, (size) => numbers.number(size)),
    sure,
  ];
  const now = base.contributionPerWeek;
  return [
    tableOf(
      `What-if, each change by itself against ${base.pattern} as it is`,
      [left('change'), right('good parts a week'), right(`${unit} a week`), left('how sure')],
      [
        [
          `as it is: ${base.pattern}, program ${base.program}`,
          numbers.number(base.partsPerWeek.total!),
          now === null ? '-' : numbers.number(now),
          'its own week, constant times',
        ],
        ...week.options.map(row),
      ],
    ),
    note(
      `${unit === 'money' ? 'Money' : unit} a week is the margin: contribution of the good parts less labour and running costs. What a change costs to buy is not in it, except for boxes. \`invest\` weighs a price against it.`,
    ),
  ];
}
