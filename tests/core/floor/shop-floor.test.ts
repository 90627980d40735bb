/** All but the robot, second by second as worked out by hand: fixtures, doors, stops, breakdowns, racks, people, hours. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { Draws } from '../../../src/core/floor/draws.js';
import { FloorRun } from '../../../src/core/floor/floor-run.js';
import { type OpenSpan, openCalendar } from '../../../src/core/floor/open-calendar.js';
import type { FloorOptions } from '../../../src/core/floor/shop-floor.js';
import {
  CHANGEOVER,
  DOWN_REPAIR,
  DOWN_WAITING,
  EMPTY,
  FINISHED,
  HANDLED,
  PART_LOADED,
  PROCESSING,
  SLOT_STATES,
  STOP_WAITING,
  STOP_WORK,
} from '../../../src/core/floor/slot-state.js';
import { COMES_LATER, NEXT_FULL, NO_PART, ROBOT_BUSY, WAIT_CAUSES } from '../../../src/core/floor/waits.js';
import type { Cell, PlannedStop, Station, Step, Variation } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';
import { bareFloor, put } from './bare-floor.js';
import { type Told, told } from './told.js';

interface Shop {
  readonly rack?: Partial<Station>;
  readonly mill?: Partial<Station>;
  readonly good?: Partial<Station>;
  readonly milled?: Partial<Step>;
  readonly stops?: readonly Partial<PlannedStop>[];
  readonly variation?: readonly Variation[];
  readonly yieldPct?: number;
}

/** One mill without ways: 1 s to fetch, 2 to place, 20 of work, 3 to pick, 4 to put out. A saw and a press stand idle. */
const MILL = 2;
/** Its first slot; those before and after are of saw and press. */
const AT_MILL = 1;

function shop({ rack, mill, good, milled, stops = [], variation = [], yieldPct = 100 }: Shop = {}): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed', rack),
      station('saw', 'machine'),
      station('mill', 'machine', mill),
      station('good', 'outfeed', good),
      station('press', 'machine'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, ['mill'], { cycleS: 20, loadS: 2, unloadS: 3, ...milled }),
          step(3, ['good'], { loadS: 4 }),
        ],
      },
    ],
    robot: ROBOT,
    parts: [{ part: 'cap', contribution: null, perShift: null, ratio: null, yieldPct }],
    stops: stops.map((of) => ({
      ...{ station: 'mill', name: 'tool', everyParts: null, everyH: null, minutes: 0.5, operator: true },
      ...of,
    })),
    variation: [...variation],
  });
}

const constant = (at: string, element: Variation['element'], minutes: number): Variation => ({
  ...{ station: at, element, distribution: 'constant', parameters: [minutes] },
});
/** Of a slot: seconds in each state that it was in. */
const stateS = ({ run }: Told, slot = AT_MILL): Record<number, number> =>
  Object.fromEntries(
    Array.from({ length: SLOT_STATES }, (_, state) => [
      state,
      run.floor.slotTime[slot * SLOT_STATES + state],
    ]).filter(([, seconds]) => seconds > 0),
  );
const ofMill = (lines: readonly string[]) =>
  lines.filter((line) => line.includes('mill') && !/arrive|leave/.test(line));
const week = (spans: readonly OpenSpan[]) => ({ calendar: openCalendar(spans) });

afterEach(() => {
  vi.restoreAllMocks();
});

describe('a fixture for two with a door and a stop after each cycle', () => {
  const cell = shop({
    mill: { closeS: 1, readyS: 2 },
    milled: { partsPerCycle: 2 },
    stops: [{ everyParts: 2 }],
    variation: [constant('mill', 'response', 0.25)],
  });

  it('starts when both are in, waits for somebody at its end, and lets both go', () => {
    const made = told(cell, 'first', 94);
    expect(ofMill(made.lines)).toEqual([
      '1 place mill cap',
      '3 placed mill cap',
      '4 place mill cap',
      '6 placed mill cap',
      // A second to close.
      '7 start mill cap',
      // Somebody comes 15 s after the end, and takes half a minute.
      '27 pause mill cap',
      '72 resume mill cap',
      '72 finish mill cap',
      '74 ready mill cap',
      '74 pick mill cap',
      '77 picked mill cap',
      // Put out by 81; the place that called first is filled again.
      '82 place mill cap',
      '84 placed mill cap',
      '84 pick mill cap',
      '87 picked mill cap',
      '92 place mill cap',
      '94 placed mill cap',
    ]);
    expect(stateS(made, AT_MILL)).toEqual({
      [EMPTY]: 1 + 5,
      [HANDLED]: 2 + 1 + 2 + 3 + 2,
      [PART_LOADED]: 3,
      [PROCESSING]: 20,
      [FINISHED]: 10,
      [STOP_WAITING]: 15,
      [STOP_WORK]: 30,
    });
    expect(stateS(made, AT_MILL + 1)).toEqual({
      [EMPTY]: 4 + 5,
      [HANDLED]: 2 + 1 + 2 + 3 + 2,
      [PART_LOADED]: 10,
      [PROCESSING]: 20,
      [STOP_WAITING]: 15,
      [STOP_WORK]: 30,
    });
    const { floor } = made.run;
    expect([
      floor.people.busyS,
      floor.machineFinishes,
      floor.robotServices,
      floor.good[0],
      floor.started[0],
    ]).toEqual([45, 1, 4, 2, 4]);
    expect(floor.holds.over).toEqual([
      { cause: 'waits for operator', station: 'mill', stop: 'tool', fromS: 27, untilS: 42 },
    ]);
  });

  it('with the next load starts anew, and the next stop comes after it', () => {
    const later = told(cell, 'first', 200).lines;
    expect(later.filter((line) => /start|pause|resume|finish|ready/.test(line)).slice(5, 9)).toEqual([
      '95 start mill cap',
      '115 pause mill cap',
      '160 resume mill cap',
      '160 finish mill cap',
    ]);
  });

  it('a stop that needs nobody begins at once', () => {
    const alone = told(shop({ stops: [{ everyParts: 1, operator: false }] }), 'first', 60);
    expect(ofMill(alone.lines)).toEqual([
      '1 place mill cap',
      '3 placed mill cap',
      '3 start mill cap',
      '23 pause mill cap',
      '53 resume mill cap',
      '53 finish mill cap',
      '53 pick mill cap',
      '56 picked mill cap',
    ]);
    expect(stateS(alone)).toEqual({ [EMPTY]: 1 + 4, [HANDLED]: 2 + 3, [PROCESSING]: 20, [STOP_WORK]: 30 });
  });

  it('two stops at the end of one cycle are made one after the other', () => {
    const both = shop({ stops: [{ everyParts: 1 }, { name: 'clean', everyH: 10 / 3600, minutes: 1 }] });
    const lines = told(both, 'first', 140).lines.filter((line) => /pause|resume|finish/.test(line));
    // The tool to 53; the clean has been due since 10 s, and takes to 113.
    expect(lines).toEqual([
      '23 pause mill cap',
      '53 resume mill cap',
      '53 pause mill cap',
      '113 resume mill cap',
      '113 finish mill cap',
    ]);
  });

  it('as early as people still are there, not while they are busy elsewhere', () => {
    const early = shop({ stops: [{ everyParts: 3, earlyParts: 2 }] });
    const spans = (operators: number) => [
      { startS: 0, endS: 60, attended: true, operators, weekS: 400 },
      { startS: 60, endS: 300, attended: false, weekS: 400 },
    ];
    const pauses = (operators: number) =>
      told(early, 'first', 150, week(spans(operators))).lines.filter((line) => line.includes('pause'));
    // Ends of cycles at 23 and, 30 s later each, at 53: there only 7 s are left for 30.
    expect(pauses(1)).toEqual(['23 pause mill cap', '143 pause mill cap']);
    expect(pauses(0)).toEqual(['83 pause mill cap']);
  });
});

describe('a door', () => {
  const lines = (mill: Partial<Station>) =>
    told(shop({ mill }), 'first', 40).lines.filter((line) => /start|finish|ready|pick mill/.test(line));

  it('that only closes, only opens, or does neither', () => {
    expect(lines({ closeS: 4 })).toEqual(['7 start mill cap', '27 finish mill cap', '27 pick mill cap']);
    expect(lines({ readyS: 5 })).toEqual([
      '3 start mill cap',
      '23 finish mill cap',
      '28 ready mill cap',
      '28 pick mill cap',
      '38 start mill cap',
    ]);
    expect(lines({})).toEqual([
      '3 start mill cap',
      '23 finish mill cap',
      '23 pick mill cap',
      '33 start mill cap',
    ]);
  });
});

describe('a machine that breaks down after 30 s of work', () => {
  const cell = shop({ mill: { mtbfH: 1, mttrMin: 9 }, variation: [constant('mill', 'repair', 1)] });

  it('stops in the midst of a cycle, is repaired, and ends it', () => {
    vi.spyOn(Draws.prototype, 'timeToStop').mockReturnValue(30);
    const made = told(cell, 'first', 155);
    expect(made.lines.filter((line) => /start|stop|attend|run|finish/.test(line))).toEqual([
      '3 start mill cap',
      '23 finish mill cap',
      '33 start mill cap',
      // Ten seconds of the 30 are left.
      '43 stop mill cap',
      '43 attend mill cap',
      '103 run mill cap',
      '113 finish mill cap',
      // Ten of 30 are used; this cycle takes the rest.
      '123 start mill cap',
      '143 finish mill cap',
      '153 start mill cap',
      '153 stop mill cap',
      '153 attend mill cap',
    ]);
    expect(stateS(made)[DOWN_REPAIR]).toBe(60 + 2);
    expect(stateS(made)[PROCESSING]).toBe(20 + 10 + 10 + 20);
    expect([made.run.floor.randomStops[MILL], made.run.floor.people.busyS]).toEqual([2, 62]);
  });

  it('waits where nobody is free', () => {
    vi.spyOn(Draws.prototype, 'timeToStop').mockReturnValue(30);
    const waits = told(cell, 'first', 103, { operators: 0 });
    expect([stateS(waits)[DOWN_WAITING], stateS(waits)[DOWN_REPAIR]]).toEqual([60, undefined]);
    expect(waits.run.floor.people.queueLength).toBe(1);
  });

  it('with a door the stop lies between closing and opening', () => {
    vi.spyOn(Draws.prototype, 'timeToStop').mockReturnValue(5);
    const doors = shop({
      mill: { mtbfH: 1, mttrMin: 9, closeS: 1, readyS: 2 },
      milled: { cycleS: 8 },
      variation: [constant('mill', 'repair', 1)],
    });
    const made = told(doors, 'first', 80);
    expect(made.lines.filter((line) => /start|stop|run|finish|ready/.test(line))).toEqual([
      '4 start mill cap',
      '9 stop mill cap',
      '69 run mill cap',
      '72 finish mill cap',
      '74 ready mill cap',
    ]);
    expect(stateS(made)).toEqual({
      [EMPTY]: 1 + 3,
      [HANDLED]: 2 + 1 + 2 + 3,
      [PROCESSING]: 8,
      [DOWN_REPAIR]: 60,
    });
  });
});

describe('what comes out', () => {
  it('is good by its share where there is no chance, else part by part', () => {
    const shares = told(shop({ yieldPct: 75 }), 'first', 63).run.floor;
    expect([shares.good[0], shares.scrap[0], shares.lastOutS]).toEqual([1.5, 0.5, 60]);
    const isGood = vi.spyOn(Draws.prototype, 'isGood').mockReturnValueOnce(false).mockReturnValue(true);
    const drawn = told(shop({ yieldPct: 75 }), 'first', 63, { chance: true }).run.floor;
    expect([drawn.good[0], drawn.scrap[0]]).toEqual([1, 1]);
    expect(isGood).toHaveBeenCalledWith(0, 0.75);
    isGood.mockClear();
    expect(told(shop(), 'first', 63, { chance: true }).run.floor.good[0]).toBe(2);
    expect(isGood).not.toHaveBeenCalled();
  });

  it('is counted afresh when asked', () => {
    const { run } = told(shop({ yieldPct: 75, stops: [{ everyParts: 1 }] }), 'first', 63);
    run.clear();
    const { floor } = run;
    expect(
      [floor.good, floor.scrap, floor.late, floor.started, floor.overstays, floor.randomStops].map((t) => [
        ...t,
      ]),
    ).toEqual([[0], [0], [0], [0], [0, 0, 0], [0, 0, 0, 0, 0]]);
    expect([floor.people.busyS, floor.machineFinishes, floor.robotServices]).toEqual([0, 0, 0]);
    expect([...floor.slotTime].every((t) => t === 0)).toBe(true);
    expect(floor.mixStarted[0]).toBe(2);
    // From 63 to 90 the mill works on its second part to 83 and is stopped to 90.
    run.to(90);
    expect([
      floor.slotTime[AT_MILL * SLOT_STATES + PROCESSING],
      floor.slotTime[AT_MILL * SLOT_STATES + STOP_WORK],
    ]).toEqual([20, 7]);
  });
});

describe('racks', () => {
  it('that have run out are filled by somebody; without a stop of their own at once', () => {
    const lines = (stops: readonly Partial<PlannedStop>[]) =>
      told(shop({ rack: { capacityParts: 1 }, stops }), 'first', 100).lines.filter((line) =>
        line.includes('pick rack'),
      );
    expect(lines([])).toEqual([
      '0 pick rack cap',
      '30 pick rack cap',
      '60 pick rack cap',
      '90 pick rack cap',
    ]);
    // 40 s from the end of each round on, when the part is in the mill: 3 to 43, 46 to 86.
    expect(lines([{ station: 'rack', everyParts: 1, minutes: 40 / 60 }])).toEqual([
      '0 pick rack cap',
      '43 pick rack cap',
      '86 pick rack cap',
    ]);
  });

  it('with a pace of their own give the next part in their time', () => {
    const { lines } = told(shop({ rack: { readyS: 40 } }), 'first', 130);
    expect(lines.filter((line) => line.includes('pick rack'))).toEqual([
      '0 pick rack cap',
      '41 pick rack cap',
      '82 pick rack cap',
      '123 pick rack cap',
    ]);
  });

  it('are topped up as people leave, and wait for them after that', () => {
    const spans = [
      { startS: 0, endS: 50, attended: true, operators: 1, weekS: 400 },
      { startS: 50, endS: 300, attended: false, weekS: 400 },
    ];
    const made = told(shop({ rack: { capacityParts: 3 } }), 'first', 399, week(spans));
    // Two are taken by 50, then three: 60, 90 and 120.
    const picks = made.lines.filter((line) => line.includes('pick rack'));
    expect(picks).toEqual([
      '0 pick rack cap',
      '30 pick rack cap',
      '60 pick rack cap',
      '90 pick rack cap',
      '120 pick rack cap',
    ]);
    expect([made.run.alive, made.run.floor.holds.notOver()]).toEqual([
      true,
      [{ cause: 'rack empty', station: 'rack', stop: '', fromS: 123, untilS: Number.POSITIVE_INFINITY }],
    ]);
    made.run.to(420);
    // On the next Monday the rack is filled at once.
    expect(made.run.floor.holds.over).toEqual([
      { cause: 'rack empty', station: 'rack', stop: '', fromS: 123, untilS: 400 },
    ]);
    expect(made.run.floor.started[0]).toBe(6);
  });
});

describe('a cell that stands for ever', () => {
  const full = shop({ good: { capacityParts: 1 } });

  it('is one whose outfeed nobody clears', () => {
    expect(told(full, 'first', 500, { operators: 0 }).run.alive).toBe(false);
    expect(told(full, 'first', 500, { operators: 1 }).run.alive).toBe(true);
    const nobody = week([{ startS: 0, endS: 300, attended: false, weekS: 400 }]);
    expect(told(full, 'first', 1500, nobody).run.alive).toBe(false);
    const mornings = week([
      { startS: 0, endS: 300, attended: false, weekS: 400 },
      { startS: 350, endS: 400, attended: true, operators: 1 },
    ]);
    expect(told(full, 'first', 1500, mornings).run.alive).toBe(true);
  });

  it('not one whose parts wait for people, nor one that is shut', () => {
    const attendedOnly: Cell = { ...shop(), parts: [{ ...shop().parts[0], unattended: false }] };
    const mornings = week([
      { startS: 0, endS: 100, attended: true, operators: 1, weekS: 400 },
      { startS: 100, endS: 300, attended: false },
    ]);
    const made = told(attendedOnly, 'first', 450, mornings);
    expect(made.run.alive).toBe(true);
    expect(made.lines.filter((line) => line.includes('pick rack')).at(-1)).toBe('430 pick rack cap');
    expect(
      told(shop(), 'first', 450, week([{ startS: 50, endS: 60, attended: true, weekS: 400 }])).run.alive,
    ).toBe(true);
  });
});

describe('whether anything is to come', () => {
  const spans = (operators: number, startS = 0) =>
    openCalendar([{ startS, endS: 100, attended: true, operators, weekS: 200 }]);
  const limited = shop({ rack: { capacityParts: 1 } });

  it('without hours: an event of any element', () => {
    const floor = bareFloor(shop());
    expect(floor.standsForEver()).toBe(true);
    floor.clock.set(0, 50);
    expect(floor.standsForEver()).toBe(false);
  });

  it('with hours: the end of the shift alone is nothing, but it may bring somebody, or end the pause', () => {
    const floor = bareFloor(limited, { calendar: spans(1) });
    expect(floor.standsForEver()).toBe(true);
    // A machine that ends its cycle in the next shift.
    floor.clock.set(AT_MILL, 150);
    expect(floor.standsForEver()).toBe(false);
    expect(bareFloor(limited, { calendar: spans(1, 10) }).standsForEver()).toBe(false);
  });

  it('a call that waits is answered where anybody ever comes', () => {
    const waits = (operators: number) => {
      const floor = bareFloor(limited, { calendar: spans(operators) });
      floor.people.change(0, 0);
      floor.people.callTo(2, 0, 0);
      return floor.standsForEver();
    };
    expect([waits(1), waits(0)]).toEqual([false, true]);
  });

  it('a part that waits for people comes with them', () => {
    const attendedOnly: Cell = { ...shop(), parts: [{ ...shop().parts[0], unattended: false }] };
    const floor = bareFloor(attendedOnly, { calendar: spans(1) });
    expect(floor.standsForEver()).toBe(true);
    floor.hours.alone = true;
    expect(floor.standsForEver()).toBe(false);
  });
});

it('a station that stops is told at once, and sends a robot that waits away only where another one calls', () => {
  const stopped = (saw: number | null) => {
    const floor = bareFloor(shop({ stops: [{ everyParts: 1 }] }));
    floor.load(AT_MILL, 1, 0);
    if (saw !== null) put(floor, 0, 1, saw);
    floor.changed = floor.hasStopped = false;
    floor.now = 20;
    floor.onTimer(AT_MILL);
    expect(floor.slotState[AT_MILL]).toBe(STOP_WORK);
    return [floor.hasStopped, floor.changed];
  };
  expect([stopped(null), stopped(PROCESSING), stopped(FINISHED)]).toEqual([
    [true, false],
    [true, false],
    [true, true],
  ]);
});

describe('a changeover of 30 s stopped and 40 s of work that is due at 50', () => {
  const made = (untilS: number, spans: readonly OpenSpan[]) =>
    told(shop(), 'first', untilS, {
      ...week(spans),
      changeovers: [{ station: 'mill', workS: 40, stopS: 30, people: 1, dueS: [50] }],
    });

  it('has the mill take no part that it would meet at work, and begins once it is empty', () => {
    const always = [{ startS: 0, endS: 1000, attended: true, operators: 1, weekS: 1000 }];
    // The second part would be in work from 33 to 53; the mill is empty at 30, and somebody is there.
    const changed = made(70, always);
    expect(changed.lines.filter((line) => line.includes('pick rack'))).toEqual([
      '0 pick rack cap',
      '60 pick rack cap',
    ]);
    expect(changed.run.floor.changeovers.done).toEqual([
      { row: 0, people: 1, startS: 30, runsAgainS: 60, endS: 70 },
    ]);
    expect(stateS(changed)).toEqual({
      [EMPTY]: 1 + 4 + 1,
      [HANDLED]: 2 + 3 + 2,
      [PROCESSING]: 20 + 7,
      [CHANGEOVER]: 30,
    });
    expect(made(45, always).run.floor.stopped[MILL]).toBe(1);
    expect(changed.run.floor.stopped[MILL]).toBe(0);
  });

  it('that finds a part at work begins when it has left', () => {
    const calendar = openCalendar([{ startS: 0, endS: 1000, attended: true, operators: 1, weekS: 1000 }]);
    const floor = bareFloor(shop(), {
      calendar,
      changeovers: [{ station: 'mill', workS: 40, stopS: 30, people: 1, dueS: [50] }],
    });
    put(floor, AT_MILL, 1, PROCESSING);
    floor.now = 50;
    floor.onTimer(floor.clock.times.indexOf(50));
    expect(floor.stopped[MILL]).toBe(0);
    floor.now = 57;
    floor.vacate(AT_MILL);
    expect([floor.stopped[MILL], floor.slotState[AT_MILL], floor.changeovers.done[0]!.startS]).toEqual([
      1,
      CHANGEOVER,
      57,
    ]);
  });

  it('a floor asks whether a station is empty, and whether it is held back', () => {
    const calendar = openCalendar([{ startS: 0, endS: 1000, attended: true, operators: 1, weekS: 1000 }]);
    const row = { station: 'mill', workS: 40, stopS: 30, people: 1, dueS: [50] };
    const cell = shop({ mill: { closeS: 1, readyS: 2 } });
    const floor = bareFloor(cell, { calendar, changeovers: [row] });
    expect(floor.isEmpty(MILL)).toBe(true);
    floor.coming[MILL] = 1;
    expect(floor.isEmpty(MILL)).toBe(false);
    floor.coming[MILL] = 0;
    put(floor, AT_MILL, 1, PROCESSING);
    expect(floor.isEmpty(MILL)).toBe(false);
    // 1 + 20 + 2 in work: after 26 s of the robot's time it is done at 49, after 27 at 50.
    expect(
      [26, 27].map((afterS) => bareFloor(cell, { calendar, changeovers: [row] }).heldBack(MILL, 1, afterS)),
    ).toEqual([false, true]);
    expect(bareFloor(cell).heldBack(MILL, 1, 1e9)).toBe(false);
  });
});

describe('how many people a cell needs', () => {
  it('none without a limit, a breakdown or a stop that asks for them', () => {
    const present = (of: Shop, more: Partial<FloorOptions> = {}) =>
      bareFloor(shop(of), { operators: 2, ...more }).people.present;
    expect([present({}), present({ stops: [{ everyParts: 9, operator: false }] })]).toEqual([0, 0]);
    expect([present({ rack: { capacityParts: 9 } }), present({ good: { capacityParts: 9 } })]).toEqual([
      2, 2,
    ]);
    expect([
      present({ mill: { mtbfH: 1, mttrMin: 1 } }),
      present({ stops: [{ everyParts: 9, operator: false }, { everyParts: 9 }] }),
    ]).toEqual([2, 2]);
    const calendar = openCalendar([
      { startS: 0, endS: 10, attended: true, operators: 1, weekS: 100 },
      { startS: 10, endS: 20, attended: true, operators: 3 },
    ]);
    const floor = bareFloor(shop({ rack: { capacityParts: 9 } }), { operators: 9, calendar });
    expect(floor.people.present).toBe(1);
    floor.people.change(5, 10);
    expect(floor.people.present).toBe(3);
  });
});

describe('people who come and go', () => {
  it('fill the rack as the last of them leaves, not as one of two does, nor where nobody was', () => {
    const leftAt60 = (before: number, after: number) =>
      told(
        shop({ rack: { capacityParts: 3 } }),
        'first',
        59,
        week([
          { startS: 0, endS: 50, attended: true, operators: before, weekS: 400 },
          { startS: 50, endS: 300, attended: true, operators: after },
        ]),
      ).run.floor.racks.left[0];
    // Taken at 0 and at 30.
    expect([leftAt60(1, 0), leftAt60(2, 1), leftAt60(0, 0), leftAt60(0, 1)]).toEqual([3, 1, 1, 1]);
  });
});

describe('times that vary', () => {
  it('a cycle takes what is drawn, a repair what is drawn about the mean of its station', () => {
    const cycle = shop({
      variation: [{ station: 'mill', element: 'cycle', distribution: 'constant', parameters: [10] }],
    });
    expect(told(cycle, 'first', 30).lines).toContain('13 finish mill cap');
    // A row for all machines scatters each cycle about its own: here by 10 over 10.
    const all = shop({
      variation: [{ station: '*', element: 'cycle', distribution: 'constant', parameters: [10] }],
    });
    expect(told(all, 'first', 30).lines).toContain('23 finish mill cap');
    vi.spyOn(Draws.prototype, 'timeToStop').mockReturnValue(5);
    // Two minutes about a mean of two; the mill's own mean is one.
    const repaired = shop({ mill: { mtbfH: 1, mttrMin: 1 }, variation: [constant('*', 'repair', 2)] });
    expect(told(repaired, 'first', 80).lines).toContain('68 run mill cap');
  });

  it('under chance no stretches without an operator are noted', () => {
    const waits = shop({ stops: [{ everyParts: 1 }], variation: [constant('mill', 'response', 1)] });
    expect(told(waits, 'first', 100).run.floor.holds.over).toHaveLength(1);
    expect(told(waits, 'first', 100, { chance: true }).run.floor.holds.over).toHaveLength(0);
  });
});

describe('who asks why stations wait', () => {
  it('is told from look to look', () => {
    const { run } = told(shop(), 'first', 60, { causes: true });
    const waitS = (cause: number) => run.floor.waits!.timeS[AT_MILL * WAIT_CAUSES + cause];
    // Empty while the robot fetches a part, 0 to 1 and 30 to 31, and while it puts one out, 26 to 30 and 56 to 60.
    expect([waitS(ROBOT_BUSY), waitS(COMES_LATER), waitS(NO_PART), waitS(NEXT_FULL)]).toEqual([
      1 + 4 + 1 + 4,
      0,
      0,
      0,
    ]);
    expect(told(shop(), 'first', 60).run.floor.waits).toBeNull();
  });
});

describe('nobody has to listen', () => {
  it('to doors, fixtures, stops and breakdowns', () => {
    vi.spyOn(Draws.prototype, 'timeToStop').mockReturnValue(30);
    const cell = shop({
      ...{ mill: { closeS: 1, readyS: 2, mtbfH: 1, mttrMin: 1 }, milled: { partsPerCycle: 2 } },
      stops: [{ everyParts: 2 }, { name: 'clean', everyParts: 3, operator: false }],
    });
    const run = new FloorRun(
      compileCell(cell),
      { program: 'first', plan: null, calendar: null, operators: 1, seed: 1, chance: false },
      0,
    );
    run.to(500);
    expect([...run.floor.good]).toEqual([...told(cell, 'first', 500).run.floor.good]);
    expect(run.floor.good[0]).toBeGreaterThan(4);
  });
});

describe('moments', () => {
  it('are told apart by the state of each slot, what is to come, and what is due', () => {
    const values = (timeS: number) => {
      const found: number[] = [];
      told(shop({ stops: [{ everyParts: 9, earlyParts: 1 }] }), 'first', timeS).run.floor.signature((v) =>
        found.push(v),
      );
      return found;
    };
    // Of each slot: its state and its part's operation; its phase, its leader and its stop; how long it has been finished.
    // Then the timers of the slots and of the operator, the robot's, the stations, the time since the last cycle's end, the
    // racks, the mix, the operator, and the changeovers done.
    const idle = [EMPTY, 8, 0];
    const nothing = [0, 0, 0, 0, 0];
    expect(values(10)).toEqual([
      ...idle,
      ...[PROCESSING + 32 * 2, 2 + 8 * (AT_MILL + 2), 0],
      ...idle,
      ...[-1, 13, -1, -1, -1],
      ...nothing,
      10,
      ...[...nothing, 0],
      ...[-1, 0, 0],
    ]);
    expect(values(2)).toEqual([
      ...idle,
      ...[HANDLED, 8, 0],
      ...idle,
      ...[-1, -1, -1, -1, 1],
      // A part is on its way to the mill.
      ...[0, 0, 8, 0, 0],
      2,
      ...[...nothing, 0],
      ...[-1, 0, 0],
    ]);
  });

  it('and by how far each part is ahead of its mix', () => {
    const two = shop();
    const [cap] = two.routes;
    const cell: Cell = {
      ...two,
      routes: [cap, { ...cap, part: 'rod' }],
      parts: [
        { ...two.parts[0], ratio: 2 },
        { ...two.parts[0], part: 'rod', ratio: 1 },
      ],
    };
    const floor = bareFloor(cell);
    floor.mixStarted.set([5, 2]);
    const found: number[] = [];
    floor.signature((v) => found.push(v));
    // Two and a half sets of caps, two of rods; then the changeovers done.
    expect(found.slice(-3)).toEqual([0.5, 0, 0]);
  });

  it('and by what lies in fixtures, racks and stations', () => {
    const floor = bareFloor(shop({ rack: { readyS: 9 }, milled: { partsPerCycle: 2 } }));
    const values = () => {
      const found: number[] = [];
      floor.signature((v) => found.push(v));
      return found;
    };
    floor.now = 100;
    floor.takeRaw(0, 0, 98);
    floor.load(AT_MILL, 1, 1);
    put(floor, AT_MILL + 1, 1, FINISHED);
    floor.slotFinishedAt[AT_MILL + 1] = 93;
    floor.stopped[MILL] = 1;
    floor.coming[MILL] = 3;
    const found = values();
    // A part loaded that is late, with the other place of the fixture finished for 7 s.
    expect(found.slice(3, 9)).toEqual([PART_LOADED + 16 + 64, 0, 0, FINISHED + 64, 8, 7]);
    // The timers of four slots and of the rack, which has its next part at 107; then the robot's.
    expect(found.slice(12, 18)).toEqual([-1, -1, -1, -1, 7, -1]);
    // Stopped, three to come, one of a batch of operation 1 loaded.
    expect(found.slice(18, 23)).toEqual([0, 0, 4 + 24 + 256 + 2 * 65_536, 0, 0]);
    expect(found.slice(23)).toEqual([7, 0, 0, 0, 0, 0, 0]);
  });
});
