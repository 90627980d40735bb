/** What a run of the floor counts, by hand: one mill without ways, a part every 30 s, the first one out at 30. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { type FloorJob, floorSetup, withoutChance } from '../../../src/core/floor/floor-job.js';
import { FloorRun, type ReplicationSetup, runReplication } from '../../../src/core/floor/floor-run.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { EMPTY, HANDLED, PROCESSING, SLOT_STATES } from '../../../src/core/floor/slot-state.js';
import { ROBOT_BUSY, WAIT_CAUSES } from '../../../src/core/floor/waits.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

/** 1 s to fetch, 2 to place, 20 of work, 3 to pick, 4 to put out. */
function shop(more: Partial<Cell> = {}): Cell {
  return cellOf({
    stations: [
      station('rack', 'infeed'),
      station('saw', 'machine'),
      station('mill', 'machine'),
      station('good', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['rack'], { unloadS: 1 }),
          step(2, ['mill'], { cycleS: 20, loadS: 2, unloadS: 3 }),
          step(3, ['good'], { loadS: 4 }),
        ],
      },
    ],
    robot: ROBOT,
    ...more,
  });
}
const [MILL] = [2];

const SETUP: ReplicationSetup = {
  ...{ program: 'first', plan: null, calendar: null, operators: 1, seed: 1, chance: false },
  ...{ warmupS: 30, shiftsS: [60, 30] },
};
const run = (cell: Cell, more: Partial<ReplicationSetup> = {}) =>
  runReplication(compileCell(cell), { ...SETUP, ...more }, 4);

describe('a warm-up of 30 s and shifts of 60 and 30', () => {
  it('counts what comes out in each shift, and nothing from before', () => {
    const { replication, countedS, deadlock, goodByShift, good, scrap, late, started, ...rest } = run(shop());
    expect({ replication, countedS, deadlock, goodByShift, good, scrap, late, started }).toEqual({
      ...{
        replication: 4,
        countedS: 90,
        deadlock: null,
        goodByShift: [2, 1],
        good: [3],
        scrap: [0],
        late: [0],
        started: [3],
      },
    });
    // At 30 and at 120 the mill has just been emptied.
    expect([rest.insideAtStart, rest.insideAtEnd, rest.periodS, rest.operatorBusyS]).toEqual([0, 0, null, 0]);
    // A finish and a load in each of four rounds, the warm-up's included.
    expect(rest.events).toBe(8);
  });

  it('counts the seconds of each station and of the robot', () => {
    const { stationS, robotS, waitS } = run(shop(), { causes: true });
    const ofMill = (state: number) => stationS[MILL * SLOT_STATES + state];
    // Empty 30 to 31, 56 to 61, 86 to 91 and 116 to 120.
    expect([ofMill(EMPTY), ofMill(HANDLED), ofMill(PROCESSING)]).toEqual([15, 15, 60]);
    expect(robotS).toEqual([0, 0, 30, 0, 60]);
    expect([waitS[MILL * WAIT_CAUSES + ROBOT_BUSY], waitS.length]).toEqual([15, 4 * WAIT_CAUSES]);
    // The saw has nothing to do.
    expect(stationS[SLOT_STATES + EMPTY]).toBe(90);
    expect(run(shop()).waitS).toEqual([]);
  });

  it('adds up the places of one station', () => {
    const two = shop({
      stations: shop().stations.map((s) => (s.name === 'mill' ? { ...s, capacityParts: 2 } : s)),
    });
    const { stationS } = run(two);
    expect(
      Array.from({ length: SLOT_STATES }, (_, state) => stationS[MILL * SLOT_STATES + state]).reduce(
        (a, b) => a + b,
      ),
    ).toBe(180);
  });

  it('has parts inside at its ends', () => {
    expect([run(shop(), { warmupS: 40 }).insideAtStart, run(shop(), { shiftsS: [70] }).insideAtEnd]).toEqual([
      1, 1,
    ]);
    // Without a warm-up nothing is inside at the start, and the first part counts.
    const whole = run(shop(), { warmupS: 0, shiftsS: [30] });
    expect([whole.insideAtStart, whole.good, whole.events]).toEqual([0, [1], 2]);
  });

  it('are open hours', () => {
    // Open for 50 of each 100 s: 120 open seconds are over at 220, and 70 machine seconds more go by while it is shut.
    const calendar = openCalendar([{ startS: 0, endS: 50, attended: true, operators: 1, weekS: 100 }]);
    const floor = new FloorRun(compileCell(shop()), { ...SETUP, calendar }, 0);
    expect([floor.momentOf(120), floor.momentOf(50), floor.momentOf(51)]).toEqual([220, 50, 101]);
    expect(new FloorRun(compileCell(shop()), SETUP, 0).momentOf(120)).toBe(120);
    expect(run(shop(), { calendar }).robotS.reduce((a, b) => a + b)).toBe(90);
  });

  it('end where the cell stands for ever, which is told in words', () => {
    const full = shop({
      stations: shop().stations.map((s) => (s.name === 'good' ? { ...s, capacityParts: 2 } : s)),
    });
    const stands = run(full, { operators: 0 });
    expect(stands.goodByShift).toEqual([1, 0]);
    expect(stands.deadlock).toContain('good is full and waits for an operator.');
    expect(run(full, { operators: 1 }).deadlock).toBeNull();
    expect(stands.robotS.reduce((a, b) => a + b)).toBe(90);
  });
});

describe('a job', () => {
  const job = (more: Partial<FloorJob> = {}): FloorJob => ({
    ...{
      cell: shop(),
      program: 'first',
      order: null,
      openSpans: null,
      operators: 3,
      seed: 5,
      changeovers: null,
      runsOut: true,
    },
    ...more,
  });

  it('is made ready to run', () => {
    const { compiled, setup } = floorSetup(job());
    expect(compiled.stationNames[MILL]).toBe('mill');
    expect(setup).toEqual({
      program: 'first',
      operators: 3,
      seed: 5,
      runsOut: true,
      plan: null,
      calendar: null,
    });
    const slow = shop({ robot: { ...ROBOT, travelS: 0, attendedSpeedPct: 50 } });
    const { calendar } = floorSetup(
      job({ cell: slow, openSpans: [{ startS: 0, endS: 50, attended: true }] }),
    ).setup;
    expect(calendar!.clock.travelEnd(0, 5)).toBe(10);
  });

  it('needs a schedule to follow a sequence', () => {
    expect(() => floorSetup(job({ program: 'order' }))).toThrow(
      'to follow a sequence, the floor needs a schedule',
    );
    expect(() => floorSetup(job({ program: 'strict' }))).toThrow('needs a schedule');
    expect(() => new FloorRun(compileCell(shop()), { ...SETUP, program: 'strict' }, 0)).toThrow(
      'needs a schedule',
    );
  });

  it('without chance has constant times and no random stops', () => {
    const risky = shop({
      stations: shop().stations.map((s) => (s.name === 'mill' ? { ...s, mtbfH: 3, mttrMin: 4 } : s)),
      variation: [{ station: '*', element: 'cycle', distribution: 'exponential', parameters: [5] }],
    });
    expect(withoutChance(risky)).toEqual({ ...shop(), variation: [] });
  });
});
