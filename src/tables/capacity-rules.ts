/** How many parts each station holds, and whether that is enough for the steps there. */
import type { Route, Station } from '../core/model/cell.js';
import { inBackticks } from './in-backticks.js';
import { reportCell, type Sheet } from './sheet.js';

/**
 * Fills in the capacities that the table leaves empty: infeeds and outfeeds are unlimited, other stations hold the
 * largest number of parts that a step loads there, at least 1.
 */
export function withCapacities(stations: readonly Station[], routes: readonly Route[]): Station[] {
  const most = new Map<string, number>();
  for (const step of routes.flatMap((route) => route.steps))
    for (const name of step.stations) most.set(name, Math.max(most.get(name) ?? 1, step.partsPerCycle));
  return stations.map((station) => {
    const isUnlimited = station.kind === 'infeed' || station.kind === 'outfeed';
    if (station.capacityParts !== null || isUnlimited) return station;
    return { ...station, capacityParts: most.get(station.name) ?? 1 };
  });
}

/** Reports steps that load more parts than their station is said to hold. */
export function checkCapacities(sheet: Sheet, stations: readonly Station[], routes: readonly Route[]): void {
  const held = new Map(stations.map((s) => [s.name, s.capacityParts]));
  const rows = new Map(sheet.rows.map((row) => [row.line, row]));
  for (const step of routes.flatMap((route) => route.steps)) {
    const tooSmall = step.stations.find(
      (name) => (held.get(name) ?? Number.POSITIVE_INFINITY) < step.partsPerCycle,
    );
    const row = rows.get(step.at?.line ?? 0);
    if (tooSmall === undefined || !row) continue;
    reportCell(sheet, row, 'parts_per_cycle', 'ROU07', () => ({
      text: `found ${step.partsPerCycle} parts per cycle, but ${inBackticks(tooSmall)} holds ${held.get(tooSmall)}`,
      help: 'Raise its capacity in stations.csv, or load fewer parts before the machine starts.',
    }));
  }
}
