/**
 * The causes that keep a cell from its ceiling, as one list of switches. Runs with one cause more each are set side by
 * side, and the difference of two neighbours is what the later cause costs on top of those before it.
 */
import type { Cell } from '../model/cell.js';
import type { FloorJob } from './floor-job.js';
import { type OpenSpan, operatorsIn } from './open-calendar.js';

interface Cause {
  readonly name: string;
  readonly present: (job: FloorJob) => boolean;
  /** The job without the cause. */
  readonly without: (job: FloorJob) => FloorJob;
}

export const RESPONSE_CAUSE = "operator's response time";

const TIMES = new Set(['cycle', 'load', 'unload', 'travel']);

/** In the order in which they are switched on. */
const CAUSES: readonly Cause[] = [
  {
    name: 'reduced speed in attended hours',
    present: ({ cell, openSpans }) =>
      cell.robot.attendedSpeedPct < 100 && (openSpans?.some((s) => s.attended) ?? false),
    without: withCell((cell) => ({ ...cell, robot: { ...cell.robot, attendedSpeedPct: 100 } })),
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
    name: 'random stops and their repair',
    present: ({ cell }) => cell.stations.some((s) => s.mtbfH !== null),
    without: withCell((cell) => ({
      ...cell,
      stations: cell.stations.map((s) => ({ ...s, mtbfH: null, mttrMin: null })),
    })),
  },
  {
    name: 'planned stops',
    present: ({ cell }) => cell.stops.length > 0,
    without: withCell((cell) => ({ ...cell, stops: [] })),
  },
  {
    name: RESPONSE_CAUSE,
    present: ({ cell }) => callsOperators(cell) && cell.variation.some((v) => v.element === 'response'),
    without: withCell((cell) => ({
      ...cell,
      variation: cell.variation.filter((v) => v.element !== 'response'),
    })),
  },
  {
    name: 'no operator in unattended hours',
    present: ({ cell, openSpans }) =>
      callsOperators(cell) && (openSpans?.some((s) => !s.attended && isAlone(s)) ?? false),
    without: withSpans((span, most) =>
      !span.attended && isAlone(span) ? { ...span, operators: most } : span,
    ),
  },
  {
    name: 'racks empty or full',
    present: ({ cell }) => hasRacks(cell),
    without: withCell((cell) => ({
      ...cell,
      stations: cell.stations.map((s) => (isRack(s) ? { ...s, capacityParts: null } : s)),
    })),
  },
  {
    name: 'operator in a break',
    present: ({ cell, openSpans }) =>
      callsOperators(cell) && (openSpans?.some((s) => s.attended && isAlone(s)) ?? false),
    without: withSpans((span, most) =>
      span.attended && isAlone(span) ? { ...span, operators: most } : span,
    ),
  },
  {
    name: 'changeovers',
    present: ({ changeovers }) => changeovers !== null,
    without: (job) => ({ ...job, changeovers: null }),
  },
  {
    name: 'scrap',
    present: ({ cell }) => cell.parts.some((p) => p.yieldPct < 100),
    without: withCell((cell) => ({ ...cell, parts: cell.parts.map((p) => ({ ...p, yieldPct: 100 })) })),
  },
];

export interface LossStep<Job extends FloorJob = FloorJob> {
  readonly cause: string;
  /** The job without this cause and without those after it in the list. */
  readonly without: Job;
}

/** Causes that the job has, in the order in which they are switched on. */
export function lossSwitches<Job extends FloorJob>(job: Job): LossStep<Job>[] {
  const steps: LossStep<Job>[] = [];
  let present = job;
  for (const cause of [...CAUSES].reverse()) {
    if (!cause.present(present)) continue;
    present = { ...present, ...cause.without(present) };
    steps.push({ cause: cause.name, without: present });
  }
  return steps.reverse();
}

function withCell(change: (cell: Cell) => Cell): Cause['without'] {
  return (job) => ({ ...job, cell: change(job.cell) });
}

function withSpans(change: (span: OpenSpan, most: number) => OpenSpan): Cause['without'] {
  return (job) => {
    const most = Math.max(1, ...job.openSpans!.map(operatorsIn));
    return { ...job, openSpans: job.openSpans!.map((span) => change(span, most)) };
  };
}

function isRack(station: Cell['stations'][number]): boolean {
  return station.kind === 'infeed' || station.kind === 'outfeed';
}

export function hasRacks(cell: Cell): boolean {
  return cell.stations.some((s) => isRack(s) && s.capacityParts !== null);
}

function callsOperators(cell: Cell): boolean {
  return hasRacks(cell) || cell.stops.some((s) => s.operator) || cell.stations.some((s) => s.mtbfH !== null);
}

/** Nobody is there: an unattended shift, or a break. */
export function isAlone(span: OpenSpan): boolean {
  return operatorsIn(span) === 0;
}

/**
 * A cause that saves more of another one than it costs would show as a gain: it is taken together with its neighbour, so
 * that no loss has a gain's sign. The sum stays. Where all together are a gain, that is what the one left is called.
 *
 * @param add the amounts of two neighbours taken together
 */
export function withoutGains<Loss extends { readonly cause: string }>(
  losses: readonly Loss[],
  partsOf: (loss: Loss) => number,
  add: (a: Loss, b: Loss) => Omit<Loss, 'cause'>,
): Loss[] {
  const list = [...losses];
  for (;;) {
    const at = list.findIndex((loss) => partsOf(loss) < -1e-9);
    if (at < 0) return list;
    if (list.length === 1) return [{ ...list[0]!, cause: `gain: ${list[0]!.cause}` }];
    const other =
      at === 0
        ? 1
        : at === list.length - 1 || partsOf(list[at - 1]!) >= partsOf(list[at + 1]!)
          ? at - 1
          : at + 1;
    const first = Math.min(at, other);
    const [a, b] = [list[first]!, list[first + 1]!];
    list.splice(first, 2, { ...a, ...add(a, b), cause: `${a.cause}, with ${b.cause}` });
  }
}
