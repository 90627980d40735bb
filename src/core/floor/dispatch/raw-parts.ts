/** Which raw part comes next: of the routes that feed a station, the one furthest behind its mix. */
import { type CompiledCell, OUTFEED } from '../compiled-cell.js';
import type { RoutePath } from '../route-path.js';
import type { ShopFloor } from '../shop-floor.js';
import type { Places } from './places.js';
import { type CallRound, NONE, type PartToPick } from './round.js';

export class RawParts {
  private readonly cell: CompiledCell;
  /** By choice of an infeed: its part. */
  private readonly parts: readonly PartToPick[];

  constructor(
    private readonly floor: ShopFloor,
    private readonly path: RoutePath,
    private readonly places: Places,
  ) {
    this.cell = floor.cell;
    const { choiceOp, opStations } = floor.cell;
    this.parts = Array.from(choiceOp, (op, choice) => ({
      station: opStations[choice]!,
      op,
      slot: NONE,
      choice,
    }));
  }

  /** A part for a station. */
  forStation(station: number): PartToPick | null {
    const sole = this.cell.soleFeed[station]!;
    if (sole < 0) return this.byMix(station);
    return this.floor.racks.serves(sole) ? this.parts[sole]! : null;
  }

  private byMix(station: number): PartToPick | null {
    const { firstRaw, rawRoutes, routeFirstOp, routeMix } = this.cell;
    const { path, places } = this;
    let found: PartToPick | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (let i = firstRaw[station]!; i < firstRaw[station + 1]!; i++) {
      const route = rawRoutes[i]!;
      const mix = routeMix[route]!;
      const share = this.floor.mixStarted[route]! / (mix > 0 ? mix : 1);
      if (share >= least || !this.mixAllows(route)) continue;
      const part = this.at(routeFirstOp[route]!);
      if (part === null) continue;
      const op = path.next(part.op);
      if (!places.goesTo(op, station) || !places.fits(op, station)) continue;
      least = share;
      found = part;
    }
    return found;
  }

  /** The part of an infeed of a route that can serve now. */
  private at(op: number): PartToPick | null {
    const { firstChoice } = this.cell;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++)
      if (this.floor.racks.serves(c)) return this.parts[c]!;
    return null;
  }

  /** Parts made in a ratio are started set by set; a route may be a set, and a fixture's load, ahead of the slowest. */
  private mixAllows(route: number): boolean {
    const { routeMix, routeCount } = this.cell;
    const { mixStarted, racks } = this.floor;
    if (routeMix[route] === 0 || routeCount === 1) return true;
    let sets = Number.POSITIVE_INFINITY;
    for (let r = 0; r < routeCount; r++)
      if (!racks.isRouteBarred(r)) sets = Math.min(sets, mixStarted[r]! / routeMix[r]!);
    return (
      mixStarted[route]! < routeMix[route]! * (Math.floor(sets + 1e-9) + 1) + this.cell.routeLead[route]!
    );
  }

  /** Parts that no station works on, straight from infeed to outfeed, fill the robot's spare time. */
  straightOut(): CallRound | null {
    return this.cell.directRoutes.length === 0 ? null : this.firstStraightOut();
  }

  private firstStraightOut(): CallRound | null {
    const { directRoutes, routeFirstOp, opKind } = this.cell;
    for (const route of directRoutes) {
      const pick = this.at(routeFirstOp[route]!);
      if (pick === null || !this.mixAllows(route)) continue;
      const op = this.path.next(pick.op);
      const place = opKind[op] === OUTFEED ? this.places.room(op, pick.station) : null;
      if (place !== null) return { pick, place };
    }
    return null;
  }
}
