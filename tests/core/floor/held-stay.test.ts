/** A part that the robot holds at a brush, by hand: 1 s to place, 7 s of work, 2 s to pick. */
import { expect, it } from 'vitest';
import { stayHeld } from '../../../src/core/floor/held-stay.js';
import { RobotClock } from '../../../src/core/floor/robot-clock.js';
import { RobotMoves } from '../../../src/core/floor/robot-moves.js';
import { HANDLING, HOLDING, PROCESSING, WAITING } from '../../../src/core/floor/slot-state.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';

const CELL = cellOf({
  stations: [
    station('rack', 'infeed'),
    station('mill', 'machine', { capacityParts: 3 }),
    station('brush', 'held'),
    station('good', 'outfeed'),
  ],
  routes: [
    {
      part: 'cap',
      steps: [
        step(1, ['rack']),
        step(2, ['mill'], { cycleS: 30 }),
        step(3, ['brush'], { cycleS: 7, loadS: 1, unloadS: 2 }),
        step(4, ['good']),
      ],
    },
  ],
  robot: { ...ROBOT, travelS: 3 },
});
const [BRUSH, BRUSH_OP] = [2, 2];

it('takes its time from where the robot comes, and with a longer placing that much more', () => {
  const told: string[] = [];
  const floor = bareFloor(CELL, { trace: (t, what, at, part) => told.push(`${t} ${what} ${at} ${part}`) });
  const robot = { floor, moves: new RobotMoves(floor), clock: new RobotClock(floor) };
  expect(stayHeld(robot, BRUSH_OP, BRUSH, 100, 0)).toBe(110);
  expect(told).toEqual([
    '100 place brush cap',
    '101 placed brush cap',
    '101 start brush cap',
    '108 finish brush cap',
    '108 pick brush cap',
    '110 picked brush cap',
  ]);
  expect(stayHeld(robot, BRUSH_OP, BRUSH, 200, 4)).toBe(214);
  expect(told[7]).toBe('205 placed brush cap');
});

it('is handling and holding, and touches no machine', () => {
  const floor = bareFloor(CELL);
  for (const slot of [0, 1, 2]) put(floor, slot, 1, PROCESSING);
  const clock = new RobotClock(floor);
  clock.begin(100);
  stayHeld({ floor, moves: new RobotMoves(floor), clock }, BRUSH_OP, BRUSH, 100, 0);
  clock.countRound();
  expect([clock.time[HANDLING], clock.time[HOLDING], clock.time[WAITING]]).toEqual([3, 7, 100]);
  expect([...floor.slotState]).toEqual([PROCESSING, PROCESSING, PROCESSING]);
});
