/** Who waits for whom, in words, on floors set up by hand. */
import { expect, it } from 'vitest';
import { deadlockText } from '../../../src/core/floor/deadlock-text.js';
import type { FloorRobot } from '../../../src/core/floor/robot.js';
import {
  DOWN_WAITING,
  FINISHED,
  PART_LOADED,
  PROCESSING,
  STOP_WAITING,
} from '../../../src/core/floor/slot-state.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';

const floorOf = () =>
  bareFloor(
    cellOf({
      stations: [
        station('rack', 'infeed', { capacityParts: 1 }),
        station('press_1', 'machine'),
        station('press_2', 'machine'),
        station('press_3', 'machine'),
        station('good', 'outfeed', { capacityParts: 1 }),
      ],
      routes: [
        {
          part: 'hub',
          steps: [
            step(1, ['rack']),
            step(2, ['press_1'], { cycleS: 9 }),
            step(3, ['press_2', 'press_3'], { cycleS: 9 }),
            step(4, ['good']),
          ],
        },
        {
          part: 'lever',
          steps: [
            step(1, ['rack']),
            step(2, ['press_2'], { cycleS: 9, partsPerCycle: 3 }),
            step(3, ['press_1'], { cycleS: 9 }),
            step(4, ['good']),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 5 },
    }),
    { operators: 0 },
  );
const robot = { waitText: () => 'The robot waits.' } as FloorRobot;
const [HUB, LEVER] = [1, 5];

it('a finished part waits for room, at any of its stations', () => {
  const floor = floorOf();
  put(floor, 0, HUB, FINISHED);
  expect(deadlockText(floor, robot)).toBe(
    'press_1 holds a finished hub that waits for room at press_2 or press_3. The robot waits.',
  );
});

it('a ring stands alone, where there is one', () => {
  const floor = floorOf();
  put(floor, 0, HUB, FINISHED);
  put(floor, 1, LEVER, FINISHED);
  put(floor, 4, 2, STOP_WAITING);
  expect(deadlockText(floor, robot)).toBe(
    'A ring of waits: press_1 holds a finished hub that waits for room at press_2 or press_3. ' +
      'press_2 holds a finished lever that waits for room at press_1. The robot waits.',
  );
});

it('all else is told station by station: fixtures, stops, racks', () => {
  const floor = floorOf();
  put(floor, 0, HUB, DOWN_WAITING);
  put(floor, 1, LEVER, PART_LOADED);
  put(floor, 4, 2, STOP_WAITING);
  expect(deadlockText(floor, robot)).toBe(
    'press_1 is down and waits for an operator. press_2 holds a lever and waits until 3 are loaded. ' +
      'press_3 is down and waits for an operator. The robot waits.',
  );
  const racks = floorOf();
  put(racks, 0, HUB, PROCESSING);
  racks.racks.use(0, 0, 0);
  racks.racks.use(4, 3, 0);
  expect(deadlockText(racks, robot)).toBe(
    'rack has no parts left and waits for an operator. good is full and waits for an operator. The robot waits.',
  );
  expect(deadlockText(floorOf(), robot)).toBe('The robot waits.');
});
