/** Which acts of an order are left out at the moment, on floors set up by hand. */
import { describe, expect, it } from 'vitest';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { orderPlan } from '../../../src/core/floor/order-plan.js';
import { PassesOver } from '../../../src/core/floor/passes-over.js';
import type { FloorOptions, ShopFloor } from '../../../src/core/floor/shop-floor.js';
import {
  DOWN_REPAIR,
  DOWN_WAITING,
  FINISHED,
  HANDLED,
  PART_LOADED,
  PROCESSING,
  STOP_WAITING,
  STOP_WORK,
} from '../../../src/core/floor/slot-state.js';
import type { Cell, Step } from '../../../src/core/model/cell.js';
import type { OrderEvent } from '../../../src/core/schedule/result.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';
import { crossingPresses } from './crossing-presses.js';

type Line = readonly [
  action: 'pick' | 'place',
  at: string,
  step: number,
  of?: number | undefined,
  part?: string,
];

function orderOf(...lines: readonly Line[]): OrderEvent[] {
  return lines.map(([action, at, number, of, part = 'cap'], i) => ({
    ...{
      action,
      station: at,
      part,
      step: number,
      hand: 1,
      robotS: 1,
      toNextS: 0,
      loadedToNext: action === 'pick',
    },
    ...{ pickIndex: of ?? i, pickLag: 0, waitsFor: [] },
  }));
}

/** Picks that take what a place of the order brought, so many periods later. */
function fed(
  order: readonly OrderEvent[],
  ...lags: readonly (readonly [pick: number, placeIndex: number, lag: number])[]
): OrderEvent[] {
  return order.map((event, i) => ({
    ...event,
    waitsFor: lags.flatMap(([pick, placeIndex, lag]) =>
      pick === i ? [{ placeIndex, lag, processS: 9, maxWaitS: null }] : [],
    ),
  }));
}

interface Shop {
  readonly cell: Cell;
  readonly order: readonly OrderEvent[];
  readonly more?: Partial<FloorOptions>;
}

function shop({ cell, order, more = {} }: Shop) {
  const floor = bareFloor(cell, more);
  const plan = orderPlan({ order }, cell, floor.cell);
  const holding = new Uint8Array(plan.count);
  const passing = new PassesOver(floor, plan, holding);
  /** Takes the part of a pick into the hand, on its way to its place. */
  const hold = (pick: number) => {
    holding[pick] = 1;
    floor.coming[plan.station[plan.placeIndex[pick]]]++;
  };
  return { floor, passing, hold };
}

const [AT_MILL_1, AT_MILL_2] = [0, 1];
const MILL = 1;
/** Operation at the mills. */
const MILLED = 1;

function twoMills(
  hands: 1 | 2,
  { milled = {}, places = 1 }: { readonly milled?: Partial<Step>; readonly places?: number } = {},
): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed', { capacityParts: 9 }),
      station('mill_1', 'machine', { capacityParts: places }),
      station('mill_2', 'machine', { capacityParts: places }),
      station('good', 'outfeed', { capacityParts: 9 }),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, ['mill_1', 'mill_2'], { cycleS: 10, loadS: 2, ...milled }),
          step(3, ['good']),
        ],
      },
    ],
    robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 3 },
  });
}
const out = (floor: ShopFloor, s: number) => {
  floor.racks.left[s] = 0;
};

describe('one hand that empties and fills two mills in turn', () => {
  const order = orderOf(
    ['pick', 'mill_1', 2],
    ['place', 'good', 3, 0],
    ['pick', 'rack', 1],
    ['place', 'mill_1', 2, 2],
    ['pick', 'mill_2', 2],
    ['place', 'good', 3, 4],
    ['pick', 'rack', 1],
    ['place', 'mill_2', 2, 6],
  );
  const [FROM_MILL_1, TO_MILL_1, FROM_MILL_2, TO_MILL_2] = [0, 2, 4, 6];
  const mills = (more: Partial<FloorOptions> = {}) => shop({ cell: twoMills(1), order, more });

  it('leaves out what an empty, a stopped or a broken mill would give, and waits for one at work', () => {
    const { floor, passing } = mills();
    expect(passing.leavesOut(FROM_MILL_1, 0, 0)).toBe(true);
    const left = [
      PROCESSING,
      HANDLED,
      FINISHED,
      PART_LOADED,
      STOP_WAITING,
      STOP_WORK,
      DOWN_WAITING,
      DOWN_REPAIR,
    ].map((state) => {
      put(floor, AT_MILL_1, MILLED, state);
      return passing.leavesOut(FROM_MILL_1, 0, 0);
    });
    expect(left).toEqual([false, false, false, true, true, true, true, true]);
    // The other mill is as before, and what it holds is no part of the first.
    expect(passing.leavesOut(FROM_MILL_2, 0, 0)).toBe(true);
    put(floor, AT_MILL_2, MILLED, FINISHED);
    expect([passing.leavesOut(FROM_MILL_1, 0, 0), passing.leavesOut(FROM_MILL_2, 0, 0)]).toEqual([
      true,
      false,
    ]);
  });

  it('leaves out a part for which the outfeed has no room', () => {
    const { floor, passing } = mills();
    put(floor, AT_MILL_1, MILLED, FINISHED);
    out(floor, 3);
    expect(passing.leavesOut(FROM_MILL_1, 0, 0)).toBe(true);
  });

  it('leaves out a raw part where there is none, or whose mill is full, stopped or waits for others', () => {
    const { floor, passing } = mills();
    expect([passing.leavesOut(TO_MILL_1, 0, 0), passing.leavesOut(TO_MILL_2, 0, 0)]).toEqual([false, false]);
    put(floor, AT_MILL_1, MILLED, PROCESSING);
    expect([passing.leavesOut(TO_MILL_1, 0, 0), passing.leavesOut(TO_MILL_2, 0, 0)]).toEqual([true, false]);
    floor.stopped[2] = 1;
    expect(passing.leavesOut(TO_MILL_2, 0, 0)).toBe(true);
    floor.stopped[2] = 0;
    floor.pendingOp[2] = 7;
    expect(passing.leavesOut(TO_MILL_2, 0, 0)).toBe(true);
    floor.pendingOp[2] = MILLED;
    expect(passing.leavesOut(TO_MILL_2, 0, 0)).toBe(false);
    out(floor, 0);
    expect(passing.leavesOut(TO_MILL_2, 0, 0)).toBe(true);
  });

  it('picks nothing with a part in its only hand', () => {
    const { floor, passing, hold } = mills();
    put(floor, AT_MILL_2, MILLED, FINISHED);
    expect(passing.leavesOut(FROM_MILL_2, 0, 0)).toBe(false);
    hold(TO_MILL_1);
    expect([passing.leavesOut(TO_MILL_1, 1, 0), passing.leavesOut(FROM_MILL_2, 1, 0)]).toEqual([true, true]);
  });

  it('brings no part into a mill before its changeover: 1 s to fetch, twice 3 of way, 2 to place, 10 of work', () => {
    const calendar = openCalendar([{ startS: 0, endS: 900, attended: true, weekS: 900 }]);
    const left = (dueS: number) => {
      const changeovers = [{ station: 'mill_1', workS: 60, stopS: 60, people: 1, dueS: [dueS] }];
      return mills({ calendar, changeovers }).passing.leavesOut(TO_MILL_1, 0, 0);
    };
    expect([left(19), left(20)]).toEqual([true, false]);
  });

  it('begins no exchange', () => {
    const { floor, passing } = mills();
    put(floor, AT_MILL_1, MILLED, FINISHED);
    expect(passing.beginsExchange(FROM_MILL_1, 0)).toBe(false);
  });
});

describe('two hands that exchange at one mill', () => {
  const order = orderOf(
    ['pick', 'rack', 1],
    ['pick', 'mill_1', 2],
    ['place', 'mill_1', 2, 0],
    ['place', 'good', 3, 1],
  );
  const [RAW, MADE, INTO_MILL, OUT] = [0, 1, 2, 3];
  const one = (places = 1) => shop({ cell: twoMills(2, { places }), order });

  it('fetch the next part while the mill is at work, as its part comes out before', () => {
    const { floor, passing } = one();
    expect(passing.leavesOut(RAW, 0, 0)).toBe(false);
    put(floor, AT_MILL_1, MILLED, PROCESSING);
    expect(passing.leavesOut(RAW, 0, 0)).toBe(false);
    put(floor, AT_MILL_1, MILLED, STOP_WORK);
    expect(passing.leavesOut(RAW, 0, 0)).toBe(true);
    put(floor, AT_MILL_1, MILLED, FINISHED);
    out(floor, 3);
    expect(passing.leavesOut(RAW, 0, 0)).toBe(true);
  });

  it('wait for a mill that has stopped meanwhile, where the part in hand has to go in', () => {
    const { floor, passing, hold } = one();
    put(floor, AT_MILL_1, MILLED, STOP_WORK);
    expect(passing.leavesOut(MADE, 0, 0)).toBe(true);
    hold(RAW);
    expect(passing.leavesOut(MADE, 1, 0)).toBe(false);
    // A fixture that is still being filled is not waited for.
    put(floor, AT_MILL_1, MILLED, PART_LOADED);
    expect(passing.leavesOut(MADE, 1, 0)).toBe(true);
    // Nor is what another mill holds.
    put(floor, AT_MILL_2, MILLED, STOP_WORK);
    expect(passing.leavesOut(MADE, 1, 0)).toBe(true);
  });

  it('do not where another place is free', () => {
    const { floor, passing, hold } = one(2);
    put(floor, 0, MILLED, STOP_WORK);
    hold(RAW);
    expect(passing.leavesOut(MADE, 1, 0)).toBe(true);
    put(floor, 1, MILLED, STOP_WORK);
    expect(passing.leavesOut(MADE, 1, 0)).toBe(false);
  });

  it('fill the second hand only where a part can be put down straight after', () => {
    const { floor, passing, hold } = one();
    put(floor, AT_MILL_1, MILLED, FINISHED);
    hold(RAW);
    // What is taken out of the mill makes room for the part in hand, and can go out itself.
    expect([passing.leavesOut(MADE, 1, 0), passing.leavesOut(MADE, 2, 0)]).toEqual([false, true]);
    hold(MADE);
    expect(passing.leavesOut(MADE, 1, 0)).toBe(true);
  });

  it('find room for a part in hand in a free place, or in one that is left, at an outfeed always', () => {
    const { floor, passing } = one();
    expect([passing.hasRoom(INTO_MILL), passing.hasRoom(OUT)]).toEqual([true, true]);
    put(floor, AT_MILL_1, MILLED, PROCESSING);
    expect([
      passing.hasRoom(INTO_MILL),
      passing.hasRoom(INTO_MILL, MILL),
      passing.hasRoom(INTO_MILL, 2),
    ]).toEqual([false, true, false]);
    floor.pendingOp[MILL] = 0;
    expect(passing.hasRoom(INTO_MILL, MILL)).toBe(false);
    floor.pendingOp[MILL] = MILLED;
    expect(passing.hasRoom(INTO_MILL, MILL)).toBe(true);
    out(floor, 3);
    expect(passing.hasRoom(OUT)).toBe(true);
  });
});

describe('two hands on the way from a lathe to a mill', () => {
  const cell = (hands: 1 | 2): Cell =>
    cellOf({
      stations: [
        station('rack', 'infeed'),
        station('lathe', 'machine'),
        station('mill', 'machine', { capacityParts: 2 }),
        station('good', 'outfeed'),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['rack']),
            step(2, ['lathe'], { cycleS: 9 }),
            step(3, ['mill'], { cycleS: 9 }),
            step(4, ['good']),
          ],
        },
      ],
      robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 3 },
    });
  const order = orderOf(
    ['pick', 'rack', 1],
    ['place', 'lathe', 2, 0],
    ['pick', 'lathe', 2],
    ['place', 'mill', 3, 2],
    ['pick', 'mill', 3],
    ['place', 'good', 4, 4],
  );
  const [RAW, TURNED, MADE] = [0, 2, 4];
  const [AT_LATHE, AT_MILL, AT_MILL_TOO] = [0, 1, 2];

  it('begin an exchange with empty hands where the mill is full of finished parts', () => {
    const { floor, passing, hold } = shop({ cell: cell(2), order });
    put(floor, AT_LATHE, 1, FINISHED);
    put(floor, AT_MILL, 2, FINISHED);
    expect(passing.beginsExchange(TURNED, 0)).toBe(false);
    put(floor, AT_MILL_TOO, 2, FINISHED);
    expect(passing.beginsExchange(TURNED, 0)).toBe(true);
    expect(passing.beginsExchange(TURNED, 1)).toBe(false);
    // Neither with a raw part nor with one that goes out; nor where the lathe has nothing.
    expect([passing.beginsExchange(RAW, 0), passing.beginsExchange(MADE, 0)]).toEqual([false, false]);
    put(floor, AT_LATHE, 1, STOP_WORK);
    expect(passing.beginsExchange(TURNED, 0)).toBe(false);
    hold(RAW);
    const one = shop({ cell: cell(1), order });
    for (const [slot, op] of [
      [AT_LATHE, 1],
      [AT_MILL, 2],
      [AT_MILL_TOO, 2],
    ])
      put(one.floor, slot, op, FINISHED);
    expect(one.passing.beginsExchange(TURNED, 0)).toBe(false);
  });

  it('begin it with a part that is there now, whatever was asked before', () => {
    const { floor, passing } = shop({ cell: cell(2), order });
    put(floor, AT_MILL, 2, FINISHED);
    put(floor, AT_MILL_TOO, 2, FINISHED);
    // The raw part finds its way into the lathe, but is not in it yet.
    expect(passing.leavesOut(RAW, 0, 0)).toBe(false);
    expect(passing.beginsExchange(TURNED, 0)).toBe(false);
  });

  it('take a turned part on only into a free place of the mill', () => {
    const { floor, passing } = shop({ cell: cell(2), order });
    put(floor, AT_LATHE, 1, FINISHED);
    put(floor, AT_MILL, 2, PROCESSING);
    expect(passing.leavesOut(TURNED, 0, 0)).toBe(false);
    put(floor, AT_MILL_TOO, 2, PROCESSING);
    expect(passing.leavesOut(TURNED, 0, 0)).toBe(true);
  });
});

describe('a fixture for two that is emptied and filled in one round', () => {
  const order = orderOf(
    ['pick', 'mill_1', 2],
    ['place', 'good', 3, 0],
    ['pick', 'mill_1', 2],
    ['place', 'good', 3, 2],
    ['pick', 'rack', 1],
    ['place', 'mill_1', 2, 4],
    ['pick', 'rack', 1],
    ['place', 'mill_1', 2, 6],
  );
  const fixture = () => shop({ cell: twoMills(1, { milled: { partsPerCycle: 2 } }), order });

  it('with one part loaded gives none yet, but takes the second', () => {
    const { floor, passing } = fixture();
    put(floor, 0, MILLED, PART_LOADED);
    floor.pendingOp[MILL] = MILLED;
    expect([0, 2, 4, 6].map((pick) => passing.leavesOut(pick, 0, 0))).toEqual([true, true, false, false]);
  });

  it('with both finished gives both; takes no third', () => {
    const { floor, passing } = fixture();
    put(floor, 0, MILLED, FINISHED);
    put(floor, 1, MILLED, FINISHED);
    expect([0, 2, 4, 6].map((pick) => passing.leavesOut(pick, 0, 0))).toEqual([false, false, true, true]);
  });
});

describe('one hand among presses that can block each other', () => {
  it('moves only what leaves all parts a way out', () => {
    const cell = crossingPresses({ ...ROBOT, travelS: 4 });
    const order = orderOf(
      ['pick', 'rack', 1, undefined, 'hub'],
      ['place', 'press_1', 2, 0, 'hub'],
      ['pick', 'press_1', 2, undefined, 'hub'],
      ['place', 'press_2', 3, 2, 'hub'],
      ['pick', 'rack', 1, undefined, 'lever'],
      ['place', 'press_2', 2, 4, 'lever'],
    );
    const [HUB, HUB_ON, LEVER] = [0, 2, 4];
    const { floor, passing } = shop({ cell, order });
    expect([passing.leavesOut(HUB, 0, 0), passing.leavesOut(LEVER, 0, 0)]).toEqual([false, false]);
    put(floor, 0, 1, FINISHED);
    expect([passing.leavesOut(HUB_ON, 0, 0), passing.leavesOut(LEVER, 0, 0)]).toEqual([false, true]);
    // A lever in the second press bars the hub from the first.
    const other = shop({ cell, order });
    put(other.floor, 1, 5, PROCESSING);
    expect(other.passing.leavesOut(HUB, 0, 0)).toBe(true);
  });
});

const PRESSES = ['press_1', 'press_2', 'press_3'];
const THREE_PRESSES = cellOf({
  stations: [
    station('rack', 'infeed'),
    ...PRESSES.map((press) => station(press, 'machine')),
    station('good', 'outfeed'),
  ],
  routes: [
    ['hub', ...PRESSES],
    ['pin', 'press_3', 'press_1'],
  ].map(([part, ...way]) => ({
    part,
    steps: [
      step(1, ['rack']),
      ...way.map((press, i) => step(i + 2, [press], { cycleS: 9 })),
      step(way.length + 2, ['good']),
    ],
  })),
  robot: { ...ROBOT, travelS: 4 },
});

it('a part whose own place bars the others may be moved on', () => {
  // A pin in the third press waits for the first, which the hub leaves for the second.
  const order = orderOf(
    ['pick', 'press_1', 2, undefined, 'hub'],
    ['place', 'press_2', 3, 0, 'hub'],
    ['pick', 'press_2', 3, undefined, 'hub'],
    ['place', 'press_3', 4, 2, 'hub'],
  );
  const { floor, passing } = shop({ cell: THREE_PRESSES, order });
  put(floor, 0, 1, FINISHED);
  put(floor, 2, 6, FINISHED);
  expect(passing.leavesOut(0, 0, 0)).toBe(false);
  // With another pin in the second press it finds no place.
  put(floor, 1, 6, FINISHED);
  expect(passing.leavesOut(0, 0, 0)).toBe(true);
});

it('picks that wait for one another in a ring are worked out all the same', () => {
  // The first press holds two: a raw hub goes in for one that changes places with the lever of the second.
  const { stations, ...others } = crossingPresses({ ...ROBOT, hands: 2, indexS: 1, travelS: 4 });
  const cell = {
    ...others,
    stations: stations.map((s) => (s.name === 'press_1' ? { ...s, capacityParts: 2 } : s)),
  };
  const order = orderOf(
    ['pick', 'rack', 1, undefined, 'hub'],
    ['pick', 'press_1', 2, undefined, 'hub'],
    ['place', 'press_1', 2, 0, 'hub'],
    ['pick', 'press_2', 2, undefined, 'lever'],
    ['place', 'press_2', 3, 1, 'hub'],
    ['place', 'press_1', 3, 3, 'lever'],
  );
  const { floor, passing } = shop({ cell, order });
  put(floor, 0, 1, FINISHED);
  put(floor, 2, 5, PROCESSING);
  expect(passing.leavesOut(0, 0, 0)).toBe(false);
  // With one hub more there would be three parts in the first press.
  put(floor, 1, 1, PROCESSING);
  expect(passing.leavesOut(0, 0, 0)).toBe(true);
});

describe('two hands that move a whole line on: rack, lathe, mill', () => {
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('lathe', 'machine'),
      station('mill', 'machine'),
      station('good', 'outfeed', { capacityParts: 9 }),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack']),
          step(2, ['lathe'], { cycleS: 9 }),
          step(3, ['mill'], { cycleS: 9 }),
          step(4, ['good']),
        ],
      },
    ],
    robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 3 },
  });
  const fromRack = orderOf(
    ['pick', 'rack', 1],
    ['pick', 'lathe', 2],
    ['place', 'lathe', 2, 0],
    ['pick', 'mill', 3],
    ['place', 'mill', 3, 1],
    ['place', 'good', 4, 3],
  );
  /** The same, told from the lathe on. */
  const fromLathe = orderOf(
    ['pick', 'lathe', 2],
    ['place', 'lathe', 2, 5],
    ['pick', 'mill', 3],
    ['place', 'mill', 3, 0],
    ['place', 'good', 4, 2],
    ['pick', 'rack', 1],
  );

  it.each([
    ['from the rack', fromRack, 0],
    ['from the lathe', fromLathe, 5],
  ] as const)(
    'a raw part is fetched where each part before it finds its way, told %s',
    (_from, order, raw) => {
      const left = (lathe: number, mill: number, isFull = false) => {
        const { floor, passing } = shop({ cell, order });
        put(floor, 0, 1, lathe);
        put(floor, 1, 2, mill);
        if (isFull) out(floor, 3);
        return passing.leavesOut(raw, 0, 0);
      };
      expect(left(FINISHED, FINISHED)).toBe(false);
      expect(left(PROCESSING, PROCESSING)).toBe(false);
      // The mill stands, so the lathe's part cannot go on, and the raw one finds no place.
      expect([left(FINISHED, STOP_WORK), left(STOP_WORK, FINISHED), left(FINISHED, FINISHED, true)]).toEqual([
        true,
        true,
        true,
      ]);
    },
  );

  it('an empty mill is a way on as well', () => {
    const { floor, passing } = shop({ cell, order: fromRack });
    put(floor, 0, 1, FINISHED);
    expect(passing.leavesOut(0, 0, 0)).toBe(false);
    floor.stopped[2] = 1;
    expect(passing.leavesOut(0, 0, 0)).toBe(true);
  });
});

/** A lathe between a rack and an outfeed, and a robot with two hands. */
const TWO_AT_ONCE = cellOf({
  stations: [
    station('rack', 'infeed'),
    station('lathe', 'machine'),
    station('good', 'outfeed', { capacityParts: 9 }),
  ],
  routes: [{ part: 'cap', steps: [step(1, ['rack']), step(2, ['lathe'], { cycleS: 9 }), step(3, ['good'])] }],
  robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 3 },
});

describe('two raw parts at once, the second into the lathe first', () => {
  const cell = TWO_AT_ONCE;
  const order = orderOf(
    ['pick', 'rack', 1],
    ['pick', 'rack', 1],
    ['place', 'lathe', 2, 1],
    ['pick', 'lathe', 2],
    ['place', 'good', 3, 3],
    ['place', 'lathe', 2, 0],
  );
  const [LAST_IN, FIRST_IN] = [0, 1];

  it('the first one waits for the second to be through, and goes without it where the lathe is taken', () => {
    const { floor, passing } = shop({ cell, order });
    // Into the empty lathe, out of it, and then this one.
    expect(passing.leavesOut(LAST_IN, 0, 0)).toBe(false);
    out(floor, 2);
    // The second would stay in the lathe.
    expect(passing.leavesOut(LAST_IN, 0, 0)).toBe(true);
    const taken = shop({ cell, order });
    put(taken.floor, 0, 1, PROCESSING);
    expect(taken.passing.leavesOut(LAST_IN, 0, 0)).toBe(false);
    put(taken.floor, 0, 1, STOP_WORK);
    expect(taken.passing.leavesOut(LAST_IN, 0, 0)).toBe(true);
  });

  it('so it does where the second is in hand already', () => {
    const { floor, passing, hold } = shop({ cell, order });
    hold(FIRST_IN);
    expect(passing.leavesOut(LAST_IN, 1, 0)).toBe(false);
    out(floor, 2);
    expect(passing.leavesOut(LAST_IN, 1, 0)).toBe(true);
  });
});

describe('two raw parts at once, the first into the lathe first', () => {
  const cell = TWO_AT_ONCE;
  const order = orderOf(
    ['pick', 'rack', 1],
    ['pick', 'rack', 1],
    ['place', 'lathe', 2, 0],
    ['pick', 'lathe', 2],
    ['place', 'good', 3, 3],
    ['place', 'lathe', 2, 1],
  );

  it('the second one counts with the first where that is in hand, and not where it was left out', () => {
    const { floor, passing, hold } = shop({ cell, order });
    expect(passing.leavesOut(1, 0, 0)).toBe(false);
    // What comes out of the lathe has no place to go.
    out(floor, 2);
    expect(passing.leavesOut(1, 0, 0)).toBe(false);
    hold(0);
    expect(passing.leavesOut(1, 1, 0)).toBe(true);
    floor.racks.left[2] = 1;
    expect(passing.leavesOut(1, 1, 0)).toBe(false);
  });
});

describe('two hands at two mills: raw part, raw part, place, exchange', () => {
  const order = orderOf(
    ['pick', 'rack', 1],
    ['pick', 'rack', 1],
    ['place', 'mill_1', 2, 0],
    ['pick', 'mill_2', 2],
    ['place', 'mill_2', 2, 1],
    ['place', 'good', 3, 3],
  );
  const [TO_FIRST, TO_SECOND] = [0, 1];

  it('the second hand is filled where the part in the first can be put down', () => {
    const { floor, passing, hold } = shop({ cell: twoMills(2), order });
    put(floor, AT_MILL_2, MILLED, FINISHED);
    hold(TO_FIRST);
    expect(passing.leavesOut(TO_SECOND, 1, 0)).toBe(false);
    put(floor, AT_MILL_1, MILLED, PROCESSING);
    expect(passing.leavesOut(TO_SECOND, 1, 0)).toBe(true);
  });

  it('with both hands empty it is filled in any case', () => {
    const { floor, passing } = shop({ cell: twoMills(2), order });
    put(floor, AT_MILL_2, MILLED, FINISHED);
    put(floor, AT_MILL_1, MILLED, PROCESSING);
    expect([passing.leavesOut(TO_SECOND, 0, 0), passing.leavesOut(TO_FIRST, 0, 0)]).toEqual([false, true]);
  });
});

describe('a mill for two kinds of parts', () => {
  const cell = (hands: 1 | 2) =>
    cellOf({
      stations: [
        station('rack', 'infeed'),
        station('mill', 'machine', { capacityParts: 2 }),
        station('good', 'outfeed'),
      ],
      routes: ['cap', 'rod'].map((part) => ({
        part,
        steps: [step(1, ['rack'], { unloadS: 1 }), step(2, ['mill'], { cycleS: 10 }), step(3, ['good'])],
      })),
      robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 3 },
    });
  const order = orderOf(
    ['pick', 'rack', 1, undefined, 'rod'],
    ['pick', 'mill', 2, undefined, 'rod'],
    ['place', 'mill', 2, 0, 'rod'],
    ['place', 'good', 3, 1, 'rod'],
  );
  const [RAW_ROD, ROD] = [0, 1];
  const [CAP_MILLED, ROD_MILLED] = [1, 4];

  it('gives a rod only where one is inside, and is waited for only then', () => {
    const { floor, passing, hold } = shop({ cell: cell(2), order });
    put(floor, 0, CAP_MILLED, FINISHED);
    put(floor, 1, CAP_MILLED, FINISHED);
    expect(passing.leavesOut(ROD, 0, 0)).toBe(true);
    hold(RAW_ROD);
    expect(passing.leavesOut(ROD, 1, 0)).toBe(true);
    put(floor, 1, ROD_MILLED, STOP_WORK);
    expect(passing.leavesOut(ROD, 1, 0)).toBe(false);
  });

  it('a cap that is brought is no rod to come out', () => {
    const mixed = orderOf(
      ['pick', 'rack', 1, undefined, 'rod'],
      ['pick', 'rack', 1, undefined, 'cap'],
      ['place', 'mill', 2, 1, 'cap'],
      ['pick', 'mill', 2, undefined, 'rod'],
      ['place', 'mill', 2, 0, 'rod'],
      ['place', 'good', 3, 3, 'rod'],
    );
    const { floor, passing } = shop({ cell: cell(2), order: mixed });
    put(floor, 0, CAP_MILLED, PROCESSING);
    // One place is free, for the cap.
    expect(passing.leavesOut(RAW_ROD, 0, 0)).toBe(true);
    put(floor, 0, ROD_MILLED, PROCESSING);
    expect(passing.leavesOut(RAW_ROD, 0, 0)).toBe(false);
  });

  it('takes no rod while its fixture waits for caps', () => {
    const { floor, passing } = shop({ cell: cell(2), order });
    expect(passing.leavesOut(RAW_ROD, 0, 0)).toBe(false);
    floor.pendingOp[MILL] = CAP_MILLED;
    expect(passing.leavesOut(RAW_ROD, 0, 0)).toBe(true);
    floor.pendingOp[MILL] = ROD_MILLED;
    expect(passing.leavesOut(RAW_ROD, 0, 0)).toBe(false);
    // The first operation of all is another one as well.
    floor.pendingOp[MILL] = 0;
    expect(passing.leavesOut(RAW_ROD, 0, 0)).toBe(true);
  });
});

it('a part whose next step is at the same station finds its own place there', () => {
  const cell = cellOf({
    stations: [station('rack', 'infeed'), station('wash', 'bench'), station('good', 'outfeed')],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, ['wash'], { cycleS: 9 }),
          step(3, ['wash'], { cycleS: 9 }),
          step(4, ['good']),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 3 },
  });
  const order = orderOf(
    ['pick', 'wash', 2],
    ['place', 'wash', 3, 0],
    ['pick', 'wash', 3],
    ['place', 'good', 4, 2],
    ['pick', 'rack', 1],
    ['place', 'wash', 2, 4],
  );
  const { floor, passing } = shop({ cell, order });
  put(floor, 0, 1, FINISHED);
  expect([passing.leavesOut(0, 0, 0), passing.leavesOut(2, 0, 0), passing.leavesOut(4, 0, 0)]).toEqual([
    false,
    true,
    true,
  ]);
});

it('the way to a station before its changeover counts from where the part is picked', () => {
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('lathe', 'machine'),
      station('mill', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack']),
          step(2, ['lathe'], { cycleS: 9, unloadS: 2 }),
          step(3, ['mill'], { cycleS: 9 }),
          step(4, ['good']),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 3 },
    travel: [{ from: 'lathe', to: 'mill', emptyS: 5, loadedS: 7 }],
  });
  const order = orderOf(
    ['pick', 'lathe', 2],
    ['place', 'mill', 3, 0],
    ['pick', 'rack', 1],
    ['place', 'lathe', 2, 2],
  );
  const left = (dueS: number) => {
    const calendar = openCalendar([{ startS: 0, endS: 900, attended: true, weekS: 900 }]);
    const { floor, passing } = shop({
      cell,
      order,
      more: { calendar, changeovers: [{ station: 'mill', workS: 60, stopS: 60, people: 1, dueS: [dueS] }] },
    });
    put(floor, 0, 1, FINISHED);
    return passing.leavesOut(0, 0, 0);
  };
  // 2 s to pick, twice 7 of way, 9 of work.
  expect([left(25), left(26)]).toEqual([true, false]);
});

describe('a mill of two places whose parts stay for two rounds', () => {
  const order = fed(
    orderOf(['pick', 'mill_1', 2], ['place', 'good', 3, 0], ['pick', 'rack', 1], ['place', 'mill_1', 2, 2]),
    [0, 3, 2],
  );
  const [MADE, RAW, INTO_MILL] = [0, 2, 3];
  const mill = (milled: Partial<Step> = {}) => shop({ cell: twoMills(1, { places: 2, milled }), order });

  it('gives a part when its turn has come: one place and two rounds of four acts, less the three before it', () => {
    const { floor, passing } = mill();
    put(floor, 0, MILLED, FINISHED);
    for (const from of [0, 1, 2, 5]) {
      passing.placed(INTO_MILL, 0, from);
      expect([from + 1, from + 2, from + 3].map((now) => passing.leavesOut(MADE, 0, now))).toEqual([
        true,
        false,
        false,
      ]);
    }
  });

  it('tells how far off that is as a part of its state', () => {
    const { floor, passing } = mill();
    put(floor, 0, MILLED, FINISHED);
    passing.placed(INTO_MILL, 0, 2);
    passing.placed(INTO_MILL, 1, 2);
    const signature = (next: number, period: number) => {
      const told: number[] = [];
      passing.signature((value) => told.push(value), next, period);
      return told;
    };
    // Due at act 16; the other places of the cell are empty.
    expect(signature(1, 3)).toEqual([3, 0, 0, 0]);
    expect([signature(0, 4), signature(3, 5)]).toEqual([
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ]);
  });

  it('takes no raw part more while one waits whose turn is past, where parts may only wait for so long', () => {
    const left = (state: number, milled: Partial<Step> = {}, op = MILLED) => {
      const { floor, passing } = mill(milled);
      put(floor, 0, op, state);
      passing.placed(INTO_MILL, 0, 0);
      return [1, 2].map((period) => passing.leavesOut(RAW, 0, period));
    };
    const hurried = { maxWaitS: 60 };
    expect(left(FINISHED, hurried)).toEqual([false, true]);
    expect([left(PROCESSING, hurried), left(FINISHED, hurried, 2), left(FINISHED)]).toEqual([
      [false, false],
      [false, false],
      [false, false],
    ]);
  });
});

it('a turned part is held back too where one waits past its turn, unless the stations can block each other', () => {
  const { stations, routes, ...others } = crossingPresses(
    { ...ROBOT, hands: 2, indexS: 1, travelS: 4 },
    undefined,
    {
      ...{ cycleS: 9, maxWaitS: 60 },
    },
  );
  const cell = (parts: number): Cell => ({
    ...others,
    stations: stations.map((s) => (s.name === 'press_2' ? { ...s, capacityParts: 2 } : s)),
    routes: routes.slice(0, parts),
  });
  const order = fed(
    orderOf(
      ['pick', 'press_2', 3, undefined, 'hub'],
      ['place', 'good', 4, 0, 'hub'],
      ['pick', 'press_1', 2, undefined, 'hub'],
      ['place', 'press_2', 3, 2, 'hub'],
      ['pick', 'rack', 1, undefined, 'hub'],
      ['place', 'press_1', 2, 4, 'hub'],
    ),
    [0, 3, 1],
    [2, 5, 1],
  );
  const left = (parts: number) => {
    const { floor, passing } = shop({ cell: cell(parts), order });
    put(floor, 0, 1, FINISHED);
    put(floor, 1, 2, FINISHED);
    passing.placed(5, 0, -1);
    passing.placed(3, 1, 0);
    // The second press's part is due at act 6: at 2 that is still to come, at 8 past.
    return [0, 1].map((period) => passing.leavesOut(2, 0, period));
  };
  expect([left(1), left(2)]).toEqual([
    [false, true],
    [false, false],
  ]);
});

it('two parts that change places are served by each other', () => {
  const cell = crossingPresses({ ...ROBOT, hands: 2, indexS: 1, travelS: 4 });
  const order = orderOf(
    ['pick', 'press_1', 2, undefined, 'hub'],
    ['pick', 'press_2', 2, undefined, 'lever'],
    ['place', 'press_2', 3, 0, 'hub'],
    ['place', 'press_1', 3, 1, 'lever'],
  );
  const left = (lever: number) => {
    const { floor, passing } = shop({ cell, order });
    put(floor, 0, 1, FINISHED);
    put(floor, 1, 5, lever);
    return passing.leavesOut(0, 0, 0);
  };
  expect([left(FINISHED), left(STOP_WORK)]).toEqual([false, true]);
});

it('what lies in the cell as it lies there when the order is followed may go on as the order does', () => {
  // A hub goes through three presses, a pin from the third to the first: with a hub in the first and a pin in the third neither
  // could walk all of its way while the other stands, but the hub can make room in the second.
  const order = fed(
    orderOf(
      ['pick', 'rack', 1, undefined, 'hub'],
      ['place', 'press_1', 2, 0, 'hub'],
      ['pick', 'rack', 1, undefined, 'pin'],
      ['place', 'press_3', 2, 2, 'pin'],
      ['pick', 'press_1', 2, undefined, 'hub'],
      ['place', 'press_2', 3, 4, 'hub'],
      ['pick', 'press_3', 2, undefined, 'pin'],
      ['place', 'press_1', 3, 6, 'pin'],
      ['pick', 'press_2', 3, undefined, 'hub'],
      ['place', 'press_3', 4, 8, 'hub'],
      ['pick', 'press_1', 3, undefined, 'pin'],
      ['place', 'good', 4, 10, 'pin'],
      ['pick', 'press_3', 4, undefined, 'hub'],
      ['place', 'good', 5, 12, 'hub'],
    ),
    ...([
      [4, 1, 0],
      [6, 3, 0],
      [8, 5, 0],
      [10, 7, 0],
      [12, 9, 0],
    ] as const),
  );
  const pinLeft = (...hubs: readonly (readonly [slot: number, op: number, state: number])[]) => {
    const { floor, passing } = shop({ cell: THREE_PRESSES, order });
    for (const hub of hubs) put(floor, ...hub);
    return passing.leavesOut(2, 0, 0);
  };
  expect(pinLeft([0, 1, FINISHED])).toBe(false);
  // One hub more in the second press, or one that waits for its mate, and it is another cell.
  expect(pinLeft([0, 1, FINISHED], [1, 2, FINISHED])).toBe(true);
  expect(pinLeft([0, 1, PART_LOADED])).toBe(true);
});
