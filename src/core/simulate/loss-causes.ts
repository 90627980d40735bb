/**
 * What keeps the cell from its ceiling, cause by cause: a row of cells, each with one cause more than the one before,
 * from machines that never wait for anything to the cell as it is. The loss to a cause is the difference of its two
 * neighbours under the same luck; so the losses add up to ceiling less yield.
 */
import type { Cell } from '../model/cell.js';
import type { OpenSpan } from './calendar.js';
import type { ReplicationJob } from './replication-job.js';

interface Cause {
  readonly name: string;
  readonly present: (job: ReplicationJob) => boolean;
  /** The job without the cause. */
  readonly without: (job: ReplicationJob) => ReplicationJob;
}

const TIMES = new Set(['cycle', 'load', 'unload', 'travel']);

/** Taken away in this order, from the whole cell to the ceiling. */
const CAUSES: readonly Cause[] = [
  {
    name: 'scrap',
    present: ({ cell }) => cell.parts.some((p) => p.yieldPct < 100),
    without: withCell((cell) => ({ ...cell, parts: cell.parts.map((p) => ({ ...p, yieldPct: 100 })) })),
  },
  {
    name: 'reduced speed in attended hours',
    present: ({ cell, openSpans }) =>
      cell.robot.attendedSpeedPct < 100 && (openSpans?.some((s) => s.attended) ?? false),
    without: withCell((cell) => ({ ...cell, robot: { ...cell.robot, attendedSpeedPct: 100 } })),
  },
  {
    name: 'no operator there (unattended hours and breaks)',
    present: ({ cell, openSpans }) => callsOperators(cell) && (openSpans?.some(isAlone) ?? false),
    without: (job) => ({
      ...job,
      openSpans: job.openSpans!.map((s) => ({ ...s, operators: mostOf(job.openSpans!) })),
    }),
  },
  {
    name: "operator's response time",
    present: ({ cell }) => callsOperators(cell) && cell.variation.some((v) => v.element === 'response'),
    without: withCell((cell) => ({
      ...cell,
      variation: cell.variation.filter((v) => v.element !== 'response'),
    })),
  },
  {
    name: 'planned stops and racks',
    present: ({ cell }) => cell.stops.length > 0 || hasRacks(cell),
    without: withCell((cell) => ({
      ...cell,
      stops: [],
      stations: cell.stations.map((s) => (isRack(s) ? { ...s, capacityParts: null } : s)),
    })),
  },
  {
    name: 'random stops and their repair',
    present: ({ cell }) => cell.stations.some((s) => s.mtbfH !== null),
    without: withCell((cell) => ({
      ...cell,
      stations: cell.stations.map((s) => ({ ...s, mtbfH: null, mttrMin: null })),
    })),
  },
  {
    name: 'variation of times',
    present: ({ cell }) => cell.variation.some((v) => TIMES.has(v.element) && v.distribution !== 'constant'),
    without: withCell((cell) => ({
      ...cell,
      variation: cell.variation.filter((v) => !TIMES.has(v.element)),
    })),
  },
  {
    name: 'robot: handling, travel and waiting for it',
    present: ({ cell }) => machinesSetAPace(cell),
    without: (job) => ({ ...job, dispatch: 'first', cell: withoutRobotTime(job.cell) }),
  },
];

export interface LossStep {
  readonly cause: string;
  /** The job without this cause and without those before it in the list. */
  readonly job: ReplicationJob;
}

/** Causes that the job has, each with the job that lacks it; the last job is the ceiling. */
export function lossSteps(job: ReplicationJob): LossStep[] {
  const steps: LossStep[] = [];
  let present = job;
  for (const cause of CAUSES) {
    if (!cause.present(present)) continue;
    present = cause.without(present);
    steps.push({ cause: cause.name, job: present });
  }
  return steps;
}

function withCell(change: (cell: Cell) => Cell): Cause['without'] {
  return (job) => ({ ...job, cell: change(job.cell) });
}

function isRack(station: Cell['stations'][number]): boolean {
  return station.kind === 'infeed' || station.kind === 'outfeed';
}

function hasRacks(cell: Cell): boolean {
  return cell.stations.some((s) => isRack(s) && s.capacityParts !== null);
}

function callsOperators(cell: Cell): boolean {
  return hasRacks(cell) || cell.stops.some((s) => s.operator) || cell.stations.some((s) => s.mtbfH !== null);
}

/** Nobody is there: an unattended shift, or a break. */
export function isAlone(span: OpenSpan): boolean {
  return (span.operators ?? (span.attended ? 1 : 0)) === 0;
}

function mostOf(spans: readonly OpenSpan[]): number {
  return Math.max(1, ...spans.map((s) => s.operators ?? 1));
}

/** Every route takes machine time, so that it has a pace even where the robot takes none. */
function machinesSetAPace(cell: Cell): boolean {
  const kinds = new Map(cell.stations.map((s) => [s.name, s.kind]));
  return cell.routes.every((route) =>
    route.steps.some(
      (step) =>
        step.cycleS > 0 &&
        step.everyParts === 1 &&
        step.stations.every((name) => kinds.get(name) === 'machine' || kinds.get(name) === 'bench'),
    ),
  );
}

function withoutRobotTime(cell: Cell): Cell {
  return {
    ...cell,
    robot: { ...cell.robot, indexS: 0, travelS: 0, speedMS: null },
    travel: [],
    routes: cell.routes.map((route) => ({
      ...route,
      steps: route.steps.map((step) => ({ ...step, loadS: 0, unloadS: 0 })),
    })),
  };
}
