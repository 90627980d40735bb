/** Small cells for the simulation's tests. */
import type { Cell, Robot } from '../../../src/core/model/cell.js';
import { station, step } from '../../support/line-cell.js';

export { station, step };

export const ROBOT: Robot = {
  hands: 1,
  indexS: 0,
  speedMS: null,
  accelMS2: null,
  travelS: 0,
  attendedSpeedPct: 100,
  costPerH: 0,
};

export function cellOf(parts: Partial<Cell>): Cell {
  return {
    stations: [],
    routes: [],
    robot: ROBOT,
    travel: [],
    parts: [],
    shifts: [],
    stops: [],
    variation: [],
    changeovers: [],
    setups: [],
    jobs: [],
    signals: [],
    costs: [],
    ...parts,
  };
}

/** n like machines between one infeed and one outfeed; a service takes serviceS of robot time and no travel. */
export function likeMachines(n: number, runS: number, serviceS: number, more: Partial<Cell> = {}): Cell {
  const machines = Array.from({ length: n }, (_, i) => `mill_${i + 1}`);
  return cellOf({
    stations: [
      station('in', 'infeed'),
      ...machines.map((m) => station(m, 'machine')),
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [step(1, ['in']), step(2, machines, { cycleS: runS, loadS: serviceS }), step(3, ['out'])],
      },
    ],
    ...more,
  });
}

/** Two machines in a row between infeed and outfeed. */
export function line(times: readonly number[], more: Partial<Cell> = {}): Cell {
  const machines = times.map((_, i) => `m${i + 1}`);
  return cellOf({
    stations: [
      station('in', 'infeed'),
      ...machines.map((m) => station(m, 'machine')),
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'shaft',
        steps: [
          step(1, ['in'], { unloadS: 2 }),
          ...times.map((cycleS, i) => step(i + 2, [machines[i]!], { cycleS, loadS: 2, unloadS: 2 })),
          step(times.length + 2, ['out'], { loadS: 2 }),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 3 },
    ...more,
  });
}
