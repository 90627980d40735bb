/** Two presses that can block each other: a hub goes from the first to the second, a lever the other way. */
import type { Cell, Robot, Step } from '../../../src/core/model/cell.js';
import { cellOf, station, step } from '../simulate/cells.js';

/** @param first times of a part at its first press @param second at its second one */
export function crossingPresses(
  robot: Robot,
  first: Partial<Step> = { cycleS: 9 },
  second: Partial<Step> = { cycleS: 9 },
): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed'),
      station('press_1', 'machine'),
      station('press_2', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      ['hub', 'press_1', 'press_2'],
      ['lever', 'press_2', 'press_1'],
    ].map(([part, from, to]) => ({
      part,
      steps: [step(1, ['rack']), step(2, [from], first), step(3, [to], second), step(4, ['good'])],
    })),
    robot,
  });
}
