/** The robot that follows an order, second by second as worked out by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { FloorRun } from '../../../src/core/floor/floor-run.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { orderPlan } from '../../../src/core/floor/order-plan.js';
import { OrderRobot } from '../../../src/core/floor/order-robot.js';
import type { ShopFloor } from '../../../src/core/floor/shop-floor.js';
import { EMPTY, FINISHED, HANDLED, PROCESSING } from '../../../src/core/floor/slot-state.js';
import type { Cell, PlannedStop } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { OrderEvent, ProcessLink } from '../../../src/core/schedule/result.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';
import { crossingPresses } from './crossing-presses.js';
import { toldOrder } from './told.js';

interface Act {
  readonly at: string;
  readonly step: number;
  readonly robotS: number;
  readonly toNextS: number;
  readonly part?: string;
}

const waitsFor = (
  placeIndex: number,
  lag: number,
  processS: number,
  maxWaitS: number | null = null,
): ProcessLink => ({
  ...{ placeIndex, lag, processS, maxWaitS },
});

function event(action: OrderEvent['action'], { at, step: number, robotS, toNextS, part = 'cap' }: Act) {
  return {
    action,
    station: at,
    part,
    step: number,
    hand: 1 as const,
    robotS,
    toNextS,
    loadedToNext: action === 'pick',
  };
}
const pick = (own: number, act: Act, ...waits: readonly ProcessLink[]): OrderEvent => ({
  ...{ ...event('pick', act), pickIndex: own, pickLag: 0, waitsFor: waits },
});
const place = (pickIndex: number, act: Act, pickLag = 0): OrderEvent => ({
  ...{ ...event('place', act), pickIndex, pickLag, waitsFor: [] },
});

/** One mill between a rack and an outfeed: 3 s of way, pick 2 and 5 s, place 4 and 6 s, 20 s of work. */
function oneMill(hands: 1 | 2 = 1, more: Partial<Cell> = {}): Cell {
  return cellOf({
    stations: [station('rack', 'infeed'), station('mill', 'machine'), station('good', 'outfeed')],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 2 }),
          step(2, ['mill'], { cycleS: 20, loadS: 4, unloadS: 5 }),
          step(3, ['good'], { loadS: 6 }),
        ],
      },
    ],
    robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 3 },
    ...more,
  });
}

/** Out of the mill and out of the cell, then in. */
const EMPTY_FIRST: readonly OrderEvent[] = [
  pick(0, { at: 'mill', step: 2, robotS: 5, toNextS: 3 }, waitsFor(3, 1, 20)),
  place(0, { at: 'good', step: 3, robotS: 6, toNextS: 3 }),
  pick(2, { at: 'rack', step: 1, robotS: 2, toNextS: 3 }),
  place(2, { at: 'mill', step: 2, robotS: 4, toNextS: 0 }),
];

const acts = (lines: readonly string[]) => lines.filter((line) => / (pick|place) /.test(line));
const robotS = ({ run }: ReturnType<typeof toldOrder>) => [...run.robot.clock.time];

describe.each(['strict', 'order'] as const)('one hand, %s', (program) => {
  it('leaves out what is not there yet, and goes round in 46 s', () => {
    const first = toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, 55);
    expect(first.lines).toEqual([
      '0 pick rack cap',
      '2 picked rack cap',
      '2 leave rack cap',
      '5 arrive mill cap',
      '5 place mill cap',
      '9 placed mill cap',
      '9 start mill cap',
      '29 finish mill cap',
      '29 pick mill cap',
      '34 picked mill cap',
      '34 leave mill cap',
      '37 arrive good cap',
      '37 place good cap',
      '43 placed good cap',
      '43 leave good',
      '46 arrive rack',
      '46 pick rack cap',
      '48 picked rack cap',
      '48 leave rack cap',
      '51 arrive mill cap',
      '51 place mill cap',
      '55 placed mill cap',
      '55 start mill cap',
    ]);
    expect(robotS(first)).toEqual([3, 9, 23, 0, 20]);
    // The mill: empty to 5 and from 34 to 51, in the robot's hand to 9, from 29 to 34 and from 51 on, at work between.
    const millS = [EMPTY, HANDLED, PROCESSING, FINISHED].map((state) => first.run.floor.slotTime[state]);
    expect(millS).toEqual([5 + 17, 4 + 5 + 4, 20, 0]);
    expect([first.run.robot.partsInHand(), first.run.partsInside(), first.run.floor.good[0]]).toEqual([
      0, 1, 1,
    ]);
    expect(toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, 50).run.robot.partsInHand()).toBe(1);
  });

  it('does the same where nobody listens', () => {
    const cell = oneMill();
    const compiled = compileCell(cell);
    const plan = orderPlan({ order: EMPTY_FIRST }, cell, compiled);
    const run = new FloorRun(
      compiled,
      { program, plan, calendar: null, operators: 1, seed: 1, chance: false },
      0,
    );
    run.to(55);
    expect([[...run.robot.clock.time], run.floor.good[0]]).toEqual([[3, 9, 23, 0, 20], 1]);
  });

  it('knows the time of its round', () => {
    const { run } = toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, 28);
    expect(run.robot.periodS()).toBe(Number.NaN);
    // The first round begins at 0, the second at 29, the third at 75, and so on every 46 s.
    run.to(29);
    expect(run.robot.periodS()).toBe(29);
    run.clear();
    expect(run.robot.periodS()).toBe(Number.NaN);
    run.to(29 + 46 * 3);
    expect(run.robot.periodS()).toBe(46);
  });

  it('begins no act that closing would cut', () => {
    const at = (closesS: number) =>
      acts(
        toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, 150, {
          calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 100 }]),
        }).lines,
      ).slice(2, 4);
    expect(at(34)).toEqual(['29 pick mill cap', '103 place good cap']);
    expect(at(33)).toEqual(['100 pick mill cap', '108 place good cap']);
    expect(at(42)).toEqual(['29 pick mill cap', '100 place good cap']);
  });

  it('says what it waits for', () => {
    const { run } = toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, 20);
    expect(run.robot.waitText()).toBe('The fixed order waits to pick cap at mill.');
    const full = oneMill(1, {
      stations: oneMill().stations.map((s) => (s.name === 'good' ? { ...s, capacityParts: 1 } : s)),
    });
    const locked = toldOrder({ cell: full, order: EMPTY_FIRST }, program, 300, { operators: 0 });
    expect(locked.run.alive).toBe(false);
    // Passing over, it takes no part out of the mill that it could not put down.
    const waits = program === 'strict' ? 'place cap at good' : 'pick cap at mill';
    expect(locked.run.robot.waitText()).toBe(`The fixed order waits to ${waits}.`);
  });

  it('what a step is to take more than the cell says is robot time', () => {
    const longer = EMPTY_FIRST.map((e) => ({ ...e, robotS: e.robotS + 10 }));
    expect(acts(toldOrder({ cell: oneMill(), order: longer }, program, 100).lines)).toEqual([
      '0 pick rack cap',
      '15 place mill cap',
      '49 pick mill cap',
      '67 place good cap',
      '86 pick rack cap',
    ]);
  });
});

describe('two hands', () => {
  const order = [
    pick(0, { at: 'rack', step: 1, robotS: 2, toNextS: 3 }),
    pick(1, { at: 'mill', step: 2, robotS: 5, toNextS: 1 }, waitsFor(2, 1, 20)),
    place(0, { at: 'mill', step: 2, robotS: 4, toNextS: 3 }),
    place(1, { at: 'good', step: 3, robotS: 6, toNextS: 3 }),
  ];

  it('go to the mill with the next part, and wait there', () => {
    const swap = toldOrder({ cell: oneMill(2), order }, 'strict', 51);
    expect(swap.lines.slice(5)).toEqual([
      '9 placed mill cap',
      '9 start mill cap',
      '9 leave mill',
      '12 arrive rack',
      '12 pick rack cap',
      '14 picked rack cap',
      '14 leave rack cap',
      '17 arrive mill cap',
      '29 finish mill cap',
      '29 pick mill cap',
      '34 picked mill cap',
      // A second to turn.
      '35 place mill cap',
      '39 placed mill cap',
      '39 start mill cap',
      '39 leave mill cap',
      '42 arrive good cap',
      '42 place good cap',
      '48 placed good cap',
      '48 leave good',
      '51 arrive rack',
      '51 pick rack cap',
    ]);
    // The turn is a way with a part in hand.
    expect(robotS(swap)).toEqual([3 + 3, 3 + 3 + 1 + 3, 2 + 4 + 2 + 5 + 4 + 6, 0, 12]);
    expect(swap.run.partsInside()).toBe(1);
    expect(toldOrder({ cell: oneMill(2), order }, 'strict', 34).run.robot.partsInHand()).toBe(2);
  });
});

/** Two hubs or levers at a time in the mill; the order does not say what was placed before. */
describe('on a floor set up by hand', () => {
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('mill', 'machine', { capacityParts: 2 }),
      station('good', 'outfeed'),
    ],
    routes: ['hub', 'lever'].map((part) => ({
      part,
      steps: [
        step(1, ['rack']),
        step(2, ['mill'], { cycleS: 20, loadS: 4, unloadS: 5 }),
        step(3, ['good'], { loadS: 6 }),
      ],
    })),
    robot: { ...ROBOT, travelS: 3 },
  });
  const [HUB, LEVER] = [1, 4];
  const lever = (at: string, number: number) => ({ at, step: number, robotS: 5, toNextS: 3, part: 'lever' });
  const order = [
    pick(0, lever('mill', 2)),
    place(0, lever('good', 3)),
    pick(2, lever('rack', 1)),
    place(2, lever('mill', 2)),
  ];
  const robotOn = (floor: ShopFloor, passesOver: boolean) =>
    new OrderRobot(floor, orderPlan({ order }, cell, floor.cell), { passesOver, runsOut: false });

  it.each([true, false])(
    'it takes the part of its step that finished first, passing over: %s',
    (passesOver) => {
      const floor = bareFloor(cell);
      floor.now = 60;
      put(floor, 0, LEVER, FINISHED);
      put(floor, 1, LEVER, FINISHED);
      floor.slotFinishedAt.set([50, 40]);
      expect(robotOn(floor, passesOver).decide()).toBe(true);
      expect([[...floor.slotState], floor.robotAtS]).toEqual([[FINISHED, HANDLED], 65]);
      const mixed = bareFloor(cell);
      mixed.now = 60;
      put(mixed, 0, LEVER, FINISHED);
      put(mixed, 1, HUB, FINISHED);
      mixed.slotFinishedAt.set([50, 40]);
      expect(robotOn(mixed, passesOver).decide()).toBe(true);
      expect([...mixed.slotState]).toEqual([HANDLED, FINISHED]);
    },
  );

  it('it waits where the part is not finished, or the fixture waits for others', () => {
    const floor = bareFloor(cell);
    put(floor, 0, LEVER, PROCESSING);
    put(floor, 1, HUB, PROCESSING);
    const robot = robotOn(floor, false);
    const acts = (nowS: number) => {
      floor.now = nowS;
      const did = robot.decide();
      if (did) {
        floor.now = floor.robotAtS;
        robot.onTimer();
      }
      return did;
    };
    expect(acts(0)).toBe(false);
    expect(floor.changed).toBe(false);
    put(floor, 0, LEVER, FINISHED);
    // Picks at the mill, goes, places, goes, picks at the rack, goes.
    expect([1, 2, 3, 4, 5, 6].map(() => acts(floor.now))).toEqual([true, true, true, true, true, true]);
    expect([robot.partsInHand(), floor.freeSlots[1], floor.now]).toEqual([1, 1, 5 + 3 + 6 + 3 + 5 + 3]);
    // A fixture that waits for hubs takes no lever.
    floor.pendingOp[1] = HUB;
    expect(acts(30)).toBe(false);
    floor.pendingOp[1] = LEVER;
    expect(acts(31)).toBe(true);
    expect([floor.now, floor.freeSlots[1], floor.slotOp[0]]).toEqual([36, 0, LEVER]);
  });

  it('it stands before a full mill, and before one in a changeover only where it passes over', () => {
    const waits = (passesOver: boolean, set: (floor: ShopFloor) => void) => {
      const floor = bareFloor(cell);
      put(floor, 0, LEVER, FINISHED);
      const robot = robotOn(floor, passesOver);
      for (let act = 0; act < 6; act++) {
        robot.decide();
        floor.now = floor.robotAtS;
        robot.onTimer();
      }
      expect(robot.partsInHand()).toBe(1);
      set(floor);
      return !robot.decide();
    };
    const full = (floor: ShopFloor) => {
      for (const slot of [0, 1]) put(floor, slot, HUB, PROCESSING);
    };
    const stopped = (floor: ShopFloor) => {
      floor.stopped[1] = 1;
    };
    expect([waits(true, full), waits(false, full)]).toEqual([true, true]);
    expect(waits(true, stopped)).toBe(true);
    expect([waits(true, () => undefined), waits(false, () => undefined)]).toEqual([false, false]);
  });

  it('it looks again where it comes if anything was told on its way there', () => {
    const picks = (told: { readonly changed?: boolean; readonly hasStopped?: boolean }) => {
      const floor = bareFloor(cell);
      put(floor, 0, LEVER, FINISHED);
      const robot = robotOn(floor, true);
      const ends = () => {
        floor.now = floor.robotAtS;
        robot.onTimer();
      };
      // Picks at the mill, goes, places.
      for (let act = 0; act < 3; act++) {
        robot.decide();
        ends();
      }
      robot.decide();
      // On its way to the rack the mill stops, for which the next part is meant.
      floor.stopped[1] = 1;
      Object.assign(floor, { changed: false, hasStopped: false, ...told });
      ends();
      return robot.decide();
    };
    expect([picks({}), picks({ changed: true }), picks({ hasStopped: true })]).toEqual([true, false, false]);
  });

  it('a station knows of the parts that come to it, but not from a robot that waits before it anyway', () => {
    const coming = (passesOver: boolean) => {
      const floor = bareFloor(cell);
      put(floor, 0, LEVER, FINISHED);
      const robot = robotOn(floor, passesOver);
      const found: (readonly number[])[] = [];
      for (let act = 0; act < 7; act++) {
        robot.decide();
        found.push([...floor.coming]);
        floor.now = floor.robotAtS;
        robot.onTimer();
      }
      return [...found, [...floor.coming]];
    };
    const none = [0, 0, 0];
    expect(coming(false)).toEqual(new Array(8).fill(none));
    // Picks, goes and places at the outfeed; goes to the rack; picks, goes and places at the mill.
    expect(coming(true)).toEqual([
      [0, 0, 1],
      [0, 0, 1],
      [0, 0, 1],
      none,
      [0, 1, 0],
      [0, 1, 0],
      [0, 1, 0],
      none,
    ]);
  });

  it('moments are told apart by its place in the order, the parts in hand and whether they are late', () => {
    const floor = bareFloor(cell);
    put(floor, 0, LEVER, FINISHED);
    floor.slotLate[0] = 1;
    const robot = robotOn(floor, false);
    const values = () => {
      const found: number[] = [];
      robot.signature((value) => found.push(value), floor.now);
      return found;
    };
    const [RACK, MILL, GOOD] = [0, 1, 2];
    // Next event, round, where it stands, where it has come, at work, the last event; then each event's part.
    expect(values()).toEqual([0, 0, MILL, 0, 0, -1, 0, 0, 0, 0]);
    robot.decide();
    expect(values()).toEqual([0, 0, MILL, 0, 1, 0, 2, 0, 0, 0]);
    const end = () => {
      floor.now = floor.robotAtS;
      robot.onTimer();
    };
    end();
    expect(values()).toEqual([1, 0, MILL, -1, 0, 0, 3, 0, 0, 0]);
    robot.decide();
    expect(values()).toEqual([1, 0, GOOD, 1, 0, 0, 3, 0, 0, 0]);
    end();
    robot.decide();
    end();
    expect([values(), [...floor.late]]).toEqual([
      [2, 0, GOOD, -1, 0, 1, 2, 0, 0, 0],
      [0, 1],
    ]);
    for (let act = 0; act < 4; act++) {
      robot.decide();
      end();
    }
    // In the second round and all later ones.
    expect(values().slice(0, 6)).toEqual([0, 1, MILL, -1, 0, 3]);
    expect(RACK).toBe(0);
  });
});

describe('two hands before presses that wait for each other', () => {
  const cell = crossingPresses(
    { ...ROBOT, hands: 2, indexS: 1, travelS: 4 },
    { cycleS: 9, loadS: 1, unloadS: 1 },
    { cycleS: 9, loadS: 1 },
  );
  const act = (at: string, number: number, part: string) => ({
    at,
    step: number,
    robotS: 1,
    toNextS: 4,
    part,
  });
  const order = [
    pick(0, act('rack', 1, 'hub')),
    place(0, act('press_1', 2, 'hub')),
    pick(2, act('press_1', 2, 'hub')),
    place(2, act('press_2', 3, 'hub')),
    pick(4, act('press_2', 2, 'lever')),
    place(4, act('press_1', 3, 'lever')),
  ];

  it('in the last resort begin an exchange with empty hands', () => {
    const lines: string[] = [];
    const floor = bareFloor(cell, { trace: (t, what, at, part) => lines.push(`${t} ${what} ${at} ${part}`) });
    put(floor, 0, 1, FINISHED);
    put(floor, 1, 5, FINISHED);
    const robot = new OrderRobot(floor, orderPlan({ order }, cell, floor.cell), {
      passesOver: true,
      runsOut: false,
    });
    for (let acts = 0; acts < 8 && robot.decide(); acts++) {
      floor.now = floor.robotAtS;
      robot.onTimer();
    }
    // It stands at the rack. The hub out of the first press, the lever out of the second; then, as the order goes on, the
    // lever into the first press and the hub into the second.
    expect(lines.filter((line) => / (pick|place) /.test(line)).slice(0, 4)).toEqual([
      '4 pick press_1 hub',
      '9 pick press_2 lever',
      '14 place press_1 lever',
      '19 place press_2 hub',
    ]);
    expect(robot.partsInHand()).toBe(0);
  });
});

describe('a brush that works on the part in the hand', () => {
  const cell: Cell = {
    ...oneMill(),
    stations: [...oneMill().stations, station('brush', 'held')],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 2 }),
          step(2, ['mill'], { cycleS: 20, loadS: 4, unloadS: 5 }),
          step(3, ['brush'], { cycleS: 7, loadS: 1, unloadS: 2 }),
          step(4, ['good'], { loadS: 6 }),
        ],
      },
    ],
  };
  const order: readonly OrderEvent[] = [
    pick(0, { at: 'mill', step: 2, robotS: 5, toNextS: 3 }, waitsFor(4, 1, 20)),
    {
      ...event('hold', { at: 'brush', step: 3, robotS: 10, toNextS: 3 }),
      pickIndex: 0,
      pickLag: 0,
      waitsFor: [],
    },
    place(0, { at: 'good', step: 4, robotS: 6, toNextS: 3 }),
    pick(3, { at: 'rack', step: 1, robotS: 2, toNextS: 3 }),
    place(3, { at: 'mill', step: 2, robotS: 4, toNextS: 0 }),
  ];

  it.each(['strict', 'order'] as const)('is an event of the order, %s', (program) => {
    const held = toldOrder({ cell, order }, program, 56);
    expect(held.lines.slice(7)).toEqual([
      '29 finish mill cap',
      '29 pick mill cap',
      '34 picked mill cap',
      '34 leave mill cap',
      '37 arrive brush cap',
      '37 place brush cap',
      '38 placed brush cap',
      '38 start brush cap',
      '45 finish brush cap',
      '45 pick brush cap',
      '47 picked brush cap',
      '47 leave brush cap',
      '50 arrive good cap',
      '50 place good cap',
      '56 placed good cap',
      '56 leave good',
    ]);
    expect(robotS(held)).toEqual([0, 9, 6 + 5 + 3 + 6, 7, 20]);
  });

  it('is begun only where all of it fits in before the cell closes', () => {
    const at = (closesS: number) =>
      acts(
        toldOrder({ cell, order }, 'strict', 150, {
          calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 100 }]),
        }).lines,
      )[3];
    expect([at(47), at(46)]).toEqual(['37 place brush cap', '100 place brush cap']);
  });
});

describe('longest waits', () => {
  /** Two machines in a row without ways; all acts take a second. What the first has made may not wait. */
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('drill', 'machine'),
      station('mill', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, ['drill'], { cycleS: 10, loadS: 1, unloadS: 1, maxWaitS: 0 }),
          step(3, ['mill'], { cycleS: 20, loadS: 1, unloadS: 1 }),
          step(4, ['good'], { loadS: 1 }),
        ],
      },
    ],
    robot: ROBOT,
  });
  const orderWith = (maxWaitS: number | null): readonly OrderEvent[] => [
    pick(0, { at: 'drill', step: 2, robotS: 1, toNextS: 0 }, waitsFor(3, 1, 10, maxWaitS)),
    place(0, { at: 'mill', step: 3, robotS: 1, toNextS: 0 }),
    pick(2, { at: 'rack', step: 1, robotS: 1, toNextS: 0 }),
    place(2, { at: 'drill', step: 2, robotS: 1, toNextS: 0 }),
    pick(4, { at: 'mill', step: 3, robotS: 1, toNextS: 0 }, waitsFor(1, 0, 20)),
    place(4, { at: 'good', step: 4, robotS: 1, toNextS: 0 }),
  ];

  it('have the robot keep the distances of the timetable', () => {
    // By hand: the mill sets a round of 1 + 1 + 20 + 1 + 1 = 24 s. The part is placed in the drill at 13 of a round, so
    // that it is ready at 24, when it is picked; that is 11 s after the pick at the rack.
    const { lines, run } = toldOrder({ cell, order: orderWith(0) }, 'strict', 71);
    expect(acts(lines)).toEqual([
      '0 pick rack cap',
      '11 place drill cap',
      '22 pick drill cap',
      '23 place mill cap',
      '24 pick rack cap',
      '35 place drill cap',
      '44 pick mill cap',
      '45 place good cap',
      '46 pick drill cap',
      '47 place mill cap',
      '48 pick rack cap',
      '59 place drill cap',
      '68 pick mill cap',
      '69 place good cap',
      '70 pick drill cap',
      '71 place mill cap',
    ]);
    expect([run.floor.overstays[1], run.floor.late[0], run.floor.good[0]]).toEqual([0, 0, 2]);
  });

  it('in attended hours it keeps the longer distances of the slower robot', () => {
    // With ways of a second the round takes 27 s and the drill is filled 12 s after the pick at the rack; with 2 s each 30
    // and 13: 1 + 2 + 1 + 2 + 1 + 2 + 1 + 2 to the drill's part, and 20 s of milling from 4 on.
    const slow = { ...cell, robot: { ...ROBOT, travelS: 1, attendedSpeedPct: 50 } };
    const order = orderWith(0).map((e) => ({ ...e, toNextS: 1 }));
    const first = (attended: boolean) =>
      acts(
        toldOrder({ cell: slow, order }, 'strict', 20, {
          calendar: openCalendar([{ startS: 0, endS: 100, attended, operators: 1, weekS: 100 }], 50),
        }).lines,
      );
    expect(first(false)).toEqual(['0 pick rack cap', '12 place drill cap']);
    expect(first(true)).toEqual(['0 pick rack cap', '13 place drill cap']);
  });

  it('without them it places as soon as it can, and the part is late', () => {
    const { lines, run } = toldOrder({ cell, order: orderWith(null) }, 'strict', 40);
    expect(acts(lines)).toEqual([
      '0 pick rack cap',
      '1 place drill cap',
      '12 pick drill cap',
      '13 place mill cap',
      '14 pick rack cap',
      '15 place drill cap',
      '34 pick mill cap',
      '35 place good cap',
      '36 pick drill cap',
      '37 place mill cap',
      '38 pick rack cap',
      '39 place drill cap',
    ]);
    // The second part was ready at 26 and is picked at 36.
    expect([run.floor.overstays[1], run.floor.late[0], run.floor.good[0]]).toEqual([1, 0, 1]);
    run.to(60);
    expect([run.floor.late[0], run.floor.good[0]]).toEqual([1, 1]);
  });

  it('rest counts as waiting', () => {
    const early = toldOrder({ cell, order: orderWith(0) }, 'strict', 6);
    expect([early.run.robot.idle, early.run.robot.resting]).toEqual([false, true]);
    expect(robotS(early)).toEqual([0, 0, 1, 0, 5]);
    expect(toldOrder({ cell, order: orderWith(0) }, 'strict', 11.5).run.robot.resting).toBe(false);
  });
});

describe.each(['strict', 'order'] as const)('run out, %s', (program) => {
  // A part counts from the begin of the act before it is fetched (6 s to put one out, 3 s of way) to the end of the way after
  // it is out: 6 + 3 + 2 + 3 + 4 + 20 + 5 + 3 + 6 + 3.
  const LIFE_S = 55;
  const made = (closesS: number, untilS = closesS) =>
    acts(
      toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, untilS, {
        calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 1000 }]),
        runsOut: true,
      }).lines,
    );

  it('takes no part in that would not be out before the cell closes', () => {
    expect(made(LIFE_S - 1)).toEqual([]);
    expect(made(LIFE_S)).toEqual([
      '0 pick rack cap',
      '5 place mill cap',
      '29 pick mill cap',
      '37 place good cap',
    ]);
    // The next one would be taken in once the first is out, at 43.
    expect(made(43 + LIFE_S - 1)).toHaveLength(4);
    expect(made(43 + LIFE_S)).toHaveLength(8);
  });

  it('goes on in the next week', () => {
    const lines = made(LIFE_S, 1050);
    expect(lines).toHaveLength(8);
    // From the outfeed, where it stands, 3 s to the rack.
    expect(lines[4]).toBe('1003 pick rack cap');
  });
});

describe('two machines before the cell closes', () => {
  /** A quick part and one that takes long, each with a machine of its own; no ways, each act takes a second. */
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('drill', 'machine'),
      station('mill', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      ['pin', 'drill', 10],
      ['cap', 'mill', 60],
    ].map(([part, at, cycleS]) => ({
      part: String(part),
      steps: [
        step(1, ['rack'], { unloadS: 1 }),
        step(2, [String(at)], { cycleS: Number(cycleS), loadS: 1, unloadS: 1 }),
        step(3, ['good'], { loadS: 1 }),
      ],
    })),
    robot: ROBOT,
  });
  const one = (at: string, number: number, part: string) => ({
    at,
    step: number,
    robotS: 1,
    toNextS: 0,
    part,
  });
  const order = [
    ...(['cap', 'pin'] as const).flatMap((part, i): OrderEvent[] => {
      const at = part === 'pin' ? 'drill' : 'mill';
      return [
        pick(4 * i, one(at, 2, part), waitsFor(4 * i + 3, 1, part === 'pin' ? 10 : 60)),
        place(4 * i, one('good', 3, part)),
        pick(4 * i + 2, one('rack', 1, part)),
        place(4 * i + 2, one(at, 2, part)),
      ];
    }),
  ];
  const picks = (program: 'order' | 'strict', closesS: number, untilS = closesS) =>
    toldOrder({ cell, order }, program, untilS, {
      calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 300 }]),
      runsOut: true,
    }).lines.filter((line) => line.includes('pick rack'));

  it.each(['strict', 'order'] as const)('each part is judged by its own life, %s', (program) => {
    // The mill sets a round of 1 + 60 + 3 = 64 s. A cap takes from the act before its pick, 1 + 1 + 1 + 60 + 1 + 1 s and what
    // its place is timed after; 70 s are enough for both, 30 s for none of the caps.
    const early = picks(program, 400, 20);
    expect(early.slice(0, 2)).toEqual(['0 pick rack cap', '2 pick rack pin']);
    expect(picks(program, 30).some((line) => line.includes('cap'))).toBe(false);
    const late = picks(program, 200);
    expect(late.some((line) => line.includes('cap'))).toBe(true);
    // All that is taken in is out when the cell closes.
    const { run } = toldOrder({ cell, order }, program, 200, {
      calendar: openCalendar([{ startS: 0, endS: 200, attended: true, operators: 1, weekS: 300 }]),
      runsOut: true,
    });
    expect(run.partsInside()).toBe(0);
    expect([...run.floor.good]).toEqual([...run.floor.started]);
  });

  it('moments are told apart by the parts that are left out', () => {
    const valuesAt = (program: 'order' | 'strict', runsOut: boolean, timeS = 25, closesS = 30) => {
      const { run } = toldOrder({ cell, order }, program, timeS, {
        calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 300 }]),
        runsOut,
      });
      const found: number[] = [];
      run.robot.signature((value) => found.push(value), timeS);
      return found.slice(6 + order.length);
    };
    expect(valuesAt('strict', false)).toEqual([]);
    // Drill and mill are empty.
    expect(valuesAt('order', true)).toEqual([0, 0]);
    // The pin in the drill is due four acts after the one that the robot waits for, which takes the cap out of the mill.
    expect(valuesAt('order', true, 8, 400)).toEqual([4, 0]);
    // Two lives of two rounds each, of the round under way and the one before: all left out.
    expect(valuesAt('strict', true)).toEqual([1, 1, 1, 1]);
  });

  it('and by how long ago the last act began, where a timetable is kept', () => {
    const timed = order.map((e) => ({ ...e, waitsFor: e.waitsFor.map((w) => ({ ...w, maxWaitS: 500 })) }));
    const { run } = toldOrder({ cell, order: timed }, 'strict', 9);
    const found: number[] = [];
    run.robot.signature((value) => found.push(value), 9);
    const { run: other } = toldOrder({ cell, order: timed }, 'strict', 12);
    const later: number[] = [];
    other.robot.signature((value) => later.push(value), 12);
    expect(found).toHaveLength(6 + order.length + 1);
    expect(found.at(-1)! - later.at(-1)!).toBe(3);
  });
});

it('passing over, a stop makes the parts late that are inside then, and none of those that come after it', () => {
  // One hand goes round in 39 s: mill and oven hold a part for 25 s and for 60 s and may keep it for 9 s more; the oven has
  // three places and two parts in them. After every 40th part one of the places is cleaned for 4 min.
  const work = { loadS: 2, unloadS: 2, maxWaitS: 9 };
  const cell = cellOf({
    stations: [
      station('in', 'infeed'),
      station('mill', 'machine'),
      station('oven', 'bench', { capacityParts: 3 }),
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['in'], { unloadS: 2 }),
          step(2, ['mill'], { cycleS: 25, ...work }),
          step(3, ['oven'], { cycleS: 60, ...work }),
          step(4, ['out'], { loadS: 2 }),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 2 },
    stops: [{ station: 'oven', name: 'clean', everyParts: 40, everyH: null, minutes: 4, operator: false }],
  });
  const found = bestSchedule(cell, { improvements: false });
  if (!('order' in found)) throw new Error(found.status);
  expect(found.periodS).toBe(39);
  const [rounds, stops] = [1000, 25];
  const { floor } = toldOrder({ cell, order: found.order }, 'order', rounds * 39).run;
  expect(floor.late[0]).toBeLessThanOrEqual(3 * stops);
  // Were the whole cell to stand for the cleaning, so many rounds would be lost at each.
  const made = floor.good[0] + floor.late[0];
  expect(made).toBeGreaterThan(rounds - stops * Math.ceil((4 * 60) / 39) - 3);
});

describe('passing over', () => {
  /** Two mills that are emptied and filled in turn; the first has a stop of 100 s after its first part. */
  const stop: PlannedStop = {
    ...{ station: 'mill_1', name: 'tool', everyParts: 2, everyH: null, minutes: 100 / 60, operator: false },
  };
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('mill_1', 'machine'),
      station('mill_2', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, ['mill_1', 'mill_2'], { cycleS: 10, loadS: 1, unloadS: 1 }),
          step(3, ['good'], { loadS: 1 }),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 2 },
    stops: [stop],
  });
  const order = ['mill_1', 'mill_2'].flatMap((at, i): OrderEvent[] => [
    pick(4 * i, { at, step: 2, robotS: 1, toNextS: 2 }, waitsFor(4 * i + 3, 1, 10)),
    place(4 * i, { at: 'good', step: 3, robotS: 1, toNextS: 2 }),
    pick(4 * i + 2, { at: 'rack', step: 1, robotS: 1, toNextS: 2 }),
    place(4 * i + 2, { at, step: 2, robotS: 1, toNextS: 2 }),
  ]);

  it('leaves the stopped mill out and comes back to it; strictly it waits there', () => {
    const [passing, strict] = (['order', 'strict'] as const).map((program) =>
      acts(toldOrder({ cell, order }, program, 160).lines),
    );
    // By hand, a round of one mill takes 4 ways of 2 s and 4 acts of 1 s: 12.
    const start = [
      '0 pick rack cap',
      '3 place mill_1 cap',
      '6 pick rack cap',
      '9 place mill_2 cap',
      // From the second mill at 10 back to the first, whose part is finished at 14.
      '14 pick mill_1 cap',
      '17 place good cap',
      '20 pick rack cap',
      '23 place mill_1 cap',
      '26 pick mill_2 cap',
      '29 place good cap',
      '32 pick rack cap',
      '35 place mill_2 cap',
    ];
    expect(passing!.slice(0, 12)).toEqual(start);
    expect(strict!.slice(0, 12)).toEqual(start);
    // The first mill has ended its second part at 34 and stands until 134; the second is finished at 46.
    expect(strict!.slice(12, 15)).toEqual(['134 pick mill_1 cap', '137 place good cap', '140 pick rack cap']);
    expect(passing!.slice(12, 16)).toEqual([
      '46 pick mill_2 cap',
      '49 place good cap',
      '52 pick rack cap',
      '55 place mill_2 cap',
    ]);
    // So it goes on every 20 s until the stop is over; then it is 2 s from the second mill, which it has filled by 136.
    expect(
      passing!.filter((line) => line.includes('pick mill_2')).map((line) => Number.parseInt(line, 10)),
    ).toEqual([26, 46, 66, 86, 106, 126, 150]);
    expect(
      passing!.filter((line) => line.includes('pick mill_1')).map((line) => Number.parseInt(line, 10)),
    ).toEqual([14, 138]);
  });
});
