/** Figures of a sweep in the words of the shop, and those that the page offers. */
import { patternNames } from '../core/calendar/week-calendar.js';
import type { Cell } from '../core/model/cell.js';

export const FIRST_FIGURE = 'schedule.partsPerH.total';

const NAMES: Readonly<Record<string, string>> = {
  [FIRST_FIGURE]: 'Parts per hour',
  'schedule.periodS': 'Robot cycle, s',
  'schedule.robot.utilizationPct': 'Robot busy, %',
  'size.recommended.machines': 'Best number of machines',
};

const OF_COSTS: Readonly<Record<string, string>> = {
  'costcase.increment.npv': 'Present value of boxes against a harness',
  'costcase.breakEvenChangeovers.total': 'Changeovers at which boxes pay',
};

/** Named where they are asked for. */
const OTHERS: Readonly<Record<string, string>> = { 'schedule.gapPct': 'Gap to the upper limit, %' };

const WEEK = /^shifts\.patterns\.(.+)\.partsPerWeek\.total$/;

export function figureName(path: string): string {
  const pattern = WEEK.exec(path)?.[1];
  return pattern === undefined
    ? ({ ...NAMES, ...OF_COSTS, ...OTHERS }[path] ?? path)
    : `Parts per week, ${pattern}`;
}

/** Paths of the figures that a cell has. */
export function figuresOf({ shifts, costs }: Cell): readonly string[] {
  const weeks = patternNames(shifts).map((pattern) => `shifts.patterns.${pattern}.partsPerWeek.total`);
  return [...Object.keys(NAMES), ...weeks, ...(costs.length === 0 ? [] : Object.keys(OF_COSTS))];
}
