/** Legs of routes: what the programs over rates and hours take as their variables. */
import type { Cell, Step } from '../../model/cell.js';

/** A leg: parts of a route from one step at one station to the next step that they make, at one of its stations. */
export interface Leg {
  /** Its variable in the programs: `leg0`, `leg1`, … */
  readonly name: string;
  readonly route: number;
  readonly fromStep: number;
  readonly from: string;
  readonly toStep: number;
  readonly to: string;
}

/** Legs between each step and those that can follow it (steps that only one part in n makes may be passed over). */
export function legsOf(cell: Cell): Leg[] {
  return cell.routes
    .flatMap((route, r) =>
      route.steps.flatMap((step, i) =>
        followers(route.steps, i).flatMap((j) =>
          step.stations.flatMap((from) =>
            route.steps[j]!.stations.map((to) => ({ route: r, fromStep: i, from, toStep: j, to })),
          ),
        ),
      ),
    )
    .map((leg, i) => ({ name: `leg${i}`, ...leg }));
}

function followers(steps: readonly Step[], from: number): number[] {
  const list: number[] = [];
  for (let j = from + 1; j < steps.length; j++) {
    list.push(j);
    if (steps[j]!.everyParts === 1) break;
  }
  return list;
}

/** Stations at which the robot holds the part. */
export function heldNames(cell: Cell): Set<string> {
  return new Set(cell.stations.filter((s) => s.kind === 'held').map((s) => s.name));
}
