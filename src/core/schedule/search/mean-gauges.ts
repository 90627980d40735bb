/**
 * Steps that only one part in n makes. Where planning n parts in one period stays workable they are planned as they
 * are; where n is large, the step's robot time is spread evenly over all parts, and the result says so.
 */
import type { Cell, Route, Step } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';
import { partMultiple } from './choose-counts.js';

/** Moves in a period up to which occasional steps are planned part by part. */
const PLANNED_MOVES = 24;

/** @returns the cell to plan, with notes on every step whose time was spread */
export function withMeanGauges(cell: Cell): { cell: Cell; notes: string[] } {
  const notes: string[] = [];
  const routes = cell.routes.map((route) => {
    if (!route.steps.some((s) => s.everyParts > 1)) return route;
    const moves = partMultiple(route) * (route.steps.length - 1);
    if (moves <= PLANNED_MOVES) {
      notes.push(
        `${route.part}: ${partMultiple(route)} parts are planned in one robot cycle, so that every occasional step comes up.`,
      );
      return route;
    }
    return spread(cell, route, notes);
  });
  return { cell: { ...cell, routes }, notes };
}

function spread(cell: Cell, route: Route, notes: string[]): Route {
  let steps: Step[] = [...route.steps];
  for (const step of route.steps.filter((s) => s.everyParts > 1)) {
    const at = steps.findIndex((s) => s.step === step.step);
    const extraS = detourS(cell, steps, at) / step.everyParts;
    notes.push(
      `${route.part} step ${step.step} at ${step.stations.join(' or ')}: one part in ${step.everyParts} makes it; its mean robot time of ` +
        `${Number(extraS.toFixed(3))} s a part is added to the pick before it.`,
    );
    steps = steps.flatMap((s, i) =>
      i === at ? [] : i === at - 1 ? [{ ...s, unloadS: s.unloadS + extraS }] : [s],
    );
  }
  return { ...route, steps };
}

/** Robot time that the detour adds: there, placing, picking, on; less the direct way. */
function detourS(cell: Cell, steps: readonly Step[], at: number): number {
  const travel = travelLookup(cell);
  const [before, step, after] = [steps[at - 1]!, steps[at]!, steps[at + 1]!];
  const held = cell.stations.find((s) => s.name === step.stations[0])?.kind === 'held';
  const way = (from: string, to: string): number => travel(from, to)?.loadedS ?? 0;
  const [a, b, c] = [before.stations[0]!, step.stations[0]!, after.stations[0]!];
  const ownS = step.loadS + step.unloadS + (held ? step.cycleS : 0);
  return Math.max(0, way(a, b) + ownS + way(b, c) - way(a, c));
}
