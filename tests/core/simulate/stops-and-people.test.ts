/** Stops, racks, operators, calendars, waits and locks, one by one on cells small enough to reckon by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { deadlockText } from '../../../src/core/floor/deadlock-text.js';
import { DispatchRobot } from '../../../src/core/floor/dispatch/dispatch-robot.js';
import { type ReplicationSetup, runReplication } from '../../../src/core/floor/floor-run.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { ShopFloor } from '../../../src/core/floor/shop-floor.js';
import {
  DOWN_WAITING,
  FINISHED,
  PROCESSING,
  SLOT_STATES,
  STOP_WAITING,
  STOP_WORK,
} from '../../../src/core/floor/slot-state.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { cellOf, likeMachines, line, ROBOT, station, step } from './cells.js';

const SETUP: ReplicationSetup = {
  program: 'first',
  plan: null,
  calendar: null,
  operators: 1,
  seed: 1,
  warmupS: 0,
  shiftsS: [36_000],
};

function run(cell: Cell, more: Partial<ReplicationSetup> = {}) {
  const compiled = compileCell(cell);
  const result = runReplication(compiled, { ...SETUP, ...more }, 0);
  const stateS = (name: string, state: number): number =>
    result.stationS[compiled.stationNames.indexOf(name) * SLOT_STATES + state]!;
  return { ...result, stateS };
}

describe('cycles', () => {
  it('one machine: the round of unload, load, cycle', () => {
    // Cycle 88, close 3, ready 2, load 5, two seconds of travel each way between three places: period by hand.
    const cell = line([88]);
    const timed: Cell = {
      ...cell,
      stations: cell.stations.map((s) => (s.name === 'm1' ? { ...s, closeS: 3, readyS: 2 } : s)),
    };
    // After the finish: travel in ... robot stands at m1 (loaded last): pick 2, carry 3, place 2, back 3, pick 2,
    // carry 3, place 2 = 17; then 3 + 88 + 2.
    expect(run(timed, { warmupS: 1000, shiftsS: [110 * 100] }).good).toEqual([100]);
    expect(run(timed, { warmupS: 1000, shiftsS: [110 * 100] }).stateS('m1', PROCESSING)).toBeCloseTo(8800, 6);
  });

  it('two hands swap at the machine', () => {
    const cell: Cell = { ...line([88]), robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 3 } };
    // From the outfeed: to infeed 3, pick 2, carry 3, pick 2, index 1, place 2 = 13 after the finish; cycle 88.
    expect(run(cell, { warmupS: 1000, shiftsS: [101 * 100] }).good).toEqual([100]);
  });

  it('a held step takes robot time, an occasional step comes up once in n', () => {
    const cell = cellOf({
      stations: [
        station('in', 'infeed'),
        station('m', 'machine'),
        station('brush', 'held'),
        station('gauge', 'bench'),
        station('out', 'outfeed'),
      ],
      routes: [
        {
          part: 'p',
          steps: [
            step(1, ['in']),
            step(2, ['m'], { cycleS: 10 }),
            step(3, ['brush'], { cycleS: 20, loadS: 1, unloadS: 2 }),
            step(4, ['gauge'], { cycleS: 5, everyParts: 4 }),
            step(5, ['out']),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 1 },
    });
    const r = run(cell, { warmupS: 500, shiftsS: [72_000] });
    const parts = r.good[0]!;
    expect(r.robotS[3]! / parts).toBeCloseTo(20, 1);
    expect(r.stateS('gauge', PROCESSING) / parts).toBeCloseTo(5 / 4, 1);
  });

  it.each(['first', 'nearest', 'longest'] as const)('two hands, %s: each part is held once', (program) => {
    const cell = cellOf({
      stations: [
        station('in', 'infeed'),
        station('m', 'machine'),
        station('brush', 'held'),
        station('out', 'outfeed'),
      ],
      routes: [
        {
          part: 'p',
          steps: [
            step(1, ['in']),
            step(2, ['m'], { cycleS: 10 }),
            step(3, ['brush'], { cycleS: 20, loadS: 1, unloadS: 2 }),
            step(4, ['out']),
          ],
        },
      ],
      robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 1 },
    });
    const r = run(cell, { program, warmupS: 500, shiftsS: [72_000] });
    expect(r.robotS[3]! / r.good[0]!).toBeCloseTo(20, 1);
  });

  it('a fixture starts when it is full and both parts leave', () => {
    const cell = likeMachines(1, 100, 10);
    const pairs: Cell = {
      ...cell,
      routes: cell.routes.map((route) => ({
        ...route,
        steps: route.steps.map((s) => (s.step === 2 ? { ...s, partsPerCycle: 2 } : s)),
      })),
    };
    // Two loads of 10, then 100: two parts in 120 s.
    expect(run(pairs, { warmupS: 1200, shiftsS: [12_000] }).good).toEqual([200]);
  });

  it('parts that wait too long are counted', () => {
    const cell = line([10, 100]);
    const bounded: Cell = {
      ...cell,
      routes: cell.routes.map((route) => ({
        ...route,
        steps: route.steps.map((s) => (s.step === 2 ? { ...s, maxWaitS: 30 } : s)),
      })),
    };
    const r = run(bounded);
    expect(r.overstays[1]!).toBeGreaterThan(200);
    expect(run(cell).overstays).toEqual([0, 0, 0, 0]);
  });

  it('parts in a ratio are started in that ratio', () => {
    const cell: Cell = {
      ...likeMachines(2, 60, 5),
      routes: [
        {
          part: 'a',
          steps: [step(1, ['in']), step(2, ['mill_1', 'mill_2'], { cycleS: 60, loadS: 5 }), step(3, ['out'])],
        },
        {
          part: 'b',
          steps: [step(1, ['in']), step(2, ['mill_1', 'mill_2'], { cycleS: 90, loadS: 5 }), step(3, ['out'])],
        },
      ],
      parts: [
        { part: 'a', contribution: null, perShift: null, ratio: 3, yieldPct: 100 },
        { part: 'b', contribution: null, perShift: null, ratio: 1, yieldPct: 100 },
      ],
    };
    const [a, b] = run(cell).good as [number, number];
    expect(Math.abs(a / b - 3)).toBeLessThan(0.05);
  });
});

describe('planned stops', () => {
  const stop = { station: 'mill_1', name: 'tool', everyParts: 10, everyH: null, minutes: 5, operator: false };

  it('come after so many parts and take their minutes', () => {
    // Ten parts of 100 + 20, then 300 s.
    const r = run(likeMachines(1, 100, 20, { stops: [stop] }), { shiftsS: [15_000 * 4] });
    expect(r.good[0]!).toBeGreaterThanOrEqual(399);
    expect(r.good[0]!).toBeLessThanOrEqual(400);
    expect(r.stateS('mill_1', STOP_WORK)).toBeCloseTo(40 * 300, 6);
  });

  it('that need an operator wait until one is there', () => {
    const calendar = openCalendar([
      { startS: 0, endS: 3600, attended: true },
      { startS: 3600, endS: 36_000, attended: false },
    ]);
    const r = run(likeMachines(1, 100, 20, { stops: [{ ...stop, operator: true }] }), { calendar });
    expect(r.stateS('mill_1', STOP_WAITING)).toBeGreaterThan(30_000);
    expect(r.good[0]!).toBeLessThan(40);
  });

  it('by hours come by the clock', () => {
    const hourly = { ...stop, everyParts: null, everyH: 1, minutes: 6 };
    const r = run(likeMachines(1, 100, 20, { stops: [hourly] }), { shiftsS: [3600 * 20] });
    expect(r.stateS('mill_1', STOP_WORK) / 360).toBeGreaterThan(16);
    expect(r.stateS('mill_1', STOP_WORK) / 360).toBeLessThan(19);
  });
});

describe('racks', () => {
  it('run down when nobody is there to fill them, and are full when the operators leave', () => {
    const cell = likeMachines(1, 100, 20);
    const racked: Cell = {
      ...cell,
      stations: cell.stations.map((s) => (s.name === 'in' ? { ...s, capacityParts: 25 } : s)),
    };
    const calendar = openCalendar([
      { startS: 0, endS: 12_000, attended: true },
      { startS: 12_000, endS: 36_000, attended: false },
    ]);
    // 100 parts while attended, then what is in the rack and in the machine.
    const good = run(racked, { calendar }).good[0]!;
    expect(good).toBeGreaterThanOrEqual(100 + 24);
    expect(good).toBeLessThanOrEqual(100 + 26);
  });

  it('an outfeed that is full and never cleared stops the cell, and says so', () => {
    const cell = likeMachines(1, 100, 20);
    const full: Cell = {
      ...cell,
      stations: cell.stations.map((s) => (s.name === 'out' ? { ...s, capacityParts: 5 } : s)),
    };
    const r = run(full, { operators: 0 });
    expect(r.good).toEqual([5]);
    expect(r.deadlock).toBe(
      'mill_1 holds a finished cap that waits for room at out. out is full and waits for an operator. ' +
        'The robot has empty hands and no call that it can serve.',
    );
  });

  it('an infeed with a pace of its own sets the pace', () => {
    const cell = likeMachines(2, 10, 1);
    const paced: Cell = {
      ...cell,
      routes: cell.routes.map((route) => ({
        ...route,
        steps: route.steps.map((s) => (s.step === 1 ? { ...s, cycleS: 50 } : s)),
      })),
    };
    expect(Math.abs(run(paced).good[0]! - 36_000 / 50)).toBeLessThanOrEqual(2);
  });
});

describe('random stops', () => {
  const stops: Cell = {
    ...likeMachines(2, 100, 10),
    stations: [
      station('in', 'infeed'),
      station('mill_1', 'machine', { mtbfH: 1, mttrMin: 6 }),
      station('mill_2', 'machine', { mtbfH: 1, mttrMin: 6 }),
      station('out', 'outfeed'),
    ],
  };

  it('come by processing time', () => {
    const r = run(stops, { shiftsS: [3_600_000] });
    const rate = r.randomStops[1]! / (r.stateS('mill_1', PROCESSING) / 3600);
    expect(Math.abs(rate - 1)).toBeLessThan(4 / Math.sqrt(r.randomStops[1]!));
  });

  it('an operator who is slow to come costs waiting', () => {
    const slow: Cell = {
      ...stops,
      variation: [{ station: '*', element: 'response', distribution: 'constant', parameters: [10] }],
    };
    const r = run(slow, { shiftsS: [3_600_000] });
    const waited = r.stateS('mill_1', DOWN_WAITING) / r.randomStops[1]!;
    expect(waited).toBeGreaterThan(600);
    expect(run(slow, { shiftsS: [3_600_000] }).good[0]!).toBeLessThan(
      run(stops, { shiftsS: [3_600_000] }).good[0]!,
    );
  });

  it('meet the same luck in another cell under one seed', () => {
    const longer: Cell = { ...stops, robot: { ...ROBOT, travelS: 2 } };
    const times = (cell: Cell): number[] => {
      const found: number[] = [];
      let processed = 0;
      let startedAt = 0;
      runReplication(
        compileCell(cell),
        {
          ...SETUP,
          trace: (timeS, what, at) => {
            if (at !== 'mill_1') return;
            if (what === 'start' || what === 'run') startedAt = timeS;
            if (what === 'stop' || what === 'finish') processed += timeS - startedAt;
            if (what === 'stop') found.push(processed);
          },
        },
        0,
      );
      return found;
    };
    const a = times(stops);
    const b = times(longer);
    const common = Math.min(a.length, b.length);
    expect(common).toBeGreaterThan(3);
    for (let i = 0; i < common; i++) expect(b[i]!).toBeCloseTo(a[i]!, 6);
  });
});

describe('locks', () => {
  /** Two parts that cross: a over m1 then m2, b over m2 then m1. */
  const crossing: Cell = cellOf({
    stations: [
      station('in', 'infeed'),
      station('m1', 'machine'),
      station('m2', 'machine'),
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'a',
        steps: [
          step(1, ['in']),
          step(2, ['m1'], { cycleS: 40 }),
          step(3, ['m2'], { cycleS: 40 }),
          step(4, ['out']),
        ],
      },
      {
        part: 'b',
        steps: [
          step(1, ['in']),
          step(2, ['m2'], { cycleS: 40 }),
          step(3, ['m1'], { cycleS: 40 }),
          step(4, ['out']),
        ],
      },
    ],
    robot: { ...ROBOT, travelS: 1 },
  });

  it('are kept out of a crossing with one hand, and do not arise with two', () => {
    for (const hands of [1, 2] as const)
      for (const program of ['first', 'nearest', 'longest'] as const) {
        const r = run({ ...crossing, robot: { ...crossing.robot, hands } }, { program });
        expect(r.deadlock).toBeNull();
        expect(r.good[0]! + r.good[1]!).toBeGreaterThan(300);
      }
  });

  it('are told as a ring of waits', () => {
    const compiled = compileCell(crossing);
    const floor = new ShopFloor(compiled, {
      calendar: null,
      operators: 1,
      seed: 1,
      replication: 0,
      trace: null,
      chance: true,
      causes: false,
      changeovers: [],
    });
    floor.load(0, 1, 0);
    floor.load(1, 5, 0);
    for (let i = 0; i < 2; i++) {
      floor.now = floor.clock.times[floor.clock.first]!;
      floor.onTimer(floor.clock.first);
    }
    expect([...floor.slotState]).toEqual([FINISHED, FINISHED]);
    expect(deadlockText(floor, new DispatchRobot(floor, 'first'))).toBe(
      'A ring of waits: m1 holds a finished a that waits for room at m2. m2 holds a finished b that waits for room at m1. ' +
        'The robot has empty hands and no call that it can serve.',
    );
  });

  it('a part that takes no time at all is refused', () => {
    expect(() => compileCell(likeMachines(1, 0, 0))).toThrow(
      'part cap takes no time at all: give a cycle, load, unload or travel time',
    );
  });
});
