/** What a compared cell takes in and costs a week, by its simulated weeks in a shift pattern. */

import { askedPerWeek } from '../calendar/asked-amounts.js';
import { weekCalendar } from '../calendar/week-calendar.js';
import type { CellMoney } from '../cost/invest/investments.js';
import { soldPerWeek } from '../cost/standing/standing-facts.js';
import type { Cell } from '../model/cell.js';
import { runningCostPerH } from '../model/contribution.js';
import { costNumber } from '../model/cost-value.js';
import { labourCostPerWeek } from '../shifts/labour-cost.js';
import type { SimulationResult } from '../simulate/simulation-result.js';
import { pairedDifference } from '../statistics/mean-interval.js';

/** A cell in one of its patterns, run with its downtime and variation. */
export interface CellInPattern {
  readonly name: string;
  readonly cell: Cell;
  readonly pattern: string;
  readonly run: Pick<SimulationResult, 'partsPerShift' | 'meanByReplication'>;
  /** Share that a better robot sequence could add at most; null = no bound is known. */
  readonly openShare: number | null;
}

/** @param first the cell that is there, run with the same random numbers; it may be the same one */
export function cellMoney(of: CellInPattern, first: CellInPattern): CellMoney {
  const { name, cell, pattern, run, openShare } = of;
  const week = weekCalendar(cell.shifts, pattern);
  const shifts = week.shifts.length;
  const made = Object.fromEntries(
    Object.entries(run.partsPerShift).map(([part, { mean }]) => [part, mean * shifts]),
  );
  const total = made.total ?? 0;
  const parts = cell.routes.map(({ part }) => {
    const row = cell.parts.find((each) => each.part === part);
    return { part, each: row?.contribution ?? 0, asked: askedPerWeek(row, shifts) };
  });
  const rows = cell.shifts.filter((row) => row.pattern === pattern);
  const costs = labourCostPerWeek(rows) + week.hoursPerWeek * runningCostPerH(cell);
  const money = (share: number) =>
    soldPerWeek(parts, Object.fromEntries(Object.entries(made).map(([part, n]) => [part, n * share]))) -
    costs;
  const weeks = ({ cell, pattern, run }: CellInPattern) => {
    const each = weekCalendar(cell.shifts, pattern).shifts.length;
    return run.meanByReplication.map((perShift) => perShift * each);
  };
  const apart = of === first ? null : pairedDifference(weeks(of), weeks(first));
  // The interval of the difference, carried over to what the cell makes.
  const end = (off: number) => (total > 0 ? money(Math.max(0, 1 + off / total)) : money(1));
  const isSure = apart !== null && apart.n > 1;
  const number = (item: string) => costNumber(cell.costs, item);
  return {
    name,
    partsPerWeek: total,
    moneyPerWeek: money(1),
    moneyPerWeekLow: isSure ? end(apart.ciLow - apart.mean) : null,
    moneyPerWeekHigh: isSure ? end(apart.ciHigh - apart.mean) : null,
    moneyPerWeekOpen: openShare === null ? null : money(1 + openShare),
    price: number('invest_price') ?? 0,
    lifeYears: number('invest_life_years') ?? number('horizon_years') ?? 1,
    yearlyCost: number('invest_yearly_cost') ?? 0,
    salvage: number('invest_salvage') ?? 0,
  };
}
