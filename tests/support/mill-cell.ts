// A cell of one machine whose times can be added up in the head.
import type { Cell, Station, Step } from '../../src/core/model/cell.js';
import { buildPlan, type Plan } from '../../src/core/schedule/plan/plan.js';
import { emptyCell, onlyPath, station, step } from './line-cell.js';

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

/** Events of the mill: 0 pick in, 1 place mill, 2 pick mill, 3 place out. Places: 0 in, 1 mill, 2 out, 3 and 4 in hand. */
export function millPlan(changes: Changes = {}, count = 1): Plan {
  const cell = millCell(changes);
  return buildPlan(cell, onlyPath(cell, count));
}

export interface TwoParts {
  readonly machine?: Partial<Station>;
  readonly infeed?: Partial<Station>;
  readonly outfeed?: Partial<Station>;
  readonly first?: readonly [Partial<Step>, Partial<Step>];
  readonly work?: readonly [Partial<Step>, Partial<Step>];
  readonly last?: readonly [Partial<Step>, Partial<Step>];
  /** Parts of each a period. */
  readonly counts?: readonly [number, number];
}

/**
 * Cap and lid from one infeed over one mill to one outfeed. Events 0 to 3 as above for the cap, 4 to 7 for the lid;
 * places 0, 1, 2 in, mill, out of the cap, 3, 4, 5 of the lid, then those in hand.
 */
export function capAndLid({ machine, infeed, outfeed, first, work, last, counts = [1, 1] }: TwoParts): Plan {
  const cell: Cell = {
    ...emptyCell,
    robot: { ...emptyCell.robot, travelS: 1 },
    stations: [
      station('in', 'infeed', infeed),
      station('mill', 'machine', machine),
      station('out', 'outfeed', outfeed),
    ],
    travel: [],
    routes: ['cap', 'lid'].map((part, i) => ({
      part,
      steps: [
        step(1, 'in', { unloadS: 1, ...first?.[i] }),
        step(2, 'mill', { loadS: 1, unloadS: 1, ...work?.[i] }),
        step(3, 'out', { loadS: 1, ...last?.[i] }),
      ],
    })),
  };
  const path = (route: number) => ({
    route,
    stops: cell.routes[route]!.steps.map((s) => ({ step: s, station: s.stations[0]! })),
    count: counts[route]!,
  });
  return buildPlan(cell, [path(0), path(1)]);
}
