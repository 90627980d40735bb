// Three parts with a rack and a machine each, in a row: a robot that answers calls chooses between three.
import type { Cell, Station } from '../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../core/simulate/cells.js';

const at = (name: string, kind: Station['kind'], xM: number): Station => station(name, kind, { xM, yM: 0 });

/** The rack and machine of c stand nearer to those of a than those of b do. */
export function threeParts(cycles: readonly [number, number, number]): Cell {
  const places = [0, 20, 6];
  return cellOf({
    stations: ['a', 'b', 'c'].flatMap((part, k) => [
      at(`in_${part}`, 'infeed', places[k]!),
      at(`mill_${part}`, 'machine', places[k]! + 1),
      at(`out_${part}`, 'outfeed', places[k]! + 2),
    ]),
    routes: ['a', 'b', 'c'].map((part, k) => ({
      part,
      steps: [
        step(1, [`in_${part}`], { unloadS: 1 }),
        step(2, [`mill_${part}`], { cycleS: cycles[k]!, loadS: 1, unloadS: 1 }),
        step(3, [`out_${part}`], { loadS: 1 }),
      ],
    })),
    robot: { ...ROBOT, travelS: null, speedMS: 1 },
  });
}
