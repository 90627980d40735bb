// How long finished parts wait and what the robot does meanwhile, on lines whose times are added up by hand.
import { describe, expect, it } from 'vitest';
import type { Cell, Station } from '../../../../src/core/model/cell.js';
import { partWaits, robotWorkS } from '../../../../src/core/schedule/evaluate/busy-waits.js';
import { evaluateOrder } from '../../../../src/core/schedule/evaluate/evaluate-order.js';
import { buildPlan, type Plan } from '../../../../src/core/schedule/plan/plan.js';
import { emptyCell, onlyPath, station, step } from '../../../support/line-cell.js';
import { millCell } from '../../../support/mill-cell.js';

interface Machine {
  readonly cycleS: number;
  readonly more?: Partial<Station>;
}

/** in, m1, m2 ..., out: every way, pick and place 1 s. Events 2i and 2i + 1: pick at place i of the line, place at i + 1. */
function line(machines: readonly Machine[]): Plan {
  const names = ['in', ...machines.map((_, i) => `m${i + 1}`), 'out'];
  const last = names.length - 1;
  const cell: Cell = {
    ...emptyCell,
    robot: { ...emptyCell.robot, travelS: 1 },
    stations: names.map((name, i) =>
      station(name, i === 0 ? 'infeed' : i === last ? 'outfeed' : 'machine', machines[i - 1]?.more),
    ),
    travel: [],
    routes: [
      {
        part: 'cap',
        steps: names.map((name, i) =>
          step(i + 1, name, {
            cycleS: machines[i - 1]?.cycleS ?? 0,
            loadS: i > 0 ? 1 : 0,
            unloadS: i < last ? 1 : 0,
          }),
        ),
      },
    ],
  };
  return buildPlan(cell, onlyPath(cell));
}

function found(plan: Plan, order: readonly number[]) {
  const result = evaluateOrder(plan, order);
  if (!result.feasible) throw new Error(`impossible: ${result.reason}`);
  return result;
}

/** By place of the plan: finished, room at the next place, picked. */
function waits(plan: Plan, order: readonly number[]) {
  const list = partWaits(plan, found(plan, order)).map(({ node, finishS, roomS, startS }) => [
    node,
    [finishS, roomS, startS],
  ]);
  return Object.fromEntries(list);
}

/** m1 4 s, m2 10 s: out of m2, then on from m1, then a new one in. 17 s by m2: pick, way, out, way, pick, way, place, cut. */
const TWO = line([{ cycleS: 4 }, { cycleS: 10 }]);
const BACKWARDS = [4, 5, 2, 3, 0, 1];

describe('a finished part', () => {
  it('is picked at once where the robot waits beside it', () => {
    const cell = millCell();
    const plan = buildPlan(cell, onlyPath(cell));
    // Placed by 3, closed, cut and opened by 7.
    expect(waits(plan, [0, 1, 2, 3])).toEqual({ 1: [7, 7, 7] });
  });

  it('waits for room at the next machine, then for the robot', () => {
    expect(found(TWO, BACKWARDS)).toMatchObject({ periodS: 17, startS: [0, 2, 4, 6, 8, 10] });
    // m1: placed by 11, done by 15 of the period before. m2: done just as the period starts, which is when it has room.
    expect(waits(TWO, BACKWARDS)).toEqual({ 1: [-2, 0, 4], 2: [0, 0, 0] });
  });

  it('waits the same wherever the period is cut', () => {
    // From m1's pick on: m2 is picked at 13, for the part of the period before that is 4 s before the start.
    expect(waits(TWO, [2, 3, 0, 1, 4, 5])).toEqual({ 1: [-6, -4, 0], 2: [13, 13, 13] });
    // From the place at m2 on, 6 s after the start above.
    expect(waits(TWO, [3, 0, 1, 4, 5, 2])).toEqual({ 1: [9, 11, 15], 2: [11, 11, 11] });
  });

  it('waits for a whole row of full machines', () => {
    // The last one sets the pace: 1 to place, 30 to work, 2 out, 2 back, then its pick and way: 37 s.
    const three = line([{ cycleS: 4 }, { cycleS: 10 }, { cycleS: 30 }]);
    const order = [6, 7, 4, 5, 2, 3, 0, 1];
    const result = found(three, order);
    expect(result).toMatchObject({ periodS: 37, startS: [0, 2, 4, 6, 8, 10, 12, 14] });
    // m2: placed by 11, done by 21; m1: placed by 15, done by 19; both in the period before.
    expect(waits(three, order)).toEqual({ 1: [-18, 0, 8], 2: [-16, 0, 4], 3: [0, 0, 0] });
  });

  it('waits for the next machine to be done, not for the robot to empty it', () => {
    // m2 is done at 8 - 17 and has had room since; the robot comes to it first all the same.
    const even = line([{ cycleS: 10 }, { cycleS: 4 }]);
    const order = BACKWARDS;
    // m1: place 1, work 10, pick at 4 of the next: 10 + 11 - 4 = 17 s. m2: placed by 7, done by 11.
    expect(found(even, order)).toMatchObject({ periodS: 17 });
    expect(waits(even, order)).toEqual({ 1: [4, 4, 4], 2: [-6, -6, 0] });
  });

  it('does not wait for room where the next machine has more than one place', () => {
    const roomy = line([{ cycleS: 4 }, { cycleS: 10, more: { capacityParts: 2 } }]);
    // Two in m2: the robot's own 12 s are the period. m2: placed by 7, two periods before the pick at 0.
    expect(found(roomy, BACKWARDS).periodS).toBe(12);
    expect(waits(roomy, BACKWARDS)).toEqual({ 1: [3, 3, 4], 2: [-7, -7, 0] });
  });

  it('of a fixture is finished when the last part of its batch is', () => {
    const cell = millCell({ machine: { capacityParts: 2 }, work: { partsPerCycle: 2 } });
    const plan = buildPlan(cell, onlyPath(cell, 2));
    const result = found(plan, [0, 1, 0, 1, 2, 3, 2, 3]);
    expect(partWaits(plan, result).map(({ finishS, roomS, startS }) => [finishS, roomS, startS])).toEqual([
      [11, 11, 11],
      [11, 11, 15],
    ]);
  });

  it('that goes to the same machine again does not wait for its own place', () => {
    const cell: Cell = {
      ...millCell(),
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, 'in', { unloadS: 1 }),
            step(2, 'mill', { loadS: 1, unloadS: 1, cycleS: 2 }),
            step(3, 'mill', { loadS: 1, unloadS: 1, cycleS: 8 }),
            step(4, 'out', { loadS: 1 }),
          ],
        },
      ],
    };
    const plan = buildPlan(cell, onlyPath(cell));
    // Placed by 3, done by 7, picked and put back by 9, done by 19, out by 22, back at 23.
    const order = [0, 1, 2, 3, 4, 5];
    expect(found(plan, order).periodS).toBe(23);
    expect(waits(plan, order)).toEqual({ 1: [7, 7, 7], 2: [19, 19, 19] });
  });

  it('in a ring of two full machines waits for both to be done', () => {
    // By two hands the parts of two machines change places.
    const cell: Cell = {
      ...emptyCell,
      robot: { ...emptyCell.robot, hands: 2, travelS: 1 },
      stations: [
        station('in', 'infeed'),
        station('m1', 'machine'),
        station('m2', 'machine'),
        station('out', 'outfeed'),
      ],
      travel: [],
      routes: [
        ['m1', 'm2'],
        ['m2', 'm1'],
      ].map((by, i) => ({
        part: `part ${i}`,
        steps: [
          step(1, 'in', { unloadS: 1 }),
          step(2, by[0]!, { loadS: 1, unloadS: 1, cycleS: i === 0 ? 20 : 40 }),
          step(3, by[1]!, { loadS: 1, unloadS: 1 }),
          step(4, 'out', { loadS: 1 }),
        ],
      })),
    };
    const path = (route: number) => ({
      route,
      stops: cell.routes[route]!.steps.map((s) => ({ step: s, station: s.stations[0]! })),
      count: 1,
    });
    const plan = buildPlan(cell, [path(0), path(1)]);
    // Events 0 to 5: part 0 in to m1, m1 to m2, m2 to out; 6 to 11: part 1 in to m2, m2 to m1, m1 to out.
    // Change places, take both out, bring both in.
    const order = [2, 8, 3, 9, 4, 5, 10, 11, 0, 1, 6, 7];
    // m2 is loaded by 22, done by 62, and picked 2 s after the start of the next period, which sets 60 s.
    expect(found(plan, order)).toMatchObject({
      periodS: 60,
      startS: [0, 2, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21],
    });
    // m1 is loaded by 18, done by 38. The second steps take no time: they are finished as they are placed.
    expect(waits(plan, order)).toEqual({ 1: [-22, 0, 0], 2: [4, 4, 7], 5: [2, 2, 2], 6: [6, 6, 11] });
  });
});

describe('the work of the robot', () => {
  it('is counted between two moments, over the ends of the periods', () => {
    // Handling and ways fill 0 to 12 of the 17 s.
    const workS = robotWorkS(TWO, found(TWO, BACKWARDS));
    expect(workS(0, 17)).toBe(12);
    expect(workS(0, 4)).toBe(4);
    expect(workS(1.5, 3.25)).toBe(1.75);
    expect(workS(11, 18)).toBe(2);
    expect(workS(-2, 0)).toBe(0);
    expect(workS(-6, 3)).toBe(4);
    expect(workS(12, 17)).toBe(0);
    expect(workS(35, 40)).toBe(5);
    expect(workS(5, 5)).toBe(0);
  });

  it('is none in a period of no length', () => {
    const idle = millCell({
      travelS: 0,
      machine: { closeS: 0, readyS: 0 },
      first: { unloadS: 0 },
      work: { loadS: 0, unloadS: 0, cycleS: 0 },
    });
    const free: Cell = {
      ...idle,
      routes: idle.routes.map((route) => ({
        ...route,
        steps: route.steps.map((s) => ({ ...s, loadS: 0 })),
      })),
    };
    const plan = buildPlan(free, onlyPath(free));
    expect(robotWorkS(plan, found(plan, [0, 1, 2, 3]))(0, 5)).toBe(0);
  });
});
