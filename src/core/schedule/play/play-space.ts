/**
 * Every move that a cell allows, whatever the parts of a period: the plan in which each carry between two places of a
 * route stands once. A state of the running cell is played on it event by event (see play-state.ts), by rules, by
 * looking ahead, and by the search through all states.
 */
import type { Cell, Route, Step } from '../../model/cell.js';
import { shortestWays } from '../../model/shortest-ways.js';
import type { CarriedEvent } from '../plan/carried-order.js';
import { buildPlan, type PathCount, type Plan } from '../plan/plan.js';
import type { Goal } from '../plan/weights.js';

export interface PlayCarry {
  readonly route: number;
  /** Events of the plan, from the pick over held steps to the place. */
  readonly events: readonly number[];
  readonly from: number;
  readonly to: number;
  /** Steps that one part in n makes and that this carry comes to, with whether it makes them. */
  readonly occasions: readonly { readonly occasion: number; readonly makes: boolean }[];
}

export interface PlaySpace {
  readonly cell: Cell;
  readonly plan: Plan;
  readonly carries: readonly PlayCarry[];
  /** By node: carries that start there. */
  readonly outOf: readonly (readonly number[])[];
  /** By node: carries that end there. */
  readonly into: readonly (readonly number[])[];
  /** By room: nodes in it. */
  readonly nodesOf: readonly (readonly number[])[];
  /** By room: parts that it holds at most; an unlimited one is cut at `MOST_PARTS`. */
  readonly capacity: Int32Array;
  /** Parts of one node that are kept apart at most. */
  readonly depth: number;
  /** By event: the carry it belongs to. */
  readonly carryOf: Int32Array;
  /** By event: the same as an event of a sequence; those of one carry share its stops. */
  readonly carried: readonly CarriedEvent[];
  /** By occasional step: one part in this many. */
  readonly occasionEvery: Int32Array;
  /** By route: parts in a set of the asked mix; empty where none is asked. */
  readonly mix: readonly number[];
  /** By route: parts that it may be ahead of the others, where a mix is asked. */
  readonly lead: readonly number[];
  /** By node: what a part gains there, by the goal, once its process there is over; over a route they add up to the part's value. */
  readonly gain: Float64Array;
  /** By route: value of a part by the goal. */
  readonly value: readonly number[];
  /** Robot time between two stations at least, over any detour: least[a * stations + b]. */
  readonly leastWayS: Float64Array;
  /** Some room is unlimited or holds more than `MOST_PARTS`. */
  readonly isCut: boolean;
}

/** Parts kept in one room at most while a cell is played. */
export const MOST_PARTS = 24;

interface Stop {
  readonly step: Step;
  readonly station: string;
}

/** @param goal what a part is worth */
export function playSpace(cell: Cell, goal: Goal): PlaySpace {
  const plan = buildPlan(
    cell,
    cell.routes.flatMap((route, r) => coveringPaths(cell, route, r)),
  );
  const occasions = cell.routes.flatMap((route, r) =>
    route.steps.filter((step) => step.everyParts > 1).map((step) => ({ route: r, step })),
  );
  const carries = plan.carries.map(({ events }): PlayCarry => {
    const from = plan.events[events[0]!]!.from;
    const to = plan.events[events[events.length - 1]!]!.to;
    const route = cell.routes.findIndex((r) => r.part === plan.nodes[from]!.part);
    return { route, events, from, to, occasions: occasionsOf(plan, events, route, occasions) };
  });
  const at = (side: 'from' | 'to'): number[][] =>
    plan.nodes.map((_, node) => carries.flatMap((carry, c) => (carry[side] === node ? [c] : [])));
  const carryOf = new Int32Array(plan.events.length);
  for (const [c, carry] of carries.entries()) for (const e of carry.events) carryOf[e] = c;
  const capacity = Int32Array.from(plan.rooms, (room) => Math.min(MOST_PARTS, room.capacity));
  const { mix } = goal;
  const inSet = mix?.reduce((sum, n) => sum + n, 0) ?? 0;
  const value = cell.routes.map((_, r) => (mix === null ? goal.weight[r]! : 1 / inSet));
  const quickest = plan.emptyS.map((s, i) => Math.min(s, plan.loadedS[i]!));
  return {
    cell,
    plan,
    carries,
    outOf: at('from'),
    into: at('to'),
    nodesOf: plan.rooms.map((_, room) => plan.nodes.flatMap((node, i) => (node.room === room ? [i] : []))),
    capacity,
    depth: Math.max(1, ...capacity.subarray(1)),
    carryOf,
    carried: carriedEvents(cell, plan, carries, carryOf),
    occasionEvery: Int32Array.from(occasions, ({ step }) => step.everyParts),
    mix: mix ?? [],
    lead: cell.routes.map((route, r) => Math.max(mix?.[r] ?? 1, ...route.steps.map((s) => s.partsPerCycle))),
    gain: gainByNode(cell, plan, value),
    value,
    leastWayS: shortestWays(quickest, plan.stations.length),
    isCut: plan.rooms.some((room) => !room.hands && room.capacity > MOST_PARTS),
  };
}

function carriedEvents(
  cell: Cell,
  plan: Plan,
  carries: readonly PlayCarry[],
  carryOf: Int32Array,
): CarriedEvent[] {
  const stopsOf = carries.map(({ route, events }) =>
    events.map((e) => {
      const { step, station } = plan.events[e]!;
      return {
        step: cell.routes[route]!.steps.find((s) => s.step === step)!,
        station: plan.stations[station]!.name,
      };
    }),
  );
  return plan.events.map(({ stage }, e) => {
    const carry = carryOf[e]!;
    return { route: carries[carry]!.route, stops: stopsOf[carry]!, stage };
  });
}

/** Paths that between them go every carry of a route: each stretch between two places once, the rest by first stations. */
function coveringPaths(cell: Cell, route: Route, index: number): PathCount[] {
  const isHeld = (stop: Stop): boolean => cell.stations.find((s) => s.name === stop.station)?.kind === 'held';
  const { steps } = route;
  const last = steps.length - 1;
  const plainBefore = (at: number): Stop[] => firstStops(steps.slice(0, at));
  const plainAfter = (at: number): Stop[] => firstStops(steps.slice(at + 1));
  const paths: PathCount[] = [];
  const walk = (start: number, stretch: readonly Stop[], at: number): void => {
    const step = steps[at]!;
    if (step.everyParts > 1) walk(start, stretch, at + 1);
    for (const station of step.stations) {
      const stop = { step, station };
      if (isHeld(stop)) walk(start, [...stretch, stop], at + 1);
      else
        paths.push({
          route: index,
          stops: [...plainBefore(start), ...stretch, stop, ...plainAfter(at)],
          count: 1,
        });
    }
  };
  for (let at = 0; at < last; at++)
    for (const station of steps[at]!.stations) {
      const stop = { step: steps[at]!, station };
      if (!isHeld(stop)) walk(at, [stop], at + 1);
    }
  return paths;
}

/** The first station of every step that each part makes. */
function firstStops(steps: readonly Step[]): Stop[] {
  return steps.flatMap((step) => (step.everyParts > 1 ? [] : [{ step, station: step.stations[0]! }]));
}

function occasionsOf(
  plan: Plan,
  events: readonly number[],
  route: number,
  all: readonly { readonly route: number; readonly step: Step }[],
): PlayCarry['occasions'] {
  const made = events.slice(1).map((e) => plan.events[e]!.step);
  const first = plan.events[events[0]!]!.step;
  const last = made[made.length - 1]!;
  return all.flatMap(({ route: r, step }, occasion) =>
    r === route && step.step > first && step.step <= last
      ? [{ occasion, makes: made.includes(step.step) }]
      : [],
  );
}

/** A part's value spread over its places by their time, so that work under way counts; a millisecond each at least. */
function gainByNode(cell: Cell, plan: Plan, value: readonly number[]): Float64Array {
  const timeOf = (step: Step): number => step.cycleS / step.partsPerCycle / step.everyParts + 1e-3;
  const gain = new Float64Array(plan.nodes.length);
  for (const [r, route] of cell.routes.entries()) {
    const nodes = plan.nodes.flatMap((node, i) =>
      node.part === route.part && (node.kind === 'inside' || node.kind === 'sink') ? [i] : [],
    );
    const visited = route.steps.filter((s) => nodes.some((i) => plan.nodes[i]!.step === s.step));
    const total = visited.reduce((sum, step) => sum + timeOf(step), 0);
    for (const i of nodes)
      gain[i] = (value[r]! * timeOf(visited.find((s) => s.step === plan.nodes[i]!.step)!)) / total;
  }
  return gain;
}
