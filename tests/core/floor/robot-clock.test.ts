/** The robot's time and the states of the slots that it serves, by hand; three mills. */
import { describe, expect, it } from 'vitest';
import { RobotClock } from '../../../src/core/floor/robot-clock.js';
import {
  EMPTY,
  FINISHED,
  HANDLED,
  HANDLING,
  PROCESSING,
  SLOT_STATES,
  TRAVEL_LOADED,
} from '../../../src/core/floor/slot-state.js';
import { likeMachines } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';

function three() {
  const floor = bareFloor(likeMachines(3, 30, 5));
  put(floor, 0, 1, PROCESSING);
  put(floor, 1, 1, FINISHED);
  const clock = new RobotClock(floor);
  const stateS = (slot: number) =>
    [EMPTY, HANDLED, PROCESSING, FINISHED].map((state) => floor.slotTime[slot * SLOT_STATES + state]);
  return { floor, clock, stateS };
}

describe('a plain round', () => {
  it('waits, goes, picks, carries and places', () => {
    const { floor, clock, stateS } = three();
    // From the second mill to the third: waits to 10, there at 13, picked at 18, there at 25, placed at 27.
    clock.plain(10, 13, 18, 25, 27, 1, 2);
    clock.countRound();
    expect([...clock.time]).toEqual([3, 7, 5 + 2, 0, 10]);
    expect([...floor.slotState]).toEqual([PROCESSING, EMPTY, HANDLED]);
    floor.now = 27;
    floor.settle();
    expect([0, 1, 2].map(stateS)).toEqual([
      [0, 0, 27, 0],
      [9, 5, 0, 13],
      [25, 2, 0, 0],
    ]);
  });

  it('between an infeed and an outfeed touches no slot', () => {
    const { floor, clock } = three();
    clock.plain(10, 13, 18, 25, 27, -1, -1);
    clock.countRound();
    expect([...floor.slotState]).toEqual([PROCESSING, FINISHED, EMPTY]);
    clock.plain(30, 31, 32, 33, 34, -1, -1);
    clock.settle(40);
    expect([...floor.slotState]).toEqual([PROCESSING, FINISHED, EMPTY]);
    expect([...clock.time]).toEqual([4, 8, 9, 0, 10 + 3 + 6]);
  });

  it.each([
    [12, [2, 0, 0, 0, 10], [PROCESSING, FINISHED, EMPTY]],
    [13, [3, 0, 0, 0, 10], [PROCESSING, HANDLED, EMPTY]],
    [16, [3, 0, 3, 0, 10], [PROCESSING, HANDLED, EMPTY]],
    [18, [3, 0, 5, 0, 10], [PROCESSING, EMPTY, EMPTY]],
    [24, [3, 6, 5, 0, 10], [PROCESSING, EMPTY, EMPTY]],
    [25, [3, 7, 5, 0, 10], [PROCESSING, EMPTY, HANDLED]],
    [26, [3, 7, 6, 0, 10], [PROCESSING, EMPTY, HANDLED]],
  ] as const)('counted up to %i, and then to its end', (untilS, timeS, states) => {
    const { floor, clock } = three();
    clock.plain(10, 13, 18, 25, 27, 1, 2);
    clock.settle(untilS);
    expect([...clock.time]).toEqual(timeS);
    expect([...floor.slotState]).toEqual(states);
    clock.settle(untilS);
    expect([...clock.time]).toEqual(timeS);
    clock.countRound();
    expect([...clock.time]).toEqual([3, 7, 7, 0, 10]);
    expect([...floor.slotState]).toEqual([PROCESSING, EMPTY, HANDLED]);
  });
});

describe('phases', () => {
  it('follow each other, any number of rounds', () => {
    const { floor, clock } = three();
    for (let round = 0; round < 60; round++) {
      clock.begin(10 * round);
      clock.add(10 * round + 2, TRAVEL_LOADED, -1, EMPTY);
      clock.add(10 * round + 3, HANDLING, 2, HANDLED);
      clock.add(10 * round + 4, HANDLING, -1, EMPTY);
      clock.countRound();
    }
    // Two seconds each on the way, two of handling, and six of waiting but after the last.
    expect([...clock.time]).toEqual([0, 120, 120, 0, 59 * 6]);
    expect([...floor.slotState]).toEqual([PROCESSING, FINISHED, HANDLED]);
  });

  it('count up to a moment, what is under way included', () => {
    const { clock } = three();
    clock.begin(5);
    clock.add(9, TRAVEL_LOADED, -1, EMPTY);
    clock.add(12, HANDLING, -1, EMPTY);
    clock.settle(7);
    expect([...clock.time]).toEqual([0, 2, 0, 0, 5]);
    clock.settle(11);
    expect([...clock.time]).toEqual([0, 4, 2, 0, 5]);
    clock.settle(20);
    expect([...clock.time]).toEqual([0, 4, 3, 0, 13]);
  });
});
