/** The robot that answers calls, second by second as worked out by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../../src/core/floor/compile-cell.js';
import { DispatchRobot } from '../../../../src/core/floor/dispatch/dispatch-robot.js';
import { FloorRun } from '../../../../src/core/floor/floor-run.js';
import { openCalendar } from '../../../../src/core/floor/open-calendar.js';
import { EMPTY, FINISHED, HANDLED, PROCESSING, SLOT_STATES } from '../../../../src/core/floor/slot-state.js';
import type { CallRule } from '../../../../src/core/model/call-rules.js';
import type { Cell, Station, Step } from '../../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../../simulate/cells.js';
import { bareFloor, put } from '../bare-floor.js';
import { told } from '../told.js';

/** One mill between a rack and an outfeed: 3 s of way, pick 2 and 5 s, place 4 and 6 s, 20 s of work. */
function oneMill(
  hands: 1 | 2,
  { mill = {}, milled = {} }: { readonly mill?: Partial<Station>; readonly milled?: Partial<Step> } = {},
): Cell {
  return cellOf({
    stations: [station('rack', 'infeed'), station('mill', 'machine', mill), station('good', 'outfeed')],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 2 }),
          step(2, ['mill'], { cycleS: 20, loadS: 4, unloadS: 5, ...milled }),
          step(3, ['good'], { loadS: 6 }),
        ],
      },
    ],
    robot: { ...ROBOT, hands, indexS: hands === 2 ? 1 : 0, travelS: 3 },
  });
}

/** By robot state: travel empty and with a part, handling, holding, waiting. */
const robotS = ({ run }: ReturnType<typeof told>) => [...run.robot.clock.time];
const millS = ({ run }: ReturnType<typeof told>, slot = 0) =>
  [EMPTY, HANDLED, PROCESSING, FINISHED].map((state) => run.floor.slotTime[slot * SLOT_STATES + state]);

describe('one hand at one mill', () => {
  const timed = oneMill(1, { mill: { closeS: 1, readyS: 2 } });

  it('fetches, places, waits for the finish, and puts out', () => {
    const first = told(timed, 'first', 59);
    expect(first.lines).toEqual([
      '0 pick rack cap',
      '2 picked rack cap',
      '2 leave rack cap',
      '5 arrive mill cap',
      '5 place mill cap',
      '9 placed mill cap',
      // The door closes in a second and opens in two.
      '10 start mill cap',
      '30 finish mill cap',
      '32 ready mill cap',
      '32 pick mill cap',
      '37 picked mill cap',
      '37 leave mill cap',
      '40 arrive good cap',
      '40 place good cap',
      '46 placed good cap',
      '46 leave good',
      '49 arrive rack',
      '49 pick rack cap',
      '51 picked rack cap',
      '51 leave rack cap',
      '54 arrive mill cap',
      '54 place mill cap',
      '58 placed mill cap',
      '59 start mill cap',
    ]);
    // 3 s back to the rack; three ways of 3 s with a part; 2 + 4, 5 + 6, 2 + 4; the rest is waiting.
    expect(robotS(first)).toEqual([3, 9, 23, 0, 24]);
    // Empty to 5 and from 37 to 54; in the robot's hand or at the door 5 to 10, 30 to 37 and 54 to 59.
    expect(millS(first)).toEqual([22, 17, 20, 0]);
  });

  it('is counted in the midst of a round as well', () => {
    const during = told(timed, 'first', 35);
    expect(robotS(during)).toEqual([0, 3, 6 + 3, 0, 23]);
    expect(millS(during)).toEqual([5, 10, 20, 0]);
    expect(robotS(told(timed, 'first', 48))).toEqual([2, 6, 17, 0, 23]);
    expect(robotS(told(timed, 'first', 56))).toEqual([3, 9, 21, 0, 23]);
  });

  it('takes its time between two looks only once', () => {
    const twice = told(timed, 'first', 35);
    twice.run.to(35);
    twice.run.to(59);
    expect(robotS(twice)).toEqual([3, 9, 23, 0, 24]);
    expect(millS(twice)).toEqual([22, 17, 20, 0]);
  });

  it('counts what it takes in, what it puts out, and its services', () => {
    const { run } = told(timed, 'first', 59);
    expect([run.floor.started[0], run.floor.good[0], run.floor.lastOutS]).toEqual([2, 1, 46]);
    // A service leaves the mill loaded.
    expect([run.floor.machineFinishes, run.floor.robotServices, run.partsInside()]).toEqual([1, 2, 1]);
    expect(told(timed, 'first', 48).run.partsInside()).toBe(0);
  });

  it('begins no act that closing would cut', () => {
    const at = (closesS: number) =>
      told(timed, 'first', 150, {
        calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 100 }]),
      }).lines.filter((line) => /pick|place/.test(line));
    // Open to 37: the pick at the mill just fits, but the way to the outfeed goes on at 100.
    expect(at(37).slice(4, 8)).toEqual([
      '32 pick mill cap',
      '37 picked mill cap',
      '103 place good cap',
      '109 placed good cap',
    ]);
    // Open to 36: the pick waits for the next week.
    expect(at(36).slice(4, 8)).toEqual([
      '100 pick mill cap',
      '105 picked mill cap',
      '108 place good cap',
      '114 placed good cap',
    ]);
    // Open to 45: it has come at 40, but 6 s more are not left.
    expect(at(45).slice(4, 8)).toEqual([
      '32 pick mill cap',
      '37 picked mill cap',
      '100 place good cap',
      '106 placed good cap',
    ]);
  });

  it('a part that has waited longer than it may is late', () => {
    // With the door the part is ready at 32, when the robot stands there; in a cell shut from 33 on it waits until 100.
    const calendar = () => openCalendar([{ startS: 0, endS: 33, attended: true, operators: 1, weekS: 100 }]);
    const late = (maxWaitS: number) => {
      const { run } = told(
        oneMill(1, { mill: { closeS: 1, readyS: 2 }, milled: { maxWaitS } }),
        'first',
        130,
        {
          calendar: calendar(),
        },
      );
      return [run.floor.late[0], run.floor.good[0], run.floor.overstays[1]];
    };
    expect([late(67), late(68)]).toEqual([
      [1, 0, 1],
      [0, 1, 0],
    ]);
  });
});

describe('two hands at one mill', () => {
  it('come with the next part, take the finished one out, turn and place', () => {
    // It stands at the rack, and has done nothing before which it would have to turn.
    const swap = told(oneMill(2), 'first', 85);
    expect(swap.lines).toEqual([
      '0 pick rack cap',
      '2 picked rack cap',
      '2 leave rack cap',
      '5 arrive mill cap',
      '5 place mill cap',
      '9 placed mill cap',
      '9 start mill cap',
      '29 finish mill cap',
      '29 leave mill',
      '32 arrive rack',
      '32 pick rack cap',
      '34 picked rack cap',
      '34 leave rack cap',
      '37 arrive mill cap',
      '37 pick mill cap',
      '42 picked mill cap',
      // A second to turn.
      '43 place mill cap',
      '47 placed mill cap',
      '47 start mill cap',
      '47 leave mill cap',
      '50 arrive good cap',
      '50 place good cap',
      '56 placed good cap',
      '67 finish mill cap',
      '67 leave good',
      '70 arrive rack',
      '70 pick rack cap',
      '72 picked rack cap',
      '72 leave rack cap',
      '75 arrive mill cap',
      '75 pick mill cap',
      '80 picked mill cap',
      '81 place mill cap',
      '85 placed mill cap',
      '85 start mill cap',
      '85 leave mill cap',
    ]);
    // Empty ways 29 to 32 and 67 to 70; with a part 2 to 5, 34 to 37, 47 to 50 and 72 to 75; waiting 9 to 29 and 56 to 67.
    expect(robotS(swap)).toEqual([6, 12, 85 - 6 - 12 - 31, 0, 31]);
    // Empty to 5 alone; finished 29 to 37 and 67 to 75.
    expect(millS(swap)).toEqual([5, 4 + 10 + 10, 40, 16]);
    expect([swap.run.floor.started[0], swap.run.floor.good[0], swap.run.partsInside()]).toEqual([3, 1, 2]);
  });

  it('hold the one taken out until it is placed', () => {
    const during = told(oneMill(2), 'first', 48);
    expect([during.run.robot.partsInHand(), during.run.robot.idle, during.run.partsInside()]).toEqual([
      1,
      false,
      2,
    ]);
    expect(told(oneMill(2), 'first', 57).run.robot.partsInHand()).toBe(0);
  });

  it('a part that has waited too long before the exchange is late once it is out', () => {
    // Finished at 29, taken out from 37 on.
    const late = (maxWaitS: number) => told(oneMill(2, { milled: { maxWaitS } }), 'first', 56).run.floor;
    expect([late(7).late[0], late(7).good[0], late(7).overstays[1]]).toEqual([1, 0, 1]);
    expect([late(8).late[0], late(8).good[0], late(8).overstays[1]]).toEqual([0, 1, 0]);
    // The one that comes next is not.
    expect([late(7).slotLate[0], late(7).started[0]]).toEqual([0, 2]);
  });

  it('an exchange is not cut by closing either', () => {
    const at = (closesS: number) =>
      told(oneMill(2), 'first', 150, {
        calendar: openCalendar([{ startS: 0, endS: closesS, attended: true, operators: 1, weekS: 100 }]),
      }).lines.filter((line) => /pick|place/.test(line));
    expect(at(33).slice(4, 6)).toEqual(['100 pick rack cap', '102 picked rack cap']);
    expect(at(41).slice(6, 9)).toEqual(['100 pick mill cap', '105 picked mill cap', '106 place mill cap']);
    expect(at(45).slice(6, 9)).toEqual(['37 pick mill cap', '42 picked mill cap', '100 place mill cap']);
  });
});

describe('a brush that works on the part in the hand', () => {
  const brushed = (hands: 1 | 2): Cell => {
    const cell = oneMill(hands);
    const [{ steps }] = cell.routes;
    return {
      ...cell,
      stations: [...cell.stations, station('brush', 'held')],
      routes: [
        {
          part: 'cap',
          steps: [
            ...steps.slice(0, 2),
            step(3, ['brush'], { cycleS: 7, loadS: 1, unloadS: 2 }),
            { ...steps[2], step: 4 },
          ],
        },
      ],
    };
  };

  it('is passed on the way out', () => {
    const held = told(brushed(1), 'first', 57);
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
    expect(robotS(held)).toEqual([1, 3 + 6, 6 + 5 + 1 + 2 + 6, 7, 20]);
    // Out of the mill at 34.
    expect(millS(held)).toEqual([5 + 23, 4 + 5, 20, 0]);
  });

  it('a part that has waited too long is late after it as well', () => {
    // Finished at 29; 5 s to pick are not left before the cell closes at 33.
    const calendar = () => openCalendar([{ startS: 0, endS: 33, attended: true, operators: 1, weekS: 100 }]);
    const late = (maxWaitS: number) => {
      const cell = brushed(1);
      const [{ steps }] = cell.routes;
      const waits = {
        ...cell,
        routes: [{ part: 'cap', steps: steps.map((s) => (s.step === 2 ? { ...s, maxWaitS } : s)) }],
      };
      const { floor } = told(waits, 'first', 133, { calendar: calendar() }).run;
      return [floor.late[0], floor.good[0]];
    };
    expect([late(70), late(71)]).toEqual([
      [1, 0],
      [0, 1],
    ]);
  });

  it('nobody has to listen', () => {
    const run = new FloorRun(
      compileCell(brushed(1)),
      { program: 'first', plan: null, calendar: null, operators: 1, seed: 1, chance: false },
      0,
    );
    run.to(57);
    expect([...run.robot.clock.time]).toEqual([1, 9, 20, 7, 20]);
  });

  it('with two hands after the exchange', () => {
    expect(told(brushed(2), 'first', 69).lines.slice(19)).toEqual([
      '47 leave mill cap',
      '50 arrive brush cap',
      '50 place brush cap',
      '51 placed brush cap',
      '51 start brush cap',
      '58 finish brush cap',
      '58 pick brush cap',
      '60 picked brush cap',
      '60 leave brush cap',
      '63 arrive good cap',
      '63 place good cap',
      '67 finish mill cap',
      '69 placed good cap',
      '69 leave good',
    ]);
  });
});

describe('which call comes first', () => {
  /** A near drill with short work, a far mill with long work, and a press between them. */
  const cell = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('mill', 'machine'),
      station('drill', 'machine'),
      station('press', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      ['cap', 'mill', 50],
      ['rod', 'drill', 10],
      ['hub', 'press', 50],
    ].map(([part, at, cycleS]) => ({
      part: String(part),
      steps: [step(1, ['rack']), step(2, [String(at)], { cycleS: Number(cycleS) }), step(3, ['good'])],
    })),
    robot: { ...ROBOT, travelS: 8 },
    travel: [
      { from: 'rack', to: 'drill', emptyS: 2, loadedS: 2 },
      { from: 'rack', to: 'press', emptyS: 4, loadedS: 4 },
    ],
  });

  /** Where the robot, which stands at the rack, goes first. @param slots finished ones, in the order of their calls */
  function firstOf(rule: CallRule, slots: readonly number[]): string {
    const lines: string[] = [];
    const floor = bareFloor(cell, { trace: (_t, what, at) => lines.push(`${what} ${at}`) });
    for (const slot of [0, 1, 2]) put(floor, slot, [1, 4, 7][slot], PROCESSING);
    for (const slot of slots) put(floor, slot, [1, 4, 7][slot], FINISHED);
    const robot = new DispatchRobot(floor, rule);
    expect(robot.decide()).toBe(slots.length > 0);
    return lines.find((line) => line.startsWith('pick ')) ?? 'waits';
  }

  it.each([
    ['first', [1, 0, 2], 'pick drill'],
    ['first', [2, 1], 'pick press'],
    ['nearest', [0, 1, 2], 'pick drill'],
    ['nearest', [0, 2], 'pick press'],
    ['longest', [1, 0, 2], 'pick mill'],
    // Of two that are alike the earlier call.
    ['longest', [1, 2, 0], 'pick press'],
    ['nearest', [], 'waits'],
  ] as const)('%s of %j: %s', (rule, slots, first) => {
    expect(firstOf(rule, slots)).toBe(first);
  });

  it('of two machines for one part the first listed, under the rule nearest the nearer', () => {
    const mills = cellOf({
      stations: [
        station('rack', 'infeed'),
        station('far', 'machine'),
        station('near', 'machine'),
        station('saw', 'machine'),
        station('good', 'outfeed'),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['rack']),
            step(2, ['saw'], { cycleS: 9 }),
            step(3, ['far', 'near'], { cycleS: 9 }),
            step(4, ['good']),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 8 },
      travel: [{ from: 'saw', to: 'near', emptyS: 2, loadedS: 2 }],
    });
    const goesTo = (rule: CallRule) => {
      const lines: string[] = [];
      const floor = bareFloor(mills, { trace: (_t, what, at) => lines.push(`${what} ${at}`) });
      put(floor, 2, 1, FINISHED);
      new DispatchRobot(floor, rule).decide();
      return lines.find((line) => line.startsWith('place '));
    };
    expect([goesTo('first'), goesTo('nearest'), goesTo('longest')]).toEqual([
      'place far',
      'place near',
      'place far',
    ]);
  });

  it('nearness is that of the place where a part is picked, from where the robot stands', () => {
    const lines: string[] = [];
    const floor = bareFloor(cell, { trace: (_t, what, at) => lines.push(`${what} ${at}`) });
    const robot = new DispatchRobot(floor, 'nearest');
    for (const slot of [0, 1, 2]) put(floor, slot, [1, 4, 7][slot], PROCESSING);
    put(floor, 2, 7, FINISHED);
    put(floor, 1, 4, FINISHED);
    // At the outfeed both are 8 s away, so the earlier call counts; at the rack the drill would be nearer.
    robot.at = 4;
    robot.decide();
    expect(lines.find((line) => line.startsWith('pick '))).toBe('pick press');
  });

  it('a call that nothing can answer is passed over', () => {
    const lines: string[] = [];
    const floor = bareFloor(cell, { trace: (_t, what, at) => lines.push(`${what} ${at}`) });
    // The mill and the press stand for a changeover.
    floor.stopped.set([0, 1, 0, 1]);
    put(floor, 1, 4, FINISHED);
    const robot = new DispatchRobot(floor, 'first');
    expect(robot.decide()).toBe(true);
    expect(lines.filter((line) => /pick |place /.test(line))).toEqual(['pick drill', 'place good']);
    expect([...floor.coming]).toEqual([0, 0, 0, 0, 0]);
    floor.now = floor.robotAtS;
    robot.onTimer();
    expect([...floor.coming]).toEqual([0, 0, 0, 0, 0]);
  });

  it('an empty machine counts by the part that it wants', () => {
    const floorWith = (rule: CallRule) => {
      const lines: string[] = [];
      const floor = bareFloor(cell, { trace: (_t, what, at) => lines.push(`${what} ${at}`) });
      // The drill is finished and calls first; mill and press are empty and have called before it.
      put(floor, 1, 4, FINISHED);
      new DispatchRobot(floor, rule).decide();
      return lines.filter((line) => /pick |place /.test(line));
    };
    expect(floorWith('longest')).toEqual(['pick rack', 'place mill']);
    expect(floorWith('first')).toEqual(['pick rack', 'place mill']);
    // At the rack it stands already.
    expect(floorWith('nearest')).toEqual(['pick rack', 'place mill']);
  });
});

it('a part that has waited too long once stays late', () => {
  const floor = bareFloor(oneMill(1));
  put(floor, 0, 1, FINISHED);
  floor.slotLate[0] = 1;
  const robot = new DispatchRobot(floor, 'first');
  robot.decide();
  floor.now = floor.robotAtS;
  robot.onTimer();
  expect([floor.late[0], floor.good[0]]).toEqual([1, 0]);
});

describe('a part in hand that finds no place', () => {
  /** A mill and a washer for one, two hands; the outfeed is full. */
  const washLine = cellOf({
    stations: [
      station('rack', 'infeed'),
      station('mill', 'machine'),
      station('wash', 'bench'),
      station('good', 'outfeed', { capacityParts: 1 }),
      station('tags', 'infeed', { capacityParts: 1 }),
      station('box', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack']),
          step(2, ['mill'], { cycleS: 30 }),
          step(3, ['wash'], { cycleS: 10 }),
          step(4, ['good']),
        ],
      },
      { part: 'tag', steps: [step(1, ['tags'], { unloadS: 1 }), step(2, ['box'], { loadS: 1 })] },
    ],
    robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 2 },
  });

  it('waits while the other hand does something else, and says what it waits for', () => {
    const lines: string[] = [];
    const floor = bareFloor(washLine, {
      operators: 0,
      trace: (t, what, at) => lines.push(`${t} ${what} ${at}`),
    });
    const robot = new DispatchRobot(floor, 'first');
    put(floor, 0, 1, FINISHED);
    put(floor, 1, 2, PROCESSING);
    expect(robot.waitText()).toBe('The robot has empty hands and no call that it can serve.');
    // The washer is at work: nothing to do for the mill, so a tag goes straight out.
    const acts = () => {
      lines.length = 0;
      const did = robot.decide();
      if (did) {
        floor.now = floor.robotAtS;
        robot.onTimer();
      }
      return did ? lines.filter((line) => /pick |place /.test(line)) : 'waits';
    };
    // 2 s to the tags, 1 s to pick, 2 s to the box.
    expect(acts()).toEqual(['2 pick tags', '5 place box']);
    expect([floor.changed, robot.idle]).toEqual([true, true]);
    expect(acts()).toBe('waits');
    expect(floor.changed).toBe(false);
    // The washer has finished: a raw part is fetched, and the one from the mill kept in hand.
    put(floor, 1, 2, FINISHED);
    expect(acts()).toEqual(['8 pick rack', '10 pick mill', '11 place mill']);
    expect([robot.partsInHand(), robot.waitText()]).toEqual([
      1,
      'The robot holds a cap and waits for room at wash.',
    ]);
    // Into the washer in exchange, and out.
    expect(acts()).toEqual(['13 pick wash', '14 place wash']);
    expect(robot.waitText()).toBe('The robot holds a cap and waits for room at good.');
    expect(acts()).toEqual(['16 place good']);
    // The outfeed is full now. The next chain: raw part to the mill, then the mill's part to the washer.
    put(floor, 0, 1, FINISHED);
    put(floor, 1, 2, FINISHED);
    expect(acts()).toBe('waits');
  });

  it('goes along while the other hand serves another machine', () => {
    const lines: string[] = [];
    const cell = cellOf({
      stations: [
        station('rack', 'infeed'),
        station('mill', 'machine'),
        station('wash', 'bench'),
        station('press', 'machine'),
        station('good', 'outfeed'),
        station('box', 'outfeed'),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['rack']),
            step(2, ['mill'], { cycleS: 30 }),
            step(3, ['wash'], { cycleS: 10 }),
            step(4, ['good', 'box']),
          ],
        },
        {
          part: 'hub',
          steps: [
            step(1, ['rack']),
            step(2, ['press'], { cycleS: 30, unloadS: 3 }),
            step(3, ['box'], { loadS: 2 }),
          ],
        },
      ],
      robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 2 },
      travel: [{ from: 'mill', to: 'press', emptyS: 5, loadedS: 7 }],
    });
    const floor = bareFloor(cell, { trace: (t, what, at, part) => lines.push(`${t} ${what} ${at} ${part}`) });
    const robot = new DispatchRobot(floor, 'first');
    const acts = () => {
      lines.length = 0;
      robot.decide();
      floor.now = floor.robotAtS;
      robot.onTimer();
      return lines;
    };
    put(floor, 0, 1, FINISHED);
    put(floor, 1, 2, FINISHED);
    put(floor, 2, 5, PROCESSING);
    // Two seconds on the way to the mill, a second to turn there.
    expect(acts().filter((line) => /pick |place /.test(line))).toEqual([
      '0 pick rack cap',
      '2 pick mill cap',
      '3 place mill cap',
    ]);
    put(floor, 1, 2, PROCESSING);
    put(floor, 2, 5, FINISHED);
    expect(acts()).toEqual([
      '3 leave mill cap',
      '10 arrive press cap',
      '10 pick press hub',
      '13 picked press hub',
      '13 leave press hub',
      '15 arrive box hub',
      '15 place box hub',
      '17 placed box hub',
    ]);
    expect([robot.partsInHand(), floor.good[1]]).toEqual([1, 1]);
    // Two ways with a part and the turn; all else is handling.
    expect([...robot.clock.time]).toEqual([0, 2 + 7 + 2, 1 + 3 + 2, 0, 0]);
    put(floor, 1, 2, FINISHED);
    expect(acts().filter((line) => /pick |place /.test(line))).toEqual([
      '19 pick wash cap',
      '20 place wash cap',
    ]);
    expect(robot.waitText()).toBe('The robot holds a cap and waits for room at good or box.');
  });

  it('is told apart by where it stands, what it holds and what it does', () => {
    const floor = bareFloor(washLine, { operators: 0 });
    const robot = new DispatchRobot(floor, 'first');
    const values = () => {
      const found: number[] = [];
      robot.signature((value) => found.push(value));
      // At the end the turns of steps that only one part in n makes: none of six operations.
      expect(found.slice(-6)).toEqual([0, 0, 0, 0, 0, 0]);
      return found.slice(0, -6);
    };
    const [MILL, WASH] = [1, 2];
    // The empty mill calls. The robot stands at the rack as if it had come there: there is nothing to turn.
    expect(values()).toEqual([-1, -1, 0, -1, -1, -1, -1, -1, -1, -1, 0]);
    robot.decide();
    // Picks operation 0 at choice 0, places operation 1 in slot 0.
    expect(values()).toEqual([MILL, -1, 0, 0, 0, -1, 0, 1, 0, -1, 0]);
    floor.now = floor.robotAtS;
    robot.onTimer();
    put(floor, 0, 1, FINISHED);
    robot.decide();
    expect(values()).toEqual([MILL, -1, 0, 4, 0, -1, 0, 1, 0, -1, 0]);
    floor.now = floor.robotAtS;
    robot.onTimer();
    // The cap in hand goes to the washer.
    expect(values()).toEqual([MILL, 2, 0, -1, -1, -1, -1, -1, -1, -1]);
    robot.decide();
    expect(values()).toEqual([WASH, 2, 0, 0, -1, -1, -1, 2, 1, -1]);
  });

  it('a station knows of the part that comes to it', () => {
    const floor = bareFloor(washLine, { operators: 0 });
    const robot = new DispatchRobot(floor, 'first');
    expect(floor.coming[1]).toBe(0);
    robot.decide();
    expect([floor.coming[1], robot.idle, robot.resting]).toEqual([1, false, false]);
    floor.now = floor.robotAtS;
    robot.onTimer();
    expect([floor.coming[1], floor.robotAtS, robot.periodS()]).toEqual([
      0,
      Number.POSITIVE_INFINITY,
      Number.NaN,
    ]);
  });
});
