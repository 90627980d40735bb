/**
 * Robot times between stations, resolved from the three places that can give them, in this order: the travel table
 * (a missing reverse row means the same time back), positions with a speed, one time for every pair.
 */
import type { Cell, Station, TravelRow } from './cell.js';
import { moveTime } from './move-time.js';

/** Robot time between two stations in seconds. */
export interface TravelTime {
  readonly emptyS: number;
  readonly loadedS: number;
  /** Which input gave it. */
  readonly source: 'table' | 'reverse row' | 'positions' | 'travel_s' | 'same station';
}

/** Looks up robot times by station names. */
export type TravelLookup = (from: string, to: string) => TravelTime | null;

/**
 * @param cell the cell; `speedFactor` stretches every travel time (2 = half speed)
 * @returns a function that gives the time between two stations, or null where no input gives one
 */
export function travelLookup(cell: Pick<Cell, 'stations' | 'travel' | 'robot'>, stretch = 1): TravelLookup {
  const rows = new Map<string, TravelRow>();
  for (const row of cell.travel) rows.set(pairKey(row.from, row.to), row);
  const stations = new Map<string, Station>(cell.stations.map((s) => [s.name, s]));
  const stretched = (t: TravelTime): TravelTime =>
    stretch === 1 ? t : { ...t, emptyS: t.emptyS * stretch, loadedS: t.loadedS * stretch };

  return (from, to) => {
    if (from === to) return { emptyS: 0, loadedS: 0, source: 'same station' };
    const row = rows.get(pairKey(from, to));
    if (row) return stretched({ emptyS: row.emptyS, loadedS: row.loadedS, source: 'table' });
    const back = rows.get(pairKey(to, from));
    if (back) return stretched({ emptyS: back.emptyS, loadedS: back.loadedS, source: 'reverse row' });
    const byPosition = positionTime(stations.get(from), stations.get(to), cell.robot);
    if (byPosition !== null)
      return stretched({ emptyS: byPosition, loadedS: byPosition, source: 'positions' });
    if (cell.robot.travelS !== null)
      return stretched({ emptyS: cell.robot.travelS, loadedS: cell.robot.travelS, source: 'travel_s' });
    return null;
  };
}

function positionTime(a: Station | undefined, b: Station | undefined, robot: Cell['robot']): number | null {
  if (!a || !b || robot.speedMS === null) return null;
  if (a.xM === null || a.yM === null || b.xM === null || b.yM === null) return null;
  return moveTime(Math.hypot(a.xM - b.xM, a.yM - b.yM), robot.speedMS, robot.accelMS2);
}

function pairKey(from: string, to: string): string {
  return `${from}\u0000${to}`;
}
