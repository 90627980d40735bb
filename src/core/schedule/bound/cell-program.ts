/**
 * The linear program of a cell, over rates of any unit: parts on each leg between two steps at two stations, and robot
 * trips. No policy of the robot, repeating or not, uses less of a station or of the robot than it says; it leaves out
 * interference, so what can be had lies below. The rate bound, the product mix and the job plan all stand on it.
 */
import type { LinearRow } from '../../lp/solve-linear-program.js';
import { add, type Terms, termsOf } from '../../lp/terms.js';
import type { Cell, Station } from '../../model/cell.js';
import { exchangeTimes } from './exchange-time.js';
import { type Leg, legsOf } from './legs.js';
import { robotRows } from './robot-rows.js';
import { roomS } from './room-time.js';

/** Time of a station: the sum of its terms is at most its room times the time there is. */
export interface StationUse {
  readonly station: Station;
  /** Room-seconds by variable. */
  readonly seconds: Readonly<Terms>;
  /** Parts that it holds at once; 1 for an infeed or outfeed, which serves one part at a time. */
  readonly room: number;
}

export interface CellProgram {
  readonly legs: readonly Leg[];
  readonly stations: readonly StationUse[];
  /** Robot seconds by variable: their sum is at most the time there is. */
  readonly robot: Readonly<Terms>;
  /** Parts in = parts out, shares of occasional steps, robot trips that hang together. */
  readonly rows: readonly LinearRow[];
  /** Of these the rows of the robot's trips, which hold over any of the time by itself. */
  readonly trips: readonly LinearRow[];
}

/** @param travelStretch all travel times of the robot by this factor */
export function cellProgram(cell: Cell, travelStretch = 1): CellProgram {
  const legs = legsOf(cell);
  const robot = robotRows(cell, legs, travelStretch);
  return {
    legs,
    stations: stationUses(cell, legs, travelStretch),
    robot: robot.seconds,
    rows: [...flowRows(cell, legs), ...robot.rows],
    trips: robot.rows,
  };
}

/** Parts of a route that leave its infeeds. */
export function startsOf(legs: readonly Leg[], route: number, by = 1): Terms {
  const starts = legs.filter((leg) => leg.route === route && leg.fromStep === 0);
  return termsOf(...starts.map((leg) => [leg.name, by] as const));
}

/** Parts in = parts out at every step and station; one in n makes an occasional step. */
function flowRows(cell: Cell, legs: readonly Leg[]): LinearRow[] {
  return cell.routes.flatMap((route, r) => {
    const own = legs.filter((leg) => leg.route === r);
    return route.steps.flatMap((step, s): LinearRow[] => {
      const into = own.filter((leg) => leg.toStep === s).map((leg) => ({ name: leg.name, at: leg.to }));
      const out = own.filter((leg) => leg.fromStep === s).map((leg) => ({ name: leg.name, at: leg.from }));
      const isInner = s > 0 && s < route.steps.length - 1;
      const flows = (isInner ? step.stations : []).map((station) => ({
        name: `flow of ${route.part} at ${station}`,
        terms: termsOf(
          ...into.filter(({ at }) => at === station).map(({ name }) => [name, 1] as const),
          ...out.filter(({ at }) => at === station).map(({ name }) => [name, -1] as const),
        ),
        least: 0,
        most: 0,
      }));
      if (step.everyParts === 1) return flows;
      const terms = startsOf(legs, r, -1 / step.everyParts);
      for (const { name } of into) add(terms, name, 1);
      return [...flows, { name: `share of ${route.part} at step ${step.step}`, terms, least: 0, most: 0 }];
    });
  });
}

function stationUses(cell: Cell, legs: readonly Leg[], travelStretch: number): StationUse[] {
  const exchangeS = exchangeTimes(cell, legs, travelStretch);
  return cell.stations.flatMap((station) => {
    const isFeeder = station.kind === 'infeed' || station.kind === 'outfeed';
    const room = isFeeder ? 1 : station.capacityParts;
    if (station.kind === 'held' || room === null) return [];
    const seconds = isFeeder ? feederSeconds(cell, legs, station) : staySeconds(cell, legs, station, room);
    if (!isFeeder && room === 1)
      for (const leg of legs) if (leg.from === station.name) add(seconds, leg.name, exchangeS(leg));
    const used = Object.values(seconds).some((s) => s > 0);
    return used ? [{ station, seconds, room }] : [];
  });
}

/** From the start of a part's place to the end of its pick. */
function staySeconds(cell: Cell, legs: readonly Leg[], station: Station, capacity: number): Terms {
  const stepAt = (leg: Leg) => cell.routes[leg.route]!.steps[leg.toStep]!;
  const arriving = legs.filter((leg) => leg.to === station.name);
  const wholeBatches = arriving.every((leg) => stepAt(leg).partsPerCycle === capacity);
  return termsOf(
    ...arriving.map((leg) => {
      const step = stepAt(leg);
      const use = {
        processS: station.closeS + step.cycleS + station.readyS,
        handlingS: step.loadS + step.unloadS,
        batch: step.partsPerCycle,
        capacity,
        wholeBatches,
      };
      return [leg.name, roomS(use)] as const;
    }),
  );
}

/**
 * An infeed or outfeed that needs time between two parts serves all parts of the cell one after another. The robot only
 * picks at the one and only places at the other.
 */
function feederSeconds(cell: Cell, legs: readonly Leg[], station: Station): Terms {
  const isInfeed = station.kind === 'infeed';
  const visits = legs
    .filter((leg) => (isInfeed ? leg.from : leg.to) === station.name)
    .map((leg) => {
      const step = cell.routes[leg.route]!.steps[isInfeed ? leg.fromStep : leg.toStep]!;
      const robotS = isInfeed ? step.unloadS : step.loadS;
      return { name: leg.name, robotS, processS: station.closeS + step.cycleS + station.readyS };
    });
  const isPaced = visits.some(({ processS }) => processS > 0);
  return termsOf(
    ...visits.map(({ name, robotS, processS }) => [name, isPaced ? robotS + processS : 0] as const),
  );
}
