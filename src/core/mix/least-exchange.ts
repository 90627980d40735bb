/**
 * The least time for which a station of capacity 1 stands open between a pick and the next place: with one hand the
 * robot carries the part away, sets it down, and comes back with the next one; with two it turns the gripper, or goes
 * away and comes back where that is quicker, as in the schedule.
 */
import type { Cell } from '../model/cell.js';
import { type TravelTime, travelLookup } from '../model/travel.js';
import type { Leg } from '../schedule/legs.js';

/** @returns seconds; never more than the true least, as ways beyond a held station are left out */
export function leastExchangeS(cell: Cell, legs: readonly Leg[], station: string): number {
  const travel = travelLookup(cell);
  if (cell.robot.hands === 2) return Math.min(cell.robot.indexS, awayAndBackS(cell, station));
  const isHeld = (name: string): boolean => cell.stations.find((s) => s.name === name)?.kind === 'held';
  const stepOf = (leg: Leg, at: 'fromStep' | 'toStep') => cell.routes[leg.route]!.steps[leg[at]]!;
  const away = legs.filter((leg) => leg.from === station);
  const back = legs.filter((leg) => leg.to === station);
  let least = Number.POSITIVE_INFINITY;
  for (const out of away)
    for (const into of back) {
      const to = stepOf(out, 'toStep');
      const outS = wayS(travel(out.from, out.to)?.loadedS) + to.loadS + (isHeld(out.to) ? to.cycleS : 0);
      const intoS =
        (isHeld(into.from) ? 0 : stepOf(into, 'fromStep').unloadS) +
        wayS(travel(into.from, into.to)?.loadedS);
      const isDirect = !isHeld(out.to) && !isHeld(into.from);
      least = Math.min(least, outS + intoS + (isDirect ? wayS(travel(out.to, into.from)?.emptyS) : 0));
    }
  return Number.isFinite(least) ? least : 0;
}

/** From a station to itself there is no way. */
function wayS(seconds: number | undefined): number {
  return seconds ?? 0;
}

/** With whatever in hand; of a detour that is quicker than the way straight back, only its first and last part count. */
function awayAndBackS(cell: Cell, station: string): number {
  const travel = travelLookup(cell);
  const others = cell.stations.map(({ name }) => name).filter((name) => name !== station);
  const leastS = (way: TravelTime | null): number =>
    way === null ? Number.POSITIVE_INFINITY : Math.min(way.emptyS, way.loadedS);
  return (
    Math.min(...others.map((other) => leastS(travel(station, other)))) +
    Math.min(...others.map((other) => leastS(travel(other, station))))
  );
}
