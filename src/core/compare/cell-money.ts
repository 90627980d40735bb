/** What a compared cell takes in and costs a week, from the floor's own week. */

import { askedPerWeek } from '../calendar/asked-amounts.js';
import { weekCalendar } from '../calendar/week-calendar.js';
import type { CellMoney } from '../cost/invest/investments.js';
import { soldPerWeek } from '../cost/standing/standing-facts.js';
import type { Cell } from '../model/cell.js';
import { runningCostPerH } from '../model/contribution.js';
import { costNumber } from '../model/cost-value.js';
import type { ShiftYield } from '../shifts/shift-yield.js';
import type { ComparedPair } from './comparison.js';

/**
 * @param week the pattern's week on the floor
 * @param pair simulated parts a shift against the first cell, with its interval; null for the first
 */
export function cellMoney(
  name: string,
  cell: Cell,
  week: ShiftYield,
  pair: Pick<ComparedPair, 'partsPerShift'> | null,
): CellMoney {
  const shifts = weekCalendar(cell.shifts, week.pattern).shifts.length;
  const parts = cell.routes.map(({ part }) => {
    const row = cell.parts.find((each) => each.part === part);
    const asked = askedPerWeek(row, shifts);
    return { part, each: row?.contribution ?? 0, asked, free: 0, moved: 0 };
  });
  const made = week.partsPerWeek;
  const total = made.total ?? 0;
  const costs = week.labourCostPerWeek + week.hoursPerWeek * runningCostPerH(cell);
  const money = (share: number) =>
    soldPerWeek(parts, Object.fromEntries(Object.entries(made).map(([part, n]) => [part, n * share]))) -
    costs;
  // The interval of the difference, carried over to what the cell makes.
  const end = (off: number) => (total > 0 ? money(Math.max(0, 1 + (off * shifts) / total)) : money(1));
  const estimate = pair?.partsPerShift ?? null;
  const number = (item: string) => costNumber(cell.costs, item);
  return {
    name,
    partsPerWeek: total,
    moneyPerWeek: money(1),
    moneyPerWeekLow: estimate?.ciLow == null ? null : end(estimate.ciLow - estimate.mean),
    moneyPerWeekHigh: estimate?.ciHigh == null ? null : end(estimate.ciHigh - estimate.mean),
    price: number('invest_price') ?? 0,
    lifeYears: number('invest_life_years') ?? number('horizon_years') ?? 1,
    yearlyCost: number('invest_yearly_cost') ?? 0,
    salvage: number('invest_salvage') ?? 0,
  };
}
