/** What a cell says of the stations that a log names, as far as reading the log needs it. */
import type { Cell, StationKind } from '../model/cell.js';
import { type StationFacts, UNKNOWN_STATION } from './station-track.js';

export interface LogFacts {
  /** By station; empty where no cell is given. */
  readonly stations: ReadonlyMap<string, StationFacts & { readonly kind: StationKind }>;
  /** Stations where a part gets its last work, for logs without the robot's signals at an outfeed. */
  readonly lastWork: ReadonlySet<string>;
}

export const NO_FACTS: LogFacts = { stations: new Map(), lastWork: new Set() };

export function logFacts(cell: Cell): LogFacts {
  const steps = cell.routes.flatMap((route) => route.steps);
  const stations = cell.stations.map(({ name, kind, capacityParts, readyS }) => {
    const batches = steps.filter((s) => s.stations.includes(name)).map((s) => s.partsPerCycle);
    const facts = { kind, capacity: capacityParts ?? Number.POSITIVE_INFINITY, readyS };
    return [name, { ...UNKNOWN_STATION, ...facts, mostPerCycle: Math.max(1, ...batches) }] as const;
  });
  const working = new Set(
    cell.stations.filter((s) => s.kind === 'machine' || s.kind === 'bench').map((s) => s.name),
  );
  const lastWork = cell.routes.flatMap(
    ({ steps: own }) =>
      [...own].reverse().find((s) => s.stations.some((name) => working.has(name)))?.stations ?? [],
  );
  return { stations: new Map(stations), lastWork: new Set(lastWork) };
}
