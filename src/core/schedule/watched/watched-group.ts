/**
 * A few parts of a cell watched by themselves. Whatever the robot does with the whole cell, what it does with these
 * parts is a way to run the cell that makes no others: leaving out a carry frees its stations and leaves the robot at
 * least the quickest way between the acts that remain. So no more of them can be made than all states of that smaller
 * cell allow. Its ways are therefore the quickest over all stations of the whole cell (with one hand a part in hand goes
 * straight), and a turn of two hands takes no longer than the quickest trip away and back.
 *
 * Source: M. Dawande, H. N. Geismar, S. P. Sethi, SIAM Review 47, 2005, for the states; the watching is our own
 * argument, tested against all sequences of small cells.
 */
import type { Cell, Route } from '../../model/cell.js';
import { shortestWays } from '../../model/shortest-ways.js';
import { type TravelLookup, travelLookup } from '../../model/travel.js';
import { CircuitSearch } from '../every-sequence/best-ratio.js';
import { hasStateGraph, type StateGraph, stateGraph } from '../every-sequence/state-graph.js';
import { goalOf } from '../plan/weights.js';
import { type PlaySpace, playSpace } from '../play/play-space.js';

/** Parts of a route, or of a route with one machine step those that go to one of its stations. */
export interface WatchedUnit {
  readonly route: number;
  /** null = whatever the stations. */
  readonly station: string | null;
}

/** The parts that are watched one by one: each route, or each station of its one step where a part is set down there. */
export function unitsOf(cell: Cell): WatchedUnit[] {
  const isHeld = (name: string): boolean => cell.stations.some((s) => s.name === name && s.kind === 'held');
  return cell.routes.flatMap((route, r): WatchedUnit[] =>
    route.steps.length === 3 && !route.steps[1]!.stations.some(isHeld)
      ? route.steps[1]!.stations.map((station) => ({ route: r, station }))
      : [{ route: r, station: null }],
  );
}

/** What a group makes at most: for each unit parts per second of a sequence, and the most for any weights. */
export class WatchedGroup {
  readonly states: number;
  private readonly unitOfMove: Int32Array;
  private readonly circuits: CircuitSearch;

  private constructor(
    private readonly graph: StateGraph,
    space: PlaySpace,
    private readonly units: readonly WatchedUnit[],
    routes: readonly number[],
  ) {
    this.states = graph.states;
    this.circuits = new CircuitSearch(graph);
    this.unitOfMove = Int32Array.from(graph.act, (act) => unitStarted(space, act, units, routes));
  }

  /**
   * @param mostStates none where there are more
   * @returns null where the states do not say all, or are too many
   */
  static of(cell: Cell, units: readonly WatchedUnit[], mostStates: number): WatchedGroup | null {
    const routes = [...new Set(units.map((unit) => unit.route))];
    const small = watchedCell(cell, units, routes);
    if (small === null) return null;
    const space = playSpace(small, { ...goalOf(small), mix: null });
    if (!hasStateGraph(space)) return null;
    const graph = stateGraph(space, mostStates, Number.POSITIVE_INFINITY);
    return graph === null ? null : new WatchedGroup(graph, space, units, routes);
  }

  /**
   * @param weights value of one part, by unit
   * @returns the most value per second, and a sequence that makes it as parts per second by unit; null where none is made
   */
  most(weights: readonly number[]): { readonly perS: number; readonly rates: readonly number[] } | null {
    const { graph, unitOfMove, units, circuits } = this;
    const value = Float64Array.from(unitOfMove, (unit) => (unit < 0 ? 0 : weights[unit]!));
    const best = circuits.best(value);
    if (best === null) return null;
    const made = units.map(() => 0);
    let timeS = 0;
    for (const move of best.circuit) {
      timeS += graph.timeS[move]!;
      if (unitOfMove[move]! >= 0) made[unitOfMove[move]!]!++;
    }
    return { perS: best.perS, rates: made.map((n) => n / timeS) };
  }
}

/** Index of the unit whose part an act takes from its infeed; -1 = none. */
function unitStarted(
  { plan, carries, carryOf }: PlaySpace,
  act: number,
  units: readonly WatchedUnit[],
  routes: readonly number[],
): number {
  const event = plan.events[act]!;
  if (event.action !== 'pick' || plan.nodes[event.from]!.kind !== 'source') return -1;
  const { route, to } = carries[carryOf[act]!]!;
  const { station } = plan.nodes[to]!;
  return units.findIndex(
    (unit) => unit.route === routes[route] && (unit.station === null || unit.station === station),
  );
}

/** The cell with these parts alone; null where some way between its stations is not known. */
function watchedCell(cell: Cell, units: readonly WatchedUnit[], routes: readonly number[]): Cell | null {
  const kept = routes.map((r): Route => {
    const route = cell.routes[r]!;
    const own = units.flatMap((unit) => (unit.route === r && unit.station !== null ? [unit.station] : []));
    if (own.length === 0) return route;
    return { ...route, steps: route.steps.map((step, i) => (i === 1 ? { ...step, stations: own } : step)) };
  });
  const used = new Set(kept.flatMap((route) => route.steps.flatMap((step) => step.stations)));
  const everywhere = [
    ...new Set(cell.routes.flatMap((route) => route.steps.flatMap((step) => step.stations))),
  ];
  const travel = travelLookup(cell);
  const quickest = quickestWays(travel, everywhere);
  const names = everywhere.filter((name) => used.has(name));
  const rows = names.flatMap((from) =>
    names.flatMap((to) => {
      if (from === to) return [];
      const emptyS = quickest(from, to);
      const loadedS =
        cell.robot.hands === 1 ? (travel(from, to)?.loadedS ?? Number.POSITIVE_INFINITY) : emptyS;
      return [{ from, to, emptyS, loadedS }];
    }),
  );
  if (rows.some(({ emptyS, loadedS }) => !Number.isFinite(emptyS + loadedS))) return null;
  const awayS = names.map((name) =>
    Math.min(
      ...everywhere.flatMap((other) =>
        other === name ? [] : [quickest(name, other) + quickest(other, name)],
      ),
    ),
  );
  return {
    ...cell,
    stations: cell.stations.filter((s) => used.has(s.name)),
    routes: kept,
    travel: rows,
    robot: { ...cell.robot, indexS: Math.min(cell.robot.indexS, ...awayS) },
    parts: cell.parts.filter((p) => kept.some((route) => route.part === p.part)),
  };
}

function quickestWays(travel: TravelLookup, names: readonly string[]): (from: string, to: string) => number {
  const n = names.length;
  const direct = new Float64Array(n * n).fill(Number.POSITIVE_INFINITY);
  for (const [a, from] of names.entries())
    for (const [b, to] of names.entries()) {
      const time = a === b ? null : travel(from, to);
      direct[a * n + b] =
        a === b ? 0 : time === null ? Number.POSITIVE_INFINITY : Math.min(time.emptyS, time.loadedS);
    }
  const least = shortestWays(direct, n);
  const at = new Map(names.map((name, i) => [name, i]));
  return (from, to) => least[at.get(from)! * n + at.get(to)!]!;
}
