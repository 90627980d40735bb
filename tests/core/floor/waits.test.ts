/** Why stations wait, by hand: a turned shaft that is deburred in the hand and milled at one of two mills, and a pin. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { DOWN_WAITING, EMPTY, FINISHED, HANDLED, PROCESSING } from '../../../src/core/floor/slot-state.js';
import {
  COMES_LATER,
  NEXT_FULL,
  NO_PART,
  ROBOT_BUSY,
  WAIT_CAUSES,
  type WaitingFloor,
  Waits,
} from '../../../src/core/floor/waits.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const cellFor = (hands: 1 | 2) =>
  compileCell(
    cellOf({
      stations: [
        station('bars', 'infeed'),
        station('blanks', 'infeed'),
        station('lathe', 'machine'),
        station('brush', 'held'),
        station('mill_1', 'machine'),
        station('mill_2', 'machine'),
        station('good', 'outfeed'),
        station('discs', 'infeed'),
        station('grinder', 'machine'),
      ],
      routes: [
        {
          part: 'shaft',
          steps: [
            step(1, ['bars']),
            step(2, ['lathe'], { cycleS: 40 }),
            step(3, ['brush'], { cycleS: 5 }),
            step(4, ['mill_1', 'mill_2'], { cycleS: 60 }),
            step(5, ['good']),
          ],
        },
        { part: 'pin', steps: [step(1, ['blanks']), step(2, ['mill_2'], { cycleS: 30 }), step(3, ['good'])] },
        {
          part: 'ring',
          steps: [step(1, ['discs']), step(2, ['grinder'], { cycleS: 10 }), step(3, ['good'])],
        },
      ],
      robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 2 },
    }),
  );

/** Slots: each machine has one. */
const [LATHE, MILL_1, MILL_2, GRINDER] = [0, 1, 2, 3];
/** Operations: 0 to 4 of the shaft, 5 to 7 of the pin, 8 to 10 of the ring. */
const [TURNED, MILLED, PIN_MILLED] = [1, 3, 6];

interface Moment {
  readonly hands?: 1 | 2;
  /** State and operation of lathe, first and second mill. */
  readonly slots: readonly [readonly [number, number], readonly [number, number], readonly [number, number]];
  /** Racks that can serve. */
  readonly open?: readonly ('bars' | 'blanks' | 'good' | 'discs')[];
  readonly stopped?: readonly number[];
  readonly busy?: boolean;
}

const EMPTY_SLOT = [EMPTY, -1] as const;
const RUNS = [PROCESSING, TURNED] as const;

function floorAt({ hands = 1, slots, open = [], stopped = [], busy = true }: Moment): WaitingFloor {
  const cell = cellFor(hands);
  const inside = (s: number) =>
    slots.filter(([, op], slot) => op >= 0 && cell.slotStation[slot] === s).length;
  return {
    cell,
    // A station that is no rack never makes anybody wait.
    racks: {
      serves: (choice) => {
        const name = cell.stationNames[cell.opStations[choice]];
        return open.some((n) => n === name) || !['bars', 'blanks', 'good', 'discs'].includes(name);
      },
    },
    // The grinder is empty.
    slotState: Uint8Array.from([...slots.map(([state]) => state), EMPTY]),
    slotOp: Int32Array.from([...slots.map(([, op]) => op), -1]),
    freeSlots: Int32Array.from(
      { length: 9 },
      (_, s) => cell.firstSlot[s + 1] - cell.firstSlot[s] - inside(s),
    ),
    stopped: Uint8Array.from({ length: 9 }, (_, s) =>
      stopped.some((slot) => cell.slotStation[slot] === s) ? 1 : 0,
    ),
    robotBusy: busy,
  };
}

/** The cause by which each slot waits for the ten seconds after a look at all; -1 = it does not wait. */
function causes(moment: Moment, slotsLooked: readonly number[] = [LATHE, MILL_1, MILL_2]): number[] {
  const waits = new Waits(floorAt(moment));
  waits.lookAtAll(100);
  waits.lookAtAll(110);
  return slotsLooked.map((slot) => {
    const times = [...waits.timeS.subarray(slot * WAIT_CAUSES, (slot + 1) * WAIT_CAUSES)];
    expect(times.filter((t) => t !== 0)).toEqual(times.some((t) => t > 0) ? [10] : []);
    return times.indexOf(10);
  });
}

describe('an empty station', () => {
  const slots = [EMPTY_SLOT, EMPTY_SLOT, EMPTY_SLOT] as const;

  it('waits for a part where its infeed is out', () => {
    expect(causes({ slots })).toEqual([NO_PART, NO_PART, NO_PART]);
  });

  it('waits for the robot where its infeed can serve: it is busy, or comes later', () => {
    expect(causes({ slots, open: ['bars'] })).toEqual([ROBOT_BUSY, NO_PART, NO_PART]);
    expect(causes({ slots, open: ['blanks'] })).toEqual([NO_PART, NO_PART, ROBOT_BUSY]);
    expect(causes({ slots, open: ['bars', 'blanks'], busy: false })).toEqual([
      COMES_LATER,
      NO_PART,
      COMES_LATER,
    ]);
  });

  it('has a part where one is finished at a station before, over the step in the hand', () => {
    expect(causes({ slots: [[FINISHED, TURNED], EMPTY_SLOT, EMPTY_SLOT] })).toEqual([
      ROBOT_BUSY,
      ROBOT_BUSY,
      ROBOT_BUSY,
    ]);
    expect(causes({ slots: [RUNS, EMPTY_SLOT, EMPTY_SLOT] })).toEqual([-1, NO_PART, NO_PART]);
    // What is finished at a mill goes out, to no mill.
    expect(causes({ slots: [EMPTY_SLOT, [FINISHED, MILLED], EMPTY_SLOT], open: ['good'] })).toEqual([
      ...[NO_PART, ROBOT_BUSY, NO_PART],
    ]);
  });

  it('has none in a finished part that goes to another machine', () => {
    const finished = [[FINISHED, TURNED], EMPTY_SLOT, EMPTY_SLOT] as const;
    expect(causes({ slots: finished }, [GRINDER])).toEqual([NO_PART]);
    expect(causes({ slots: finished, open: ['discs'] }, [GRINDER])).toEqual([ROBOT_BUSY]);
  });
});

describe('a finished part', () => {
  const FULL = [PROCESSING, MILLED] as const;
  const DONE = [FINISHED, TURNED] as const;

  it('cannot move on where every next station is full', () => {
    expect(causes({ slots: [DONE, FULL, [PROCESSING, PIN_MILLED]] })).toEqual([NEXT_FULL, -1, -1]);
    expect(causes({ slots: [DONE, FULL, EMPTY_SLOT] })[LATHE]).toBe(ROBOT_BUSY);
    expect(causes({ slots: [DONE, EMPTY_SLOT, FULL], busy: false })[LATHE]).toBe(COMES_LATER);
  });

  it('nor where the free one is stopped for a changeover', () => {
    expect(causes({ slots: [DONE, FULL, EMPTY_SLOT], stopped: [MILL_2] })[LATHE]).toBe(NEXT_FULL);
    expect(causes({ slots: [DONE, EMPTY_SLOT, EMPTY_SLOT], stopped: [MILL_2] })[LATHE]).toBe(ROBOT_BUSY);
    expect(causes({ slots: [DONE, EMPTY_SLOT, EMPTY_SLOT], stopped: [MILL_1, MILL_2] })[LATHE]).toBe(
      NEXT_FULL,
    );
  });

  it('two hands can exchange it for one that is finished there', () => {
    const slots = [DONE, FULL, [FINISHED, MILLED]] as const;
    expect(causes({ hands: 1, slots })[LATHE]).toBe(NEXT_FULL);
    expect(causes({ hands: 2, slots })[LATHE]).toBe(ROBOT_BUSY);
    expect(causes({ hands: 2, slots, stopped: [MILL_2] })[LATHE]).toBe(NEXT_FULL);
    expect(causes({ hands: 2, slots: [DONE, FULL, FULL] })[LATHE]).toBe(NEXT_FULL);
  });

  it('that goes out waits for room at the outfeed', () => {
    const slots = [EMPTY_SLOT, [FINISHED, MILLED], [FINISHED, PIN_MILLED]] as const;
    expect(causes({ slots })).toEqual([NO_PART, NEXT_FULL, NEXT_FULL]);
    expect(causes({ slots, open: ['good'] })).toEqual([NO_PART, ROBOT_BUSY, ROBOT_BUSY]);
    // Parts at the infeed are no room at the outfeed.
    expect(causes({ slots, open: ['blanks'] })).toEqual([NO_PART, NEXT_FULL, NEXT_FULL]);
  });
});

it('a station at work, at the robot, or down waits for nothing', () => {
  expect(causes({ slots: [RUNS, [HANDLED, MILLED], [DOWN_WAITING, MILLED]] })).toEqual([-1, -1, -1]);
});

it('times add up by cause from look to look', () => {
  const floor = floorAt({ slots: [EMPTY_SLOT, EMPTY_SLOT, EMPTY_SLOT] });
  const waits = new Waits(floor);
  waits.look(LATHE, 5);
  floor.slotState[LATHE] = PROCESSING;
  waits.look(LATHE, 12);
  floor.slotState[LATHE] = EMPTY;
  waits.look(LATHE, 20);
  waits.look(LATHE, 23);
  waits.look(LATHE, 24);
  floor.slotState[LATHE] = FINISHED;
  floor.slotOp[LATHE] = TURNED;
  waits.look(LATHE, 30);
  floor.robotBusy = false;
  waits.look(LATHE, 31);
  waits.look(LATHE, 33);
  const byCause = (cause: number) => waits.timeS[LATHE * WAIT_CAUSES + cause];
  // Without a part from 5 to 12 and from 20 to 30; finished from 30 on, with both mills free: the robot is busy to 31.
  expect([NO_PART, NEXT_FULL, ROBOT_BUSY, COMES_LATER].map(byCause)).toEqual([17, 0, 1, 2]);
  expect([...waits.timeS.subarray(WAIT_CAUSES)].every((t) => t === 0)).toBe(true);
});
