/** What the tables of a cell give for a timed element, and which rows of them hold it. */
import type { Cell, Route, Step } from '../model/cell.js';
import { travelLookup } from '../model/travel.js';
import type { TimedElement } from './timed-element.js';

export interface StepOfRoute {
  readonly route: Route;
  readonly step: Step;
}

export interface TableTime {
  /** null where the tables give no such time. */
  readonly tableS: number | null;
  /** Steps of routes.csv whose time this is; empty for times that stand elsewhere. */
  readonly steps: readonly StepOfRoute[];
  /** Why no row can be made, as a sentence; null where one can. */
  readonly problem: string | null;
}

type AtStation = Extract<TimedElement, { kind: 'station' }>;
const STEP_TIME = { cycle: 'cycleS', load: 'loadS', unload: 'unloadS' } as const;

/** @param timed an element whose names the cell knows */
export function tableTime(cell: Cell, timed: TimedElement): TableTime {
  if (timed.kind === 'index') return plain(cell.robot.hands === 2 ? cell.robot.indexS : null);
  if (timed.kind === 'station') return atStation(cell, timed);
  const time = travelLookup(cell)(timed.from, timed.to);
  if (timed.from === timed.to)
    return { tableS: null, steps: [], problem: 'A trip goes from one station to another.' };
  return plain(time === null ? null : timed.loaded ? time.loadedS : time.emptyS);
}

function plain(tableS: number | null): TableTime {
  return { tableS, steps: [], problem: null };
}

function atStation(cell: Cell, timed: AtStation): TableTime {
  const station = cell.stations.find((s) => s.name === timed.station)!;
  switch (timed.what) {
    case 'ready':
      return plain(station.readyS);
    case 'close':
      return plain(station.closeS);
    case 'repair':
      return plain(station.mttrMin === null ? null : 60 * station.mttrMin);
    case 'response':
      return plain(null);
    default:
      return stepTime(cell, timed, STEP_TIME[timed.what]);
  }
}

function stepTime(cell: Cell, timed: AtStation, field: 'cycleS' | 'loadS' | 'unloadS'): TableTime {
  const steps = cell.routes
    .filter((route) => timed.part === null || route.part === timed.part)
    .flatMap((route) => route.steps.map((step) => ({ route, step })))
    .filter(({ step }) => step.stations.includes(timed.station));
  const times = new Set(steps.map(({ step }) => step[field]));
  if (times.size === 1) return { tableS: [...times][0]!, steps, problem: null };
  return { tableS: null, steps: [], problem: unclear(timed, steps) };
}

function unclear(timed: AtStation, steps: readonly StepOfRoute[]): string {
  const part = timed.part === null ? '' : ` of ${timed.part}`;
  if (steps.length === 0) return `No step${part} in routes.csv is at ${timed.station}.`;
  const parts = [...new Set(steps.map(({ route }) => route.part))];
  if (parts.length > 1)
    return `The parts made at ${timed.station} have unlike times in routes.csv; name the part behind it, such as \`${timed.station} ${timed.what} ${parts[0]}\`.`;
  return `${parts[0]} comes to ${timed.station} more than once with unlike times, so the reading cannot be put down to one step.`;
}
