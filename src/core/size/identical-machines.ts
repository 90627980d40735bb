/** A cell of identical machines from a few figures: one infeed, one outfeed, the same way between any two stations. */
import type { Cell, Station, Variation } from '../model/cell.js';

/** Figures of one machine and of the robot; seconds and money per hour. */
export interface IdenticalMachines {
  /** Automatic time of the machine, above 0. */
  readonly cycleS: number;
  /** Robot time to place a part in the machine. */
  readonly loadS: number;
  /** Robot time to take a part out of the machine. */
  readonly unloadS: number;
  /** Robot time between any two stations. */
  readonly travelS: number;
  readonly readyS?: number;
  readonly closeS?: number;
  readonly hands?: 1 | 2;
  readonly indexS?: number;
  readonly robotCostPerH?: number;
  readonly machineCostPerH?: number;
  /** People for the whole cell. */
  readonly labourPerH?: number;
  readonly contributionPerPart?: number | null;
  /** Processing hours between random stops, and minutes to clear one; both or neither. */
  readonly mtbfH?: number;
  readonly mttrMin?: number;
  /** Standard deviation of the cycle, which is lognormal then. */
  readonly cycleSdS?: number;
}

/**
 * @param machines how many machines, a whole number of 1 or more
 * @returns stations `infeed`, `outfeed`, `m1`, `m2`, … and one part that any of the machines can make
 * @throws RangeError where a figure is out of range
 */
export function identicalCell(figures: IdenticalMachines, machines: number): Cell {
  checkFigures(figures, machines);
  const names = Array.from({ length: machines }, (_, i) => `m${i + 1}`);
  const { cycleS, loadS, unloadS } = figures;
  const plain = { cycleS: 0, loadS: 0, unloadS: 0, maxWaitS: null, partsPerCycle: 1, everyParts: 1 };
  return {
    stations: [
      stationOf('infeed', 'infeed', {}),
      stationOf('outfeed', 'outfeed', {}),
      ...names.map((name) => stationOf(name, 'machine', figures)),
    ],
    routes: [
      {
        part: 'part',
        steps: [
          { ...plain, step: 1, stations: ['infeed'] },
          { ...plain, step: 2, stations: names, cycleS, loadS, unloadS },
          { ...plain, step: 3, stations: ['outfeed'] },
        ],
      },
    ],
    robot: {
      hands: figures.hands ?? 1,
      indexS: figures.indexS ?? 0,
      speedMS: null,
      accelMS2: null,
      travelS: figures.travelS,
      attendedSpeedPct: 100,
      costPerH: figures.robotCostPerH ?? 0,
    },
    travel: [],
    parts: [
      {
        part: 'part',
        contribution: figures.contributionPerPart ?? null,
        perShift: null,
        ratio: null,
        yieldPct: 100,
      },
    ],
    shifts: [],
    stops: [],
    variation: names.flatMap((station) => scatterOf(station, figures)),
    changeovers: [],
    setups: [],
    jobs: [],
    signals: [],
    costs: [],
  };
}

function stationOf(name: string, kind: Station['kind'], figures: Partial<IdenticalMachines>): Station {
  return {
    name,
    kind,
    xM: null,
    yM: null,
    capacityParts: kind === 'machine' ? 1 : null,
    readyS: figures.readyS ?? 0,
    closeS: figures.closeS ?? 0,
    costPerH: figures.machineCostPerH ?? 0,
    mtbfH: (kind === 'machine' ? figures.mtbfH : undefined) ?? null,
    mttrMin: (kind === 'machine' ? figures.mttrMin : undefined) ?? null,
  };
}

function scatterOf(station: string, { cycleS, cycleSdS }: IdenticalMachines): Variation[] {
  if (cycleSdS === undefined || cycleSdS === 0) return [];
  return [{ station, element: 'cycle', distribution: 'lognormal', parameters: [cycleS, cycleSdS] }];
}

function checkFigures(figures: IdenticalMachines, machines: number): void {
  if (!Number.isInteger(machines) || machines < 1)
    throw new RangeError('the number of machines must be a whole number from 1');
  if (!(figures.cycleS > 0)) throw new RangeError(`cycle must be above 0 s, found ${figures.cycleS}`);
  const { mtbfH, mttrMin } = figures;
  if ((mtbfH === undefined) !== (mttrMin === undefined))
    throw new RangeError('time between stops and time to clear one are given together or not at all');
  if (mtbfH !== undefined && !(mtbfH > 0))
    throw new RangeError(`hours between stops must be above 0, found ${mtbfH}`);
  for (const [name, value] of Object.entries(figures)) {
    if (value === null || name === 'contributionPerPart') continue;
    if (!(value >= 0) || !Number.isFinite(value))
      throw new RangeError(`${name} must be a number of 0 or more, found ${value}`);
  }
}
