/** The robot that follows an order, second by second as worked out by hand. */
import { describe, expect, it } from 'vitest';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import type { Cell, PlannedStop } from '../../../src/core/model/cell.js';
import type { OrderEvent, ProcessLink } from '../../../src/core/schedule/result.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
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
    expect([first.run.robot.partsInHand(), first.run.partsInside(), first.run.floor.good[0]]).toEqual([
      0, 1, 1,
    ]);
    expect(toldOrder({ cell: oneMill(), order: EMPTY_FIRST }, program, 50).run.robot.partsInHand()).toBe(1);
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
