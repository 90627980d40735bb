/**
 * Cells that can do less than a given one, so that what they make the given one makes too: with one hand, and without
 * some of the alternatives of a step. They are searched as starts where the given cell itself has too many states.
 */
import type { Cell, Route } from '../../model/cell.js';
import { orderOfCarries, type PlannedOrder } from '../plan/carried-order.js';
import type { Plan } from '../plan/plan.js';

/** Alternatives of one step that are left out one by one at most. */
const MOST_DROPPED = 8;

export interface SmallerCell {
  readonly cell: Cell;
  /** Whether no sequence of it makes more than the given cell's bound: not where a turn of two hands takes time. */
  readonly keepsBound: boolean;
}

/** Each alternative of a step left out by itself, and from the last on more and more of them; and one hand of two. */
export function smallerCells(cell: Cell): SmallerCell[] {
  const list: SmallerCell[] = [];
  if (cell.robot.hands === 2)
    list.push({ cell: { ...cell, robot: { ...cell.robot, hands: 1 } }, keepsBound: cell.robot.indexS === 0 });
  for (const [r, { steps }] of cell.routes.entries())
    for (const [s, { stations }] of steps.entries()) {
      if (stations.length < 2) continue;
      const single = stations.slice(0, MOST_DROPPED).map((name) => stations.filter((n) => n !== name));
      const chain = stations.slice(1, -2).map((_, k) => stations.slice(0, k + 1));
      for (const kept of [...single, ...chain])
        list.push({ cell: withStations(cell, r, s, kept), keepsBound: true });
    }
  return list;
}

function withStations(cell: Cell, route: number, step: number, stations: readonly string[]): Cell {
  const change = (own: Route): Route => ({
    ...own,
    steps: own.steps.map((each, s) => (s === step ? { ...each, stations } : each)),
  });
  return { ...cell, routes: cell.routes.map((own, r) => (r === route ? change(own) : own)) };
}

/** An order of the smaller cell as one of the given cell. */
export function orderInLarger(cell: Cell, plan: Plan, order: readonly number[]): PlannedOrder {
  const carryOf = new Map(plan.carries.flatMap((carry) => carry.events.map((e) => [e, carry] as const)));
  const events = order.map((kind) => {
    const carry = carryOf.get(kind)!;
    const route = cell.routes.findIndex(({ part }) => part === plan.events[kind]!.part);
    const stops = carry.events.map((e) => {
      const { step, station } = plan.events[e]!;
      return {
        step: cell.routes[route]!.steps.find((own) => own.step === step)!,
        station: plan.stations[station]!.name,
      };
    });
    return { route, stops, stage: plan.events[kind]!.stage };
  });
  return orderOfCarries(cell, events);
}
