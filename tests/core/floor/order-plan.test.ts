/** An order in the numbers of a compiled cell, and its timetable, by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { HOLD, PICK, PLACE } from '../../../src/core/floor/order-acts.js';
import { orderPlan } from '../../../src/core/floor/order-plan.js';
import type { Cell, Station, Step } from '../../../src/core/model/cell.js';
import type { OrderEvent, ProcessLink } from '../../../src/core/schedule/result.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { toldOrder } from './told.js';

type Line = readonly [
  action: OrderEvent['action'],
  at: string,
  part: string,
  step: number,
  robotS: number,
  toNextS: number,
];
interface Ties {
  readonly of?: number;
  readonly lag?: number;
  readonly waits?: readonly ProcessLink[];
}

/** @param lines acts in turn; each may say which pick took its part, and what it waits for */
function orderOf(lines: readonly (readonly [...Line, Ties?])[]): OrderEvent[] {
  return lines.map(([action, at, part, number, robotS, toNextS, ties = {}], i) => ({
    ...{
      action,
      station: at,
      part,
      step: number,
      robotS,
      toNextS,
      hand: 1,
      loadedToNext: action !== 'place',
    },
    ...{ pickIndex: ties.of ?? i, pickLag: ties.lag ?? 0, waitsFor: ties.waits ?? [] },
  }));
}
const waitsFor = (
  placeIndex: number,
  lag: number,
  processS: number,
  maxWaitS: number | null = null,
): ProcessLink => ({
  ...{ placeIndex, lag, processS, maxWaitS },
});
const plan = (cell: Cell, order: readonly OrderEvent[]) => orderPlan({ order }, cell, compileCell(cell));

/** A cap over a mill and a brush in the hand; a rod straight through the mill. */
function shop({
  rack,
  cap,
  more,
}: {
  readonly rack?: Partial<Station>;
  readonly cap?: Partial<Step>;
  readonly more?: Partial<Cell>;
} = {}): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed', rack),
      station('mill_1', 'machine'),
      station('mill_2', 'machine'),
      station('brush', 'held'),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(10, ['rack'], { unloadS: 2 }),
          step(20, ['mill_1', 'mill_2'], { cycleS: 20, loadS: 4, unloadS: 5, ...cap }),
          step(30, ['brush'], { cycleS: 7, loadS: 1, unloadS: 2 }),
          step(40, ['good'], { loadS: 6 }),
        ],
      },
      {
        part: 'rod',
        steps: [
          step(1, ['rack'], { unloadS: 2 }),
          step(2, ['mill_2'], { cycleS: 9, loadS: 3, unloadS: 3 }),
          step(3, ['good']),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 3 },
    ...more,
  });
}

describe('an order as numbers', () => {
  const order = orderOf([
    ['pick', 'mill_2', 'cap', 20, 5.25, 3, { waits: [waitsFor(4, 1, 20)] }],
    ['hold', 'brush', 'cap', 30, 12, 3, { of: 0 }],
    ['place', 'good', 'cap', 40, 6, 3, { of: 0 }],
    ['pick', 'rack', 'cap', 10, 2, 3],
    ['place', 'mill_2', 'cap', 20, 4.5, 0, { of: 3 }],
  ]);

  it('names action, station, operation and choice of each event, and what takes longer than the step says', () => {
    const found = plan(shop(), order);
    expect(found.count).toBe(5);
    expect([...found.action]).toEqual([PICK, HOLD, PLACE, PICK, PLACE]);
    expect([...found.station]).toEqual([2, 3, 4, 0, 2]);
    expect([...found.op]).toEqual([1, 2, 3, 0, 1]);
    // Choices: rack, first and second mill, brush, outfeed.
    expect([...found.choice]).toEqual([2, 3, 4, 0, 2]);
    // The brush takes 1 + 7 + 2.
    expect([...found.extraS]).toEqual([0.25, 2, 0, 0, 0.5]);
    expect([...found.pickIndex]).toEqual([0, 0, 0, 3, 3]);
    expect([...found.placeIndex]).toEqual([2, -1, -1, 4, -1]);
    expect([...found.takesIn]).toEqual([0, 0, 0, 1, 0]);
    expect([...found.firstPeriod]).toEqual([1, 1, 1, 0, 0]);
  });

  it('what takes less than its step says takes that', () => {
    expect([
      ...plan(
        shop(),
        order.map((e) => ({ ...e, robotS: 1 })),
      ).extraS,
    ]).toEqual([0, 0, 0, 0, 0]);
  });

  it('is of the part that it names', () => {
    const rods = orderOf([
      ['pick', 'rack', 'rod', 1, 2, 3],
      ['place', 'mill_2', 'rod', 2, 3, 0, { of: 0 }],
      ['pick', 'mill_2', 'rod', 2, 3, 3, { waits: [waitsFor(1, 0, 9)] }],
      ['place', 'good', 'rod', 3, 0, 3, { of: 2 }],
    ]);
    expect([...plan(shop(), rods).op]).toEqual([4, 5, 5, 6]);
    expect([...plan(shop(), rods).choice]).toEqual([5, 6, 6, 7]);
  });

  it('is refused where it has no events, or names what the cell does not have', () => {
    expect(() => plan(shop(), [])).toThrow('the order has no events');
    const wrong = (change: Partial<OrderEvent>) => () =>
      plan(shop(), [{ ...order[0], ...change }, ...order.slice(1)]);
    expect(wrong({ station: 'brush' })).toThrow(
      'the order names step 20 of cap at brush, which the cell does not have',
    );
    expect(wrong({ step: 25 })).toThrow('step 25 of cap at mill_2');
    expect(wrong({ part: 'rod' })).toThrow('step 20 of rod at mill_2');
  });
});

/** Out of the mill and the cell, then in: 3 s of way, pick 5 and 2 s, place 6 and 4 s, 20 s of work. */
const emptyFirst = (maxWaitS: number | null, wayS = 3) =>
  orderOf([
    ['pick', 'mill_1', 'cap', 20, 5, wayS, { waits: [waitsFor(3, 1, 20, maxWaitS)] }],
    ['place', 'good', 'cap', 40, 6, wayS, { of: 0 }],
    ['pick', 'rack', 'cap', 10, 2, wayS],
    ['place', 'mill_1', 'cap', 20, 4, 0, { of: 2 }],
  ]);

describe('its timetable', () => {
  it('is kept where steps have longest waits', () => {
    // The mill sets the round: 4 to place, 20 of work, and 22 until the next is there.
    expect(plan(shop(), emptyFirst(100))).toMatchObject({ hasLongestWaits: true, gapS: [24, 8, 9, 5] });
    expect(plan(shop(), emptyFirst(null))).toMatchObject({
      hasLongestWaits: false,
      gapS: null,
      slowGapS: null,
    });
  });

  it('in attended hours is that of the slower robot; a turn on the spot is no way', () => {
    const slow = { more: { robot: { ...ROBOT, travelS: 3, attendedSpeedPct: 50 } } };
    const found = plan(shop(slow), emptyFirst(100));
    expect([found.gapS, found.slowGapS]).toEqual([
      [24, 8, 9, 5],
      [24, 11, 12, 8],
    ]);
    // From the begin of the act before to the end of the way after: 9 + 5 + 24 + 8 + 9 and 12 + 8 + 24 + 11 + 12.
    expect([plan(shop(), emptyFirst(100)).lifeS, found.lifeS]).toEqual([[55], [67]]);
    const turning = emptyFirst(100).map((e, i) => (i === 3 ? { ...e, toNextS: 1 } : e));
    // The turn lies within the 20 s of work.
    expect(plan(shop(slow), turning).slowGapS).toEqual([24, 11, 12, 8]);
    const quick = { ...slow, cap: { cycleS: 0 } };
    const busy = turning.map((e) => ({ ...e, waitsFor: e.waitsFor.map((w) => ({ ...w, processS: 0 })) }));
    expect(plan(shop(quick), busy).slowGapS).toEqual([5, 11, 12, 8]);
  });

  it('does not exist where the robot cannot be back in time', () => {
    // Placed, then 50 s of holding another part, then picked: more than 10 s of work and 5 s of waiting.
    const order = orderOf([
      ['pick', 'rack', 'cap', 10, 2, 3],
      ['place', 'mill_1', 'cap', 20, 4, 3, { of: 0 }],
      ['pick', 'rack', 'cap', 10, 50, 3],
      ['place', 'mill_2', 'cap', 20, 4, 3, { of: 2 }],
      ['pick', 'mill_1', 'cap', 20, 5, 3, { waits: [waitsFor(1, 0, 10, 5)] }],
      ['place', 'good', 'cap', 40, 6, 3, { of: 4 }],
    ]);
    expect(plan(shop(), order)).toMatchObject({
      hasLongestWaits: true,
      gapS: null,
      slowGapS: null,
      lifeS: [0, 0],
    });
  });

  it('is refused where nothing takes any time', () => {
    const nothing = emptyFirst(null, 0).map((e) => ({ ...e, robotS: 0, waitsFor: [] }));
    expect(() => plan(shop(), nothing)).toThrow('the order takes no time at all');
  });
});

describe('an infeed that needs time for its next part', () => {
  it('holds up its next pick: the door, its own time, the next part ready', () => {
    const paced = shop({ rack: { closeS: 10, readyS: 30 } });
    const [cap, rod] = paced.routes;
    const cell = {
      ...paced,
      routes: [{ ...cap, steps: cap.steps.map((s) => (s.step === 10 ? { ...s, cycleS: 20 } : s)) }, rod],
    };
    // 2 + 10 + 20 + 30 s from pick to pick; what else there is to do takes 46.
    expect(plan(cell, emptyFirst(100)).gapS).toEqual([40, 8, 9, 5]);
  });

  it('serves the parts of all routes one after another', () => {
    // All acts take a second, there is no way; the rack needs 20 s. What the drill has made may not wait.
    const cell = cellOf({
      stations: [
        station('rack', 'infeed', { readyS: 20 }),
        station('drill', 'machine'),
        station('mill', 'machine'),
        station('good', 'outfeed'),
      ],
      routes: [
        ['cap', 'drill', 0],
        ['rod', 'mill', null],
      ].map(([part, at, maxWaitS]) => ({
        part: String(part),
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, [String(at)], { cycleS: 10, loadS: 1, unloadS: 1, maxWaitS: maxWaitS as number | null }),
          step(3, ['good'], { loadS: 1 }),
        ],
      })),
      robot: ROBOT,
    });
    const order = orderOf([
      ['pick', 'rack', 'cap', 1, 1, 0],
      ['place', 'drill', 'cap', 2, 1, 0, { of: 0 }],
      ['pick', 'rack', 'rod', 1, 1, 0],
      ['place', 'mill', 'rod', 2, 1, 0, { of: 2 }],
      ['pick', 'drill', 'cap', 2, 1, 0, { waits: [waitsFor(1, 0, 10, 0)] }],
      ['place', 'good', 'cap', 3, 1, 0, { of: 4 }],
      ['pick', 'mill', 'rod', 2, 1, 0, { waits: [waitsFor(3, 0, 10)] }],
      ['place', 'good', 'rod', 3, 1, 0, { of: 6 }],
    ]);
    // The rod is there 21 s after the cap and in the mill at 22: the cap is fetched from the drill at 23, so it goes in at
    // 12. The next cap is there 21 s after the rod, at 42.
    expect(plan(cell, order).gapS).toEqual([8, 12, 9, 1, 1, 1, 9, 1]);
    const { run } = toldOrder({ cell, order }, 'strict', 36);
    expect([[...run.floor.good], [...run.floor.late]]).toEqual([
      [1, 1],
      [0, 0],
    ]);
  });
});
