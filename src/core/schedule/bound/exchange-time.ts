/**
 * The least time for which a station of capacity 1 stands open between a pick and the next place: with one hand the
 * robot carries the part away, sets it down, and comes back with the next one, or puts the same part straight back in
 * for its next step; with two it turns the gripper, or goes away and comes back where that is quicker.
 */
import type { Cell } from '../../model/cell.js';
import { shortestWays } from '../../model/shortest-ways.js';
import { type TravelLookup, travelLookup } from '../../model/travel.js';
import { heldNames, type Leg } from './legs.js';

/** A part's way in hand, held stations included, from the end of its pick to the start of its place. */
interface Carry {
  readonly to: string;
  readonly inHandS: number;
  /** Robot time to place it there. */
  readonly loadS: number;
}

/**
 * @param stretch all travel times by this factor
 * @returns by leg that leaves a station: seconds at least until the next part's place there begins
 */
export function exchangeTimes(cell: Cell, legs: readonly Leg[], stretch = 1): (leg: Leg) => number {
  const travel = travelLookup(cell, stretch);
  const quickest = quickestTravel(travel, [...new Set(legs.flatMap((leg) => [leg.from, leg.to]))]);
  if (cell.robot.hands === 2) return (leg) => Math.min(cell.robot.indexS, tripAwayS(quickest, leg.from));
  const held = heldNames(cell);
  const backs = legs
    .filter((leg) => !held.has(leg.from))
    .flatMap((leg) =>
      carriesOf(cell, travel, legs, leg).map((carry) => ({
        ...carry,
        from: leg.from,
        unloadS: cell.routes[leg.route]!.steps[leg.fromStep]!.unloadS,
      })),
    );
  return (leg) => {
    const times = carriesOf(cell, travel, legs, leg).flatMap((out) => {
      if (out.to === leg.from) return [out.inHandS];
      const awayS = out.inHandS + out.loadS;
      return (
        backs
          // The next part is not one that was in the station, which is empty now.
          .filter((back) => back.to === leg.from && back.from !== leg.from)
          .map((back) => awayS + quickest.between(out.to, back.from) + back.unloadS + back.inHandS)
      );
    });
    return times.length === 0 ? 0 : Math.min(...times);
  };
}

/** Where the part of a leg may be placed, past held stations. */
function carriesOf(cell: Cell, travel: TravelLookup, legs: readonly Leg[], start: Leg): Carry[] {
  const held = heldNames(cell);
  const follow = (leg: Leg, beforeS: number): Carry[] => {
    const to = cell.routes[leg.route]!.steps[leg.toStep]!;
    const thereS = beforeS + (leg.from === leg.to ? 0 : (travel(leg.from, leg.to)?.loadedS ?? 0));
    if (!held.has(leg.to)) return [{ to: leg.to, inHandS: thereS, loadS: to.loadS }];
    return legs
      .filter((l) => l.route === leg.route && l.fromStep === leg.toStep && l.from === leg.to)
      .flatMap((next) => follow(next, thereS + to.loadS + to.cycleS + to.unloadS));
  };
  return follow(start, 0);
}

/** Robot times over any stations between and with anything in hand: no order can be quicker. */
interface QuickestTravel {
  readonly names: readonly string[];
  readonly between: (from: string, to: string) => number;
}

function quickestTravel(travel: TravelLookup, names: readonly string[]): QuickestTravel {
  const n = names.length;
  const at = new Map(names.map((name, index) => [name, index]));
  const direct = new Float64Array(n * n).fill(Number.POSITIVE_INFINITY);
  for (const [a, from] of names.entries())
    for (const [b, to] of names.entries()) {
      const time = travel(from, to);
      if (time !== null) direct[a * n + b] = Math.min(time.emptyS, time.loadedS);
    }
  const least = shortestWays(direct, n);
  return { names, between: (from, to) => (from === to ? 0 : least[at.get(from)! * n + at.get(to)!]!) };
}

function tripAwayS({ names, between }: QuickestTravel, station: string): number {
  return Math.min(
    ...names
      .filter((other) => other !== station)
      .map((other) => between(station, other) + between(other, station)),
  );
}
