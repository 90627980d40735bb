/**
 * The ways of a part through the cell: one station for each step, from the alternatives, and with or without the
 * steps that only one part in n makes (a gauge). A way has a share where the table fixes it: of the parts of a route,
 * one in n makes such a step.
 */
import type { Cell, Route, Step } from '../../model/cell.js';

export interface PartPath {
  readonly route: number;
  readonly stops: readonly { readonly step: Step; readonly station: string }[];
  /** Steps of the route with `every` above 1 that this way makes and skips. */
  readonly makes: readonly number[];
  readonly skips: readonly number[];
}

/** More ways than this in a cell are not listed; `check` warns of them. */
export const WAY_LIMIT = 4000;

/** Every way of every route, in the order of the tables; null where there are more than WAY_LIMIT. */
export function waysOf(cell: Cell): PartPath[] | null {
  const count = cell.routes.reduce((sum, { steps }) => sum + wayCount(steps), 0);
  return count > WAY_LIMIT ? null : cell.routes.flatMap((route, index) => routeWays(index, route));
}

/** How many ways the steps of a route have, without listing them. */
export function wayCount(steps: readonly Step[]): number {
  return steps.reduce((count, step) => count * choiceCount(step), 1);
}

/** What a part can do at a step: go to one of its stations, or leave it out where only one part in n makes it. */
export function choiceCount({ stations, everyParts }: Step): number {
  return stations.length + (everyParts > 1 ? 1 : 0);
}

function routeWays(index: number, route: Route): PartPath[] {
  let ways: PartPath[] = [{ route: index, stops: [], makes: [], skips: [] }];
  for (const step of route.steps) {
    const next: PartPath[] = [];
    for (const way of ways) {
      for (const station of step.stations)
        next.push({
          ...way,
          stops: [...way.stops, { step, station }],
          makes: step.everyParts > 1 ? [...way.makes, step.step] : way.makes,
        });
      if (step.everyParts > 1) next.push({ ...way, skips: [...way.skips, step.step] });
    }
    ways = next;
  }
  return ways;
}

/** Steps of a route that only one part in n makes. */
export function occasionalSteps(route: Route): Step[] {
  return route.steps.filter((step) => step.everyParts > 1);
}
