/**
 * Stays of a one-handed robot, for programs over rates. Where one part alone has room, a place and the next pick with
 * no trip in between are of the same part, so the robot stands there for its whole process. Without this a program
 * lets the robot come with one part and leave with another at no cost.
 */
import type { Cell } from '../model/cell.js';
import type { Leg } from './legs.js';

export interface Stay {
  /** Variable of the program: stays per unit of time. */
  readonly name: string;
  readonly station: string;
  /** close + cycle + ready. */
  readonly processS: number;
  /** Terms of the parts placed less the stays, which is 0 or more. */
  readonly placedLess: Readonly<Record<string, number>>;
}

/** @param legs variables `leg0`, `leg1`, … of the program */
export function staysOf(cell: Cell, legs: readonly Leg[]): Stay[] {
  return cell.stations.flatMap((station) => {
    if (station.capacityParts !== 1 || station.kind === 'held') return [];
    return cell.routes.flatMap((route, r) =>
      route.steps.slice(1, -1).flatMap((step, i): Stay[] => {
        if (!step.stations.includes(station.name)) return [];
        const name = `stay ${station.name} ${r} ${i}`;
        const placed = legs.flatMap((leg, l) =>
          leg.route === r && leg.toStep === i + 1 && leg.to === station.name ? [[`leg${l}`, 1]] : [],
        );
        const processS = station.closeS + step.cycleS + station.readyS;
        return [
          {
            name,
            station: station.name,
            processS,
            placedLess: { ...Object.fromEntries(placed), [name]: -1 },
          },
        ];
      }),
    );
  });
}

/** One way of the robot with nothing in hand. */
export interface EmptyTrip {
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

/** A row that comes out at 0. */
export interface BalanceRow {
  readonly name: string;
  readonly terms: Readonly<Record<string, number>>;
  readonly least: 0;
  readonly most?: 0;
}

/**
 * Rows for the ways of a one-handed robot: as many ways lead to a station as away from it; where it may stay, every
 * part placed is followed by a stay or an empty trip away, every part picked comes after a stay or an empty trip there.
 */
export function robotWays(
  legs: readonly Leg[],
  trips: readonly EmptyTrip[],
  stays: readonly Stay[],
): BalanceRow[] {
  const names = [...new Set(legs.flatMap((leg) => [leg.from, leg.to]))];
  const ways = names.flatMap((name): BalanceRow[] => {
    const own = stays.filter((stay) => stay.station === name).map((stay) => [stay.name, 1] as const);
    const picked = legs.flatMap((leg, i) => (leg.from === name ? [[`leg${i}`, -1] as const] : []));
    const placed = legs.flatMap((leg, i) => (leg.to === name ? [[`leg${i}`, 1] as const] : []));
    const comes = trips.flatMap((trip) => (trip.to === name ? [[trip.name, 1] as const] : []));
    const goes = trips.flatMap((trip) => (trip.from === name ? [[trip.name, -1] as const] : []));
    const row = (text: string, terms: readonly (readonly [string, number])[]): BalanceRow => ({
      name: text,
      terms: Object.fromEntries(terms),
      least: 0,
      most: 0,
    });
    if (own.length === 0)
      return [row(`robot's way through ${name}`, [...comes, ...picked, ...goes, ...placed])];
    return [
      row(`robot's way to ${name}`, [...comes, ...picked, ...own]),
      row(`robot's way on from ${name}`, [...goes, ...placed, ...own.map(([stay]) => [stay, -1] as const)]),
    ];
  });
  const each = stays.map((stay) => ({
    name: `parts of ${stay.name}`,
    terms: stay.placedLess,
    least: 0 as const,
  }));
  return [...ways, ...each];
}
