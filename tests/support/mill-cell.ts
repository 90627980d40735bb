// A cell of one machine whose times can be added up in the head.
import type { Cell, Station, Step } from '../../src/core/model/cell.js';
import { emptyCell, station, step } from './line-cell.js';

export interface Changes {
  readonly hands?: 1 | 2;
  readonly indexS?: number;
  readonly machine?: Partial<Station>;
  readonly infeed?: Partial<Station>;
  readonly first?: Partial<Step>;
  readonly work?: Partial<Step>;
  readonly travel?: Cell['travel'];
  readonly travelS?: number | null;
}

/** in, mill, out: every way 1 s, every pick and place 1 s, the mill closes 1 s, cuts 2 s and opens 1 s. */
export function millCell(changes: Changes = {}): Cell {
  const { hands = 1, indexS = 0, machine, infeed, first, work, travel = [], travelS = 1 } = changes;
  return {
    ...emptyCell,
    robot: { ...emptyCell.robot, hands, indexS, travelS },
    stations: [
      station('in', 'infeed', infeed),
      station('mill', 'machine', { closeS: 1, readyS: 1, ...machine }),
      station('out', 'outfeed'),
    ],
    travel,
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, 'in', { unloadS: 1, ...first }),
          step(2, 'mill', { loadS: 1, unloadS: 1, cycleS: 2, ...work }),
          step(3, 'out', { loadS: 1 }),
        ],
      },
    ],
  };
}
