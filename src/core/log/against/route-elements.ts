/** The times of the routes' steps, as the tables give them and as the log measured them. */
import type { Cell, Route, Step } from '../../model/cell.js';
import type { LogResult, StationLog } from '../log-result.js';
import type { MeasureSummary } from '../measure.js';
import { type PooledTime, pooledTime } from './pooled-time.js';

/** An input with what was measured of it, before any verdict. */
export interface MeasuredElement {
  readonly element: string;
  readonly path: string;
  readonly unit: 's' | 'min' | 'h';
  readonly estimate: number | null;
  readonly measured: PooledTime;
}

export interface MeasuredElements {
  readonly elements: readonly MeasuredElement[];
  readonly notes: readonly string[];
}

const WHAT = [
  { name: 'cycle', column: 'cycle_s', of: (s: Step) => s.cycleS },
  { name: 'load', column: 'load_s', of: (s: Step) => s.loadS },
  { name: 'unload', column: 'unload_s', of: (s: Step) => s.unloadS },
] as const;

export function routeElements(cell: Cell, log: LogResult): MeasuredElements {
  const logs = new Map(log.stations.map((s) => [s.station, s]));
  const notes = new Set<string>();
  const elements = cell.routes.flatMap((route) =>
    route.steps.flatMap((step) =>
      WHAT.flatMap((what): MeasuredElement[] => {
        const times = step.stations.map((station) =>
          timesOf(cell, logs.get(station), route, step, what, notes),
        );
        const measured = pooledTime(times);
        if (measured === null) return [];
        const element = `${what.name} of ${route.part} at ${step.stations.join(' or ')}`;
        const path = `routes.${route.part}.${step.step}.${what.column}`;
        return [{ element, path, unit: 's', estimate: what.of(step), measured }];
      }),
    ),
  );
  return { elements, notes: [...notes] };
}

/** What the log says of a step at one station; null where it cannot be told from other steps there. */
function timesOf(
  cell: Cell,
  log: StationLog | undefined,
  route: Route,
  step: Step,
  what: (typeof WHAT)[number],
  notes: Set<string>,
): MeasureSummary | null {
  if (log === undefined || log.times[what.name] === null) return null;
  const here = (r: Route): Step[] => r.steps.filter((s) => s.stations.includes(log.station));
  const ofPart = log.byPart.find((p) => p.part === route.part);
  const rivals = ofPart === undefined ? cell.routes.flatMap(here) : here(route);
  if (rivals.some((s) => what.of(s) !== what.of(step))) {
    notes.add(
      `${log.station} makes several steps whose ${what.name} times differ, and the log does not separate them; they are not compared.`,
    );
    return null;
  }
  if (ofPart !== undefined) return ofPart[what.name];
  // Where the log names parts, a part that it does not name has no times here.
  return log.byPart.length > 0 ? null : log.times[what.name];
}
