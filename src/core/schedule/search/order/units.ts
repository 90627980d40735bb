/**
 * Units of branching: what the search puts in order as one. With one hand a whole move (pick, holds, place), with two
 * hands a single event. Exchanges are larger units for independent machines: empty the machine and fill it again in
 * one go, which leaves far fewer orders.
 */
import { insideWays, quickestWays, tripAway, waitInPlaceS } from '../../bound/period-bound.js';
import type { Plan } from '../../plan/plan.js';

export interface Units {
  /** Each unit begins and ends with empty hands. */
  readonly whole: boolean;
  /** Events of each unit. */
  readonly events: readonly (readonly number[])[];
  readonly counts: Int32Array;
  /** Robot time inside each unit. */
  readonly ownS: Float64Array;
  /** By event: robot time from the start of its unit. */
  readonly offsetS: Float64Array;
  /** Robot time from the end of one unit to the start of the next, at least. */
  readonly wayS: Float64Array;
  /** The same over any detour: a valid bound where the travel table breaks the triangle inequality. */
  readonly shortestS: Float64Array;
}

/** Every order of the plan is an order of these. */
export function moveUnits(plan: Plan): Units {
  const whole = plan.hands === 1;
  return toUnits(
    plan,
    whole ? plan.carries.map((c) => c.events) : plan.events.map((_, index) => [index]),
    whole,
  );
}

/**
 * One unit a machine: with one hand its part is carried off and the next one fetched; with two hands the next part is
 * brought along and swapped in. Null where the plan is not made of independent machines of capacity 1 alone.
 */
export function exchangeUnits(plan: Plan): Units | null {
  const units: number[][] = [];
  for (const [node, spec] of plan.nodes.entries()) {
    if (spec.kind !== 'inside') continue;
    const into = plan.carries.filter((c) => plan.events[c.events[c.events.length - 1]!]!.to === node);
    const out = plan.carries.filter((c) => plan.events[c.events[0]!]!.from === node);
    const alone = plan.nodes.every((other, i) => i === node || other.room !== spec.room);
    if (
      into.length !== 1 ||
      out.length !== 1 ||
      !alone ||
      spec.batch > 1 ||
      plan.rooms[spec.room]!.capacity !== 1
    )
      return null;
    const [bring, take] = [into[0]!.events, out[0]!.events];
    if (plan.nodes[plan.events[bring[0]!]!.from]!.kind !== 'source') return null;
    if (plan.nodes[plan.events[take[take.length - 1]!]!.to]!.kind !== 'sink') return null;
    const swap = [...bring.slice(0, -1), take[0]!, bring[bring.length - 1]!, ...take.slice(1)];
    units.push(plan.hands === 1 ? [...take, ...bring] : swap);
  }
  // A part that the robot only carries (and holds at a brush) belongs to no machine.
  if (units.length === 0 || 2 * units.length !== plan.carries.length) return null;
  return toUnits(plan, units, true);
}

function toUnits(plan: Plan, events: readonly (readonly number[])[], whole: boolean): Units {
  const n = events.length;
  const counts = Int32Array.from(events, (list) => plan.events[list[0]!]!.count);
  const ownS = new Float64Array(n);
  const offsetS = new Float64Array(plan.events.length);
  for (const [u, list] of events.entries()) {
    const ways = insideWays(plan, list);
    let at = 0;
    for (const [i, e] of list.entries()) {
      offsetS[e] = at;
      at += plan.events[e]!.robotS + (ways[i] ?? 0);
    }
    ownS[u] = at;
  }
  const wayS = new Float64Array(n * n);
  const stations = plan.stations.length;
  for (let a = 0; a < n; a++) {
    const from = plan.events[events[a]![events[a]!.length - 1]!]!.station;
    for (let b = 0; b < n; b++) {
      const to = plan.events[events[b]![0]!]!.station;
      const pair = from * stations + to;
      const emptyOrNot = whole ? plan.emptyS[pair]! : Math.min(plan.emptyS[pair]!, plan.loadedS[pair]!);
      wayS[a * n + b] = from === to ? stayS(plan, events[a]!, events[b]!) : emptyOrNot;
    }
  }
  return { whole, events, counts, ownS, offsetS, wayS, shortestS: waysOverDetours(plan, events, whole) };
}

/** From the last event of one unit to the first of the next at the same station: a turn of the hand, or a wait. */
function stayS(plan: Plan, before: readonly number[], after: readonly number[]): number {
  const waitS = waitInPlaceS(plan, before[before.length - 1]!, after[0]!);
  return plan.hands === 1 ? waitS : Math.max(plan.indexS, waitS);
}

function waysOverDetours(plan: Plan, events: readonly (readonly number[])[], whole: boolean): Float64Array {
  const stations = plan.stations.length;
  const least = quickestWays(plan);
  const n = events.length;
  const ways = new Float64Array(n * n);
  for (let a = 0; a < n; a++) {
    const from = plan.events[events[a]![events[a]!.length - 1]!]!.station;
    for (let b = 0; b < n; b++) {
      const to = plan.events[events[b]![0]!]!.station;
      // Between events at one station the hand may turn, or an event elsewhere may come in between.
      ways[a * n + b] =
        from === to
          ? whole && plan.hands === 1
            ? 0
            : Math.min(plan.indexS, tripAway(least, stations, from))
          : least[from * stations + to]!;
    }
  }
  return ways;
}
