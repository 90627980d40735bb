/**
 * The robot in programs over rates: its time, and that its trips hang together. It leaves each station as often as it
 * arrives; handling, travel and holding take its time.
 *
 * With one hand every leg is a loaded trip, and empty trips or stays balance the flow. A stay: where one part alone has
 * room, a place and the next pick with no trip in between are of the same part, so the robot stays there for its whole
 * process. Without this a program lets the robot come with one part and leave with another at no cost. With two hands
 * up to two parts share a trip: trips must bring at least half of the places and carry away at least half of the picks
 * of a station, and actions at a station beyond its arrivals cost the index time.
 */
import type { LinearRow } from '../../lp/solve-linear-program.js';
import { type Terms, termsOf } from '../../lp/terms.js';
import type { Cell } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';
import { heldNames, type Leg } from './legs.js';

export interface RobotRows {
  /** Robot seconds by variable. */
  readonly seconds: Readonly<Terms>;
  /** Rows that come out at 0 or more, whatever the unit of the rates. */
  readonly rows: readonly LinearRow[];
}

/** @param stretch all travel times by this factor */
export function robotRows(cell: Cell, legs: readonly Leg[], stretch = 1): RobotRows {
  const stations = [...new Set(legs.flatMap((leg) => [leg.from, leg.to]))];
  return cell.robot.hands === 1
    ? oneHandRows(cell, legs, stations, stretch)
    : twoHandRows(cell, legs, stations, stretch);
}

interface Trip {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly timeS: number;
}

function oneHandRows(
  cell: Cell,
  legs: readonly Leg[],
  stations: readonly string[],
  stretch: number,
): RobotRows {
  const travel = travelLookup(cell, stretch);
  const held = heldNames(cell);
  // An empty trip leads from where a part was placed to where one is picked.
  const starts = new Set(legs.map((leg) => leg.to).filter((name) => !held.has(name)));
  const ends = new Set(legs.map((leg) => leg.from).filter((name) => !held.has(name)));
  const trips = [...starts].flatMap((from) =>
    [...ends].flatMap((to): Trip[] => {
      const time = from === to ? null : travel(from, to);
      return time === null ? [] : [{ name: `trip ${from} ${to}`, from, to, timeS: time.emptyS }];
    }),
  );
  const stays = staysOf(cell, legs);
  const seconds: Terms = {};
  for (const leg of legs) seconds[leg.name] = handlingS(cell, leg) + (travel(leg.from, leg.to)?.loadedS ?? 0);
  for (const trip of trips) seconds[trip.name] = trip.timeS;
  for (const stay of stays) seconds[stay.name] = stay.processS;
  const placedBefore = stays.map(({ name, placed }) => ({
    name: `parts of ${name}`,
    terms: termsOf(...each(placed, 1), [name, -1]),
    least: 0,
  }));
  return {
    seconds,
    rows: [...stations.flatMap((at) => passingRows(legs, trips, stays, at)), ...placedBefore],
  };
}

interface Stay {
  /** Variable of the program: stays per unit of time. */
  readonly name: string;
  readonly station: string;
  /** close + cycle + ready. */
  readonly processS: number;
  /** Variables of the parts placed. */
  readonly placed: readonly string[];
}

function staysOf(cell: Cell, legs: readonly Leg[]): Stay[] {
  return cell.stations.flatMap((station) => {
    if (station.capacityParts !== 1 || station.kind === 'held') return [];
    return cell.routes.flatMap((route, r) =>
      route.steps.slice(1, -1).flatMap((step, i): Stay[] => {
        if (!step.stations.includes(station.name)) return [];
        const placed = legs.filter(
          (leg) => leg.route === r && leg.toStep === i + 1 && leg.to === station.name,
        );
        return [
          {
            name: `stay ${station.name} ${r} ${i}`,
            station: station.name,
            processS: station.closeS + step.cycleS + station.readyS,
            placed: placed.map((leg) => leg.name),
          },
        ];
      }),
    );
  });
}

/**
 * As many ways lead to a station as away from it; where the robot may stay, every part placed is followed by a stay or
 * an empty trip away, every part picked comes after a stay or an empty trip there.
 */
function passingRows(
  legs: readonly Leg[],
  trips: readonly Trip[],
  stays: readonly Stay[],
  at: string,
): LinearRow[] {
  const picked = each(names(legs.filter((leg) => leg.from === at)), -1);
  const placed = each(names(legs.filter((leg) => leg.to === at)), 1);
  const comes = each(names(trips.filter((trip) => trip.to === at)), 1);
  const goes = each(names(trips.filter((trip) => trip.from === at)), -1);
  const own = names(stays.filter((stay) => stay.station === at));
  if (own.length === 0)
    return [level(`robot's trip through ${at}`, termsOf(...comes, ...picked, ...goes, ...placed))];
  return [
    level(`robot's trip to ${at}`, termsOf(...comes, ...picked, ...each(own, 1))),
    level(`robot's trip from ${at}`, termsOf(...goes, ...placed, ...each(own, -1))),
  ];
}

type Variable = { readonly name: string };

function names(of: readonly Variable[]): string[] {
  return of.map(({ name }) => name);
}

function each(variables: readonly string[], value: number): (readonly [string, number])[] {
  return variables.map((name) => [name, value] as const);
}

function level(name: string, terms: Terms): LinearRow {
  return { name, terms, least: 0, most: 0 };
}

function twoHandRows(
  cell: Cell,
  legs: readonly Leg[],
  stations: readonly string[],
  stretch: number,
): RobotRows {
  const travel = travelLookup(cell, stretch);
  const seconds: Terms = {};
  for (const leg of legs) seconds[leg.name] = handlingS(cell, leg);
  const trips = stations.flatMap((from) =>
    stations.flatMap((to): Trip[] => {
      const time = from === to ? null : travel(from, to);
      const timeS = time === null ? 0 : Math.min(time.emptyS, time.loadedS);
      return time === null ? [] : [{ name: `trip ${from} ${to}`, from, to, timeS }];
    }),
  );
  for (const trip of trips) seconds[trip.name] = trip.timeS;
  const held = heldNames(cell);
  const rows = stations.flatMap((at): LinearRow[] => {
    const to = names(trips.filter((trip) => trip.to === at));
    const from = names(trips.filter((trip) => trip.from === at));
    // A part that goes straight back into the station that it comes from takes no trip.
    const brought = names(legs.filter((leg) => leg.to === at && leg.from !== at));
    const carried = names(legs.filter((leg) => leg.from === at && leg.to !== at));
    const acts = [
      ...names(legs.filter((leg) => leg.to === at)),
      ...(held.has(at) ? [] : names(legs.filter((leg) => leg.from === at))),
    ];
    const turn = `turn at ${at}`;
    if (cell.robot.indexS > 0) seconds[turn] = cell.robot.indexS;
    return [
      { name: `trips to ${at}`, terms: termsOf(...each(to, 2), ...each(brought, -1)), least: 0 },
      { name: `trips from ${at}`, terms: termsOf(...each(from, 2), ...each(carried, -1)), least: 0 },
      level(`robot's trip through ${at}`, termsOf(...each(to, 1), ...each(from, -1))),
      ...(cell.robot.indexS > 0
        ? [
            {
              // Actions beyond one an arrival need the gripper turned.
              name: `turns at ${at}`,
              terms: termsOf([turn, 1], ...each(to, 1), ...each(acts, -1)),
              least: 0,
            },
          ]
        : []),
    ];
  });
  return { seconds, rows };
}

/** Robot time at both ends of a leg: the pick where it starts, the place where it ends, all of a held step on arrival. */
function handlingS(cell: Cell, leg: Leg): number {
  const { steps } = cell.routes[leg.route]!;
  const held = heldNames(cell);
  const to = steps[leg.toStep]!;
  const pickS = held.has(leg.from) ? 0 : steps[leg.fromStep]!.unloadS;
  return pickS + to.loadS + (held.has(leg.to) ? to.cycleS + to.unloadS : 0);
}
