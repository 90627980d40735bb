// What an order yields, added up by hand: its least and longest period, times, links, and why it cannot repeat.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import {
  evaluateOrder,
  foundOrder,
  timeOrder,
} from '../../../../src/core/schedule/evaluate/evaluate-order.js';
import { buildPlan, type Plan } from '../../../../src/core/schedule/plan/plan.js';
import { emptyCell, station, step } from '../../../support/line-cell.js';
import { capAndLid, millPlan as mill } from '../../../support/mill-cell.js';

/** A part for each of two machines that work for 4 s, with the longest waits of both. */
const twoMachines = (latheWaitS: number | null, millWaitS: number, millPlaces = 1): Plan => {
  const cell: Cell = {
    ...emptyCell,
    robot: { ...emptyCell.robot, travelS: 1 },
    stations: [
      station('in', 'infeed'),
      station('lathe', 'machine'),
      station('mill', 'machine', { capacityParts: millPlaces }),
      station('out', 'outfeed'),
    ],
    travel: [],
    routes: ['lathe', 'mill'].map((at) => ({
      part: `by ${at}`,
      steps: [
        step(1, 'in', { unloadS: 1 }),
        step(2, at, { loadS: 1, unloadS: 1, cycleS: 4, maxWaitS: at === 'mill' ? millWaitS : latheWaitS }),
        step(3, 'out', { loadS: 1 }),
      ],
    })),
  };
  const path = (route: number) => ({
    route,
    stops: cell.routes[route]!.steps.map((s) => ({ step: s, station: s.stations[0]! })),
    count: 1,
  });
  return buildPlan(cell, [path(0), path(1)]);
};
/** Load the mill, then the lathe is emptied and loaded while the mill works, then the mill is emptied. */
const ACROSS = [4, 5, 2, 3, 0, 1, 6, 7];

/** An order that can repeat. */
function found(plan: Plan, order: readonly number[]) {
  const result = evaluateOrder(plan, order);
  if (!result.feasible) throw new Error(`impossible: ${result.reason}`);
  return result;
}

/** Its times, whatever is behind the eleventh digit. */
const near = (times: readonly number[]) => times.map((timeS) => expect.closeTo(timeS, 9));

describe('an order that can repeat', () => {
  it('waits beside the mill', () => {
    const order = [0, 1, 2, 3];
    const result = found(mill(), order);
    expect(result).toMatchObject({ order, periodS: 11, longestPeriodS: Number.POSITIVE_INFINITY });
    expect(result.startS).toEqual([0, 2, 7, 9]);
    expect(result.inHand).toEqual([1, 0, 1, 0]);
    expect(result.criticalCircuit.map((a) => result.arcs[a]!.kind).sort()).toEqual([
      'process',
      'robot',
      'robot',
      'robot',
    ]);
    expect(result.links).toEqual([
      { pick: 2, place: 1, lag: 0, node: 1, lastOfBatch: true },
      { pick: 1, place: 0, lag: 0, node: 3, lastOfBatch: true },
      { pick: 3, place: 2, lag: 0, node: 4, lastOfBatch: true },
    ]);
  });

  it('brings out the part of the period before', () => {
    const result = found(mill(), [2, 3, 0, 1]);
    expect(result.periodS).toBe(11);
    expect(result.startS).toEqual([0, 2, 4, 6]);
    expect(result.links).toContainEqual({ pick: 0, place: 3, lag: 1, node: 1, lastOfBatch: true });
    const robot = (from: number, travelS: number) => ({
      ...{ kind: 'robot', from, to: (from + 1) % 4, weightS: 1 + travelS, robotS: 1, travelS },
      ...{ periods: from === 3 ? 1 : 0, node: -1 },
    });
    const process = {
      kind: 'process',
      from: 3,
      to: 0,
      weightS: 5,
      robotS: 0,
      travelS: 0,
      periods: 1,
      node: 1,
    };
    expect(result.arcs).toEqual([robot(0, 1), robot(1, 1), robot(2, 1), robot(3, 0), process]);
  });

  it('has a longest period where two longest waits lie across its end', () => {
    // From pick to place at the lathe -10 s and a period back, 2 s to the mill's pick, -13 s back to its place, 2 s on.
    const result = found(twoMachines(5, 8), ACROSS);
    expect(result.periodS).toBe(16);
    expect(result.longestPeriodS).toBe(19);
    expect(result.startS).toEqual([0, 2, 4, 6, 8, 10, 12, 14]);
    expect(found(twoMachines(5, 5), ACROSS).longestPeriodS).toBe(16);
    expect(found(twoMachines(null, 8), ACROSS).longestPeriodS).toBe(Number.POSITIVE_INFINITY);
  });

  it('starts each event as early as it can when the first starts at 0', () => {
    // The cut of 20 s goes on while the robot fetches the next part: 23 s from place to pick over two period ends.
    const plan = mill({ machine: { capacityParts: 3 }, work: { cycleS: 20 } });
    const result = found(plan, [0, 1, 2, 3]);
    const periodS = 29 / 3;
    expect(result.periodS).toBeCloseTo(periodS, 9);
    expect(result.startS).toEqual(near([0, 2, 25 - 2 * periodS, 27 - 2 * periodS]));
  });

  it('of all contents at the start takes the one with the least period', () => {
    const plan = mill({ machine: { capacityParts: 3 }, work: { cycleS: 20, maxWaitS: 0 } });
    const result = found(plan, [0, 1, 2, 3]);
    expect(result.periodS).toBeCloseTo(29 / 3, 9);
    expect(result.links[0]).toMatchObject({ lag: 2 });
    const alike = found(mill({ machine: { capacityParts: 2 }, work: { maxWaitS: 2.5 } }), [0, 1, 2, 3]);
    expect([alike.periodS, alike.links[0]!.lag]).toEqual([11, 0]);
    // Three places for caps of 50 s and lids of 20 s, 13 s from pick to place: two more lids (51 + 13), one more of each
    // (51 + 13) / 2, two more caps (21 + 13).
    const shared = capAndLid({ machine: { capacityParts: 3 }, work: [{ cycleS: 50 }, { cycleS: 20 }] });
    expect(found(shared, [0, 1, 2, 3, 4, 5, 6, 7]).periodS).toBe(32);
  });

  it('of contents with the same period takes the first, with fewest inside', () => {
    // Placed at 2 and picked at 3, or 7 s later with one more inside, after 7 s of a longest wait of 10 s.
    const work = { cycleS: 0, maxWaitS: 10 };
    const result = found(mill({ machine: { capacityParts: 2, closeS: 0, readyS: 0 }, work }), [0, 1, 2, 3]);
    expect([result.periodS, result.links[0]!.lag]).toEqual([7, 0]);
  });

  it('waits with each part of a pair for both, the last of which starts the mill', () => {
    // In at 1, out at 2 and 4, in at 7, by their places in the order: one waits over the end of the period for its mate.
    const plan = mill({ machine: { capacityParts: 2 }, work: { partsPerCycle: 2 } }, 2);
    const result = found(plan, [0, 1, 2, 3, 2, 3, 0, 1]);
    expect(result.links.filter(({ node }) => node === 1)).toEqual([
      { pick: 4, place: 7, lag: 1, node: 1, lastOfBatch: false },
      { pick: 4, place: 1, lag: 0, node: 1, lastOfBatch: true },
      { pick: 2, place: 7, lag: 1, node: 1, lastOfBatch: false },
      { pick: 2, place: 1, lag: 0, node: 1, lastOfBatch: true },
    ]);
    // Placed from 2 to 3, cut until 7; from then on every pick, way, place and way takes 1 s, the last way until 19.
    expect(result.startS).toEqual([0, 2, 7, 9, 11, 13, 15, 17]);
    expect(result.periodS).toBe(19);
  });

  it('is timed the same without what else is worked out', () => {
    for (const order of [
      [0, 1, 2, 3],
      [2, 3, 0, 1],
    ])
      expect(timeOrder(mill(), order)).toEqual({ order, periodS: 11 });
    // Nothing is longer than the robot's own circle.
    expect(timeOrder(twoMachines(5, 8), ACROSS)).toEqual({ order: ACROSS, periodS: 16 });
    expect(foundOrder(mill(), { order: [0, 1, 2, 3], periodS: 11 })).toEqual(found(mill(), [0, 1, 2, 3]));
  });
});

describe('an order that cannot repeat', () => {
  it('has more parts in hand than hands', () => {
    const order = [0, 2, 1, 3];
    expect(evaluateOrder(mill(), order)).toEqual({
      feasible: false,
      reason: 'capacity',
      arcs: [],
      contradiction: [],
    });
    expect(timeOrder(mill(), order)).toBeNull();
    expect(() => foundOrder(mill(), { order, periodS: 7 })).toThrow('an order that was timed cannot repeat');
  });

  it('breaks its longest waits: the circuits that say so together', () => {
    // 15 s at most by the two longest waits, 16 s at least by the robot's way round.
    const result = evaluateOrder(twoMachines(1, 8), ACROSS);
    expect(result).toMatchObject({ feasible: false, reason: 'waits' });
    expect(kindsOf(result)).toEqual([
      ['longest wait', 'longest wait', 'robot', 'robot'],
      Array(8).fill('robot'),
    ]);
    expect(timeOrder(twoMachines(1, 8), ACROSS)).toBeNull();
  });

  it('stays away from the lathe for 10 s of the 16 s, and 9 s are allowed', () => {
    const result = evaluateOrder(twoMachines(4, 8), ACROSS);
    expect(result).toMatchObject({ feasible: false, reason: 'waits' });
    if (result.feasible) return;
    const arcs = result.contradiction.flat().map((a) => result.arcs[a]!);
    expect(arcs.map(({ kind }) => kind).sort()).toEqual(['longest wait', ...Array(5).fill('robot')]);
    expect(arcs.reduce((sum, { weightS }) => sum + weightS, 0)).toBe(1);
    expect(arcs.reduce((sum, { periods }) => sum + periods, 0)).toBe(0);
  });

  it('with nothing but contents that cannot be, tells why one of them cannot', () => {
    // A pick after each place: the first would have to wait for the second place.
    const plan = mill({ work: { partsPerCycle: 2 } }, 2);
    const result = evaluateOrder(plan, [0, 1, 2, 3, 0, 1, 2, 3]);
    expect(result).toMatchObject({ feasible: false, reason: 'waits' });
    expect(kindsOf(result)).toEqual([['process', 'robot', 'robot', 'robot']]);
  });

  it('of several contents at the start tells what names a longest wait, in as few steps as one of them needs', () => {
    // The second of a fixture is picked 4 s after the first one, with a longest wait of 0.
    const fixture = (capacityParts: number) =>
      mill({ machine: { capacityParts }, work: { partsPerCycle: 2, maxWaitS: 0 } }, 2);
    const why = [['longest wait', 'process', 'robot', 'robot']];
    // First with both finished ones inside, then with one of them still waiting for the next, which cannot be.
    expect(kindsOf(evaluateOrder(fixture(2), [2, 3, 2, 3, 0, 1, 0, 1]))).toEqual(why);
    // First with one inside, which would have to wait for a later place; with two the longest wait speaks.
    expect(kindsOf(evaluateOrder(fixture(2), [2, 3, 0, 1, 2, 3, 0, 1]))).toEqual([
      ['longest wait', 'process', ...Array(4).fill('robot')],
    ]);
    // First with none inside, later with more, which breaks other rules as well.
    expect(kindsOf(evaluateOrder(fixture(4), [0, 1, 0, 1, 2, 3, 2, 3]))).toEqual(why);
  });

  it('tells the reason of another content where that is shorter', () => {
    // With one in the mill 15 s at most and 16 s at least, by 4 and 8 arcs as above. With two in it, from pick to place
    // -13 s and a period back, then 10 s by the robot to the pick: 3 s at most; at least 11 s by the lathe's 5 and 6 s.
    expect(kindsOf(evaluateOrder(twoMachines(1, 8, 2), ACROSS))).toEqual([
      ['longest wait', ...Array(5).fill('robot')],
      ['process', 'robot', 'robot', 'robot'],
    ]);
  });
});

/** The kinds of arcs of each circuit of a contradiction. */
function kindsOf(result: ReturnType<typeof evaluateOrder>): string[][] {
  if (result.feasible) throw new Error('it cannot repeat');
  return result.contradiction.map((circuit) => circuit.map((a) => result.arcs[a]!.kind).sort());
}
