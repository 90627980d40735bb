/**
 * What of a cell its rate bound uses: the parts that it makes and the stations that it makes them at. Where parts compete
 * for machines this settles most of the choice, and what is left is a cell with far fewer ways.
 */
import type { Cell } from '../../model/cell.js';
import type { Goal } from '../plan/weights.js';
import { cellProgram } from './cell-program.js';
import { mostOfGoal } from './rate-bound.js';

/** Parts an hour that are none. */
const NONE_PER_H = 1e-7;

/**
 * @param untilMs moment (Date.now()) after which nothing is solved
 * @returns the smaller cell and the goal of its routes; null where the bound uses all of the cell, or could not be had
 */
export function usedCell(cell: Cell, goal: Goal, untilMs: number): { cell: Cell; goal: Goal } | null {
  // One part that has one way: there is nothing to leave out.
  if (cell.routes.length === 1 && alternatives(cell) === cell.routes[0]!.steps.length) return null;
  const program = cellProgram(cell);
  const answer = mostOfGoal(cell, goal, program, untilMs);
  if (answer.status !== 'optimal') return null;
  const at = new Set<string>();
  for (const { name, route, fromStep, from, toStep, to } of program.legs)
    if ((answer.at[name] ?? 0) > NONE_PER_H)
      at.add(`${route} ${fromStep} ${from}`).add(`${route} ${toStep} ${to}`);
  const routes = cell.routes.map((route, r) => ({
    ...route,
    steps: route.steps.map((step, s) => ({
      ...step,
      stations: step.stations.filter((name) => at.has(`${r} ${s} ${name}`)),
    })),
  }));
  const made = routes.flatMap(({ steps }, r) => (steps.every((s) => s.stations.length > 0) ? [r] : []));
  const used = { ...cell, routes: made.map((r) => routes[r]!) };
  if (made.length === 0 || alternatives(used) === alternatives(cell)) return null;
  const { weight, mix } = goal;
  const own = { weight: made.map((r) => weight[r]!), mix: mix === null ? null : made.map((r) => mix[r]!) };
  return { cell: used, goal: { ...goal, ...own } };
}

/** Stations that the steps may use, all together. */
export function alternatives({ routes }: Cell): number {
  return routes.reduce(
    (sum, { steps }) => sum + steps.reduce((all, step) => all + step.stations.length, 0),
    0,
  );
}
