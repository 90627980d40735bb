// What an order counts and which arcs it has, each by hand: parts in hand, start contents, ways, processes and pauses.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell, Step } from '../../../../src/core/model/cell.js';
import { evaluateOrder } from '../../../../src/core/schedule/evaluate/evaluate-order.js';
import { leastOfGraph } from '../../../../src/core/schedule/evaluate/least-period.js';
import {
  ARC_KINDS,
  countOrder,
  orderGraph,
  type StartState,
} from '../../../../src/core/schedule/evaluate/order-graph.js';
import { buildPlan, type Plan } from '../../../../src/core/schedule/plan/plan.js';
import { onlyPath, station } from '../../../support/line-cell.js';
import { capAndLid, millPlan as mill, millCell } from '../../../support/mill-cell.js';
import { cases } from '../../../support/size.js';

const BESIDE = [0, 1, 2, 3];
const BEFORE = [2, 3, 0, 1];

const periodOf = (plan: Plan, order: readonly number[]): number | null => {
  const found = evaluateOrder(plan, order);
  return found.feasible ? found.periodS : null;
};
/** A start content as plain counts: no part less is -0. */
const plain = (counts: readonly number[]) => counts.map((count) => count + 0);
const statesOf = (plan: Plan, order: readonly number[]) =>
  countOrder(plan, order)?.states.map(({ inside, loaded }) => ({ inside: plain(inside), loaded }));
const insideOf = (plan: Plan, order: readonly number[]) => statesOf(plan, order)?.map(({ inside }) => inside);

describe('the counts of an order', () => {
  it('parts in hand after each event, places and picks by their position', () => {
    const counts = countOrder(mill(), BESIDE)!;
    expect(counts.inHand).toEqual([1, 0, 1, 0]);
    expect(counts.picks).toEqual([[0], [2], [], [1], [3]]);
    expect(counts.places).toEqual([[], [1], [3], [0], [2]]);
    expect(statesOf(mill(), BESIDE)).toEqual([{ inside: [1, 0, 0, 0, 0], loaded: [0, 0, 0, 0, 0] }]);
  });

  it('a part is in hand as the period starts where it is placed first', () => {
    const order = [3, 0, 2, 1];
    const twoHands = mill({ hands: 2 });
    expect(countOrder(twoHands, order)!.inHand).toEqual([0, 1, 2, 1]);
    expect(statesOf(twoHands, order)).toEqual([{ inside: [1, 1, 0, 0, 1], loaded: [0, 0, 0, 0, 0] }]);
    expect(countOrder(mill({ hands: 1 }), [3, 0, 2, 1])).toBeNull();
  });

  it('a held step is no pick and no place: the part stays in hand', () => {
    const cell: Cell = {
      ...millCell(),
      stations: [station('in', 'infeed'), station('mill', 'held'), station('out', 'outfeed')],
    };
    const plan = buildPlan(cell, onlyPath(cell));
    expect(countOrder(plan, [0, 1, 2])!.inHand).toEqual([1, 1, 0]);
    // pick 1, way 1, hold 1 + 2 + 1, way 1, place 1, way back 1.
    expect(periodOf(plan, [0, 1, 2])).toBe(9);
  });

  it('no content to start from is enough where more goes in than fits', () => {
    const both = [0, 1, 0, 1, 2, 3, 2, 3];
    expect(countOrder(mill({}, 2), both)).toBeNull();
    expect(insideOf(mill({ machine: { capacityParts: 2 } }, 2), both)).toEqual([[2, 0, 0, 0, 0]]);
    expect(insideOf(mill(), BEFORE)).toEqual([[1, 1, 0, 0, 0]]);
    expect(countOrder(mill({ hands: 2 }), [0, 1, 2, 3])!.states.length).toBe(1);
    // Taken out after the next one is in: two at once.
    expect(countOrder(mill({ hands: 2, machine: { capacityParts: 1 } }), [2, 0, 1, 3])!.inHand).toEqual([
      1, 2, 1, 0,
    ]);
    expect(countOrder(capAndLid({}), [0, 1, 4, 5, 2, 3, 6, 7])).toBeNull();
  });
});

describe('room to spare', () => {
  const roomy = (capacityParts: number, work: Partial<Step> = {}) =>
    mill({ machine: { capacityParts }, work });

  it('is filled up, as a part may then stay in for longer, but no more than its process needs', () => {
    expect(insideOf(roomy(2), BESIDE)).toEqual([[1, 1, 0, 0, 0]]);
    // The process of 4 s is over after one circle of 7 s.
    expect(insideOf(roomy(3), BESIDE)).toEqual([[1, 1, 0, 0, 0]]);
    expect(insideOf(roomy(3, { cycleS: 6 }), BESIDE)).toEqual([[1, 2, 0, 0, 0]]);
    expect(insideOf(roomy(3, { cycleS: 6 }), BEFORE)).toEqual([[1, 3, 0, 0, 0]]);
    // The process needs no more than the robot's circle of 7 s: pick 1, way 1, place 1, pick 1, way 1, place 1, way 1.
    expect(periodOf(roomy(1), BESIDE)).toBe(11);
    expect(periodOf(roomy(2), BESIDE)).toBe(7);
    // A cut of 20 s: 23 s from the start of the place and 6 s until the next one, in two or three periods.
    expect(periodOf(roomy(2, { cycleS: 20 }), BESIDE)).toBe(29 / 2);
    expect(periodOf(roomy(3, { cycleS: 20 }), BESIDE)).toBeCloseTo(29 / 3, 9);
    // In four, and a process of ten minutes in 51 periods of less than 12 s, while a part goes in in each.
    expect(periodOf(roomy(4, { cycleS: 20 }), BESIDE)).toBeCloseTo(29 / 4, 9);
    expect(periodOf(roomy(51, { cycleS: 600 }), BESIDE)).toBeCloseTo(609 / 51, 9);
  });

  it('is left as it is where there is nothing to wait for', () => {
    const idle = mill({ machine: { capacityParts: 2, closeS: 0, readyS: 0 }, work: { cycleS: 0 } });
    expect(insideOf(idle, BESIDE)).toEqual([[1, 0, 0, 0, 0]]);
  });

  it('is filled no more than a longest wait allows', () => {
    const waits = (maxWaitS: number) => roomy(3, { maxWaitS });
    // 4 s of process and 3 s of wait: with two periods inside it would wait for too long.
    expect(insideOf(waits(3), BESIDE)).toEqual([
      [1, 0, 0, 0, 0],
      [1, 1, 0, 0, 0],
    ]);
    // Placed at 2, picked at 3 of the next period of 7 s: 8 s, of which 1 s is the place and 4 s the process.
    expect(periodOf(waits(3), BESIDE)).toBe(7);
    // Else it is waited for beside the mill.
    expect(periodOf(waits(2.9), BESIDE)).toBe(11);
    const still = mill({
      machine: { capacityParts: 2, closeS: 0, readyS: 0 },
      work: { cycleS: 0, maxWaitS: 5 },
    });
    expect(insideOf(still, BESIDE)).toEqual([
      [1, 0, 0, 0, 0],
      [1, 1, 0, 0, 0],
    ]);
  });

  it('is shared in every way by the parts that pass', () => {
    const plan = capAndLid({ machine: { capacityParts: 3 }, work: [{ cycleS: 50 }, { cycleS: 20 }] });
    const order = [0, 1, 2, 3, 4, 5, 6, 7];
    // Three places hold 50 + 20 s of process in a period of 70 / 3 at least, in which one lid more is enough.
    expect(insideOf(plan, order)!.map((inside) => [inside[1], inside[4]])).toEqual([
      [1, 1],
      [2, 0],
    ]);
    // The robot's circle is 14 s, 13 s of it from pick to place. Cap (51 + 13) / 2 = 32, lid (21 + 13) / 2 = 17.
    expect(periodOf(plan, order)).toBe(32);
    const onlyCap = capAndLid({ machine: { capacityParts: 3 }, work: [{ cycleS: 50 }, {}] });
    expect(insideOf(onlyCap, order)!.map((inside) => [inside[1], inside[4]])).toEqual([[2, 0]]);
    const short = capAndLid({
      machine: { capacityParts: 2 },
      work: [{ cycleS: 50 }, { cycleS: 20, maxWaitS: 1 }],
    });
    expect(insideOf(short, order)!.map((inside) => [inside[1], inside[4]])).toEqual([
      [0, 0],
      [0, 1],
      [1, 0],
    ]);
  });
});

describe('the contents tried', () => {
  /** Contents of one station of every size up to its capacity, and every part of an unfinished batch. */
  function allContents(plan: Plan): StartState[] {
    const none = plan.nodes.map(() => 0);
    let all: StartState[] = [{ inside: none, loaded: none }];
    for (const [n, node] of plan.nodes.entries()) {
      const room = plan.rooms[node.room];
      if (node.kind !== 'inside' || room === undefined) continue;
      const counts = Array.from({ length: room.capacity + 1 }, (_, inside) =>
        Array.from({ length: Math.min(node.batch - 1, inside) + 1 }, (_, loaded) => ({ inside, loaded })),
      ).flat();
      const put = (list: readonly number[], value: number): number[] =>
        list.map((v, i) => (i === n ? value : v));
      all = all.flatMap((state) =>
        counts.map(({ inside, loaded }) => ({
          inside: put(state.inside, inside),
          loaded: put(state.loaded, loaded),
        })),
      );
    }
    return all;
  }

  const endless = (plan: Plan) => plan.rooms.map((room) => ({ ...room, capacity: 1000 }));

  /** No room holds more than its capacity and no fewer than none, at any time. */
  function fits(plan: Plan, order: readonly number[], { inside }: StartState): boolean {
    const now = [...inside];
    const holds = (): boolean =>
      plan.rooms.every((room, r) => {
        const nodes = plan.nodes.flatMap((node, n) => (node.kind === 'inside' && node.room === r ? [n] : []));
        const total = nodes.reduce((sum, n) => sum + now[n]!, 0);
        return total <= room.capacity && nodes.every((n) => now[n]! >= 0);
      });
    return (
      holds() &&
      order.every((kind) => {
        now[plan.events[kind]!.from]!--;
        now[plan.events[kind]!.to]!++;
        return holds();
      })
    );
  }

  it('leave out none with a shorter period', () => {
    const work = fc.record({
      cycleS: fc.integer({ min: 0, max: 60 }),
      maxWaitS: fc.option(fc.integer({ min: 0, max: 40 }), { freq: 2 }),
    });
    const plans = fc
      .record({
        capacityParts: fc.integer({ min: 1, max: 7 }),
        caps: fc.integer({ min: 1, max: 6 }),
        partsPerCycle: fc.integer({ min: 1, max: 3 }),
        work: fc.tuple(work, work),
        both: fc.boolean(),
      })
      .map(({ capacityParts, caps, partsPerCycle, work, both }) =>
        both
          ? capAndLid({ machine: { capacityParts }, work })
          : mill({ machine: { capacityParts }, work: { ...work[0], partsPerCycle } }, caps),
      );
    const order = (plan: Plan, places: readonly number[]): number[] =>
      plan.carries
        .flatMap((carry) => Array.from({ length: carry.count }, () => carry.events))
        .map((events, i) => ({ events, at: places[i]! }))
        .sort((a, b) => a.at - b.at)
        .flatMap(({ events }) => events);
    fc.assert(
      fc.property(plans, fc.array(fc.nat(12), { minLength: 12, maxLength: 12 }), (plan, places) => {
        const events = order(plan, places);
        const { inHand, ...positions } = countOrder({ ...plan, rooms: endless(plan) }, events)!;
        const periods = allContents(plan)
          .filter((state) => fits(plan, events, state))
          .map((state) => leastOfGraph(orderGraph(plan, events, { inHand, ...positions }, state), 0))
          .map((least) => (least.feasible ? least.periodS : Number.POSITIVE_INFINITY));
        const least = Math.min(Number.POSITIVE_INFINITY, ...periods);
        expect(periodOf(plan, events) ?? Number.POSITIVE_INFINITY).toBeCloseTo(least, 6);
      }),
      { numRuns: cases(2000) },
    );
  });
});

describe('a fixture of two', () => {
  const fixture = (capacityParts: number) =>
    mill({ machine: { capacityParts }, work: { partsPerCycle: 2 } }, 2);

  it('is empty, or half loaded as the period starts', () => {
    const loadedOf = (plan: Plan, order: readonly number[]) =>
      statesOf(plan, order)!.map(({ inside, loaded }) => [inside[1], loaded[1]]);
    expect(loadedOf(fixture(2), [0, 1, 0, 1, 2, 3, 2, 3])).toEqual([[0, 0]]);
    expect(loadedOf(fixture(2), [0, 1, 2, 3, 0, 1, 2, 3])).toEqual([
      [1, 0],
      [1, 1],
    ]);
    expect(loadedOf(fixture(3), [0, 1, 2, 3, 0, 1, 2, 3])).toEqual([
      [2, 0],
      [2, 1],
    ]);
    const quick = mill(
      { machine: { capacityParts: 3, closeS: 0, readyS: 0 }, work: { partsPerCycle: 2, cycleS: 0 } },
      2,
    );
    // One more, as its batch is then complete before it is picked; a process of 0 s needs none.
    expect(loadedOf(quick, [0, 1, 2, 3, 0, 1, 2, 3])).toEqual([
      [1, 0],
      [1, 1],
    ]);
    const triple = mill({ machine: { capacityParts: 6 }, work: { partsPerCycle: 3 } }, 3);
    expect(loadedOf(triple, [0, 1, 0, 1, 0, 1, 2, 3, 2, 3, 2, 3])).toEqual([
      [3, 0],
      [3, 1],
      [3, 2],
    ]);
  });

  it('starts when the second part is in', () => {
    // Places at 2 and 6, so 11 s; then pick, way, place, way, pick, way, place, way: 8 s.
    expect(periodOf(fixture(2), [0, 1, 0, 1, 2, 3, 2, 3])).toBe(19);
    // One at a time: the first is finished at 7, when the second has just been placed.
    expect(periodOf(mill({ machine: { capacityParts: 2 } }, 2), [0, 1, 0, 1, 2, 3, 2, 3])).toBe(15);
  });

  it('is half loaded over the end of the period where every place is followed by a pick', () => {
    // place 2 to 3, pick at 7 with what was loaded before, out 9 to 10, in 11 to 12, place 13 to 14, pick 14, out 16 to 17.
    expect(periodOf(fixture(2), [0, 1, 2, 3, 0, 1, 2, 3])).toBe(18);
  });
});

describe('the arcs', () => {
  it('of robot, process and longest wait carry their times, places and period ends', () => {
    const plan = mill({ work: { maxWaitS: 3 } });
    const counts = countOrder(plan, BEFORE)!;
    const { nodes, arcs, ...lists } = orderGraph(plan, BEFORE, counts, counts.states[0]!);
    expect(nodes).toBe(4);
    const listed = Array.from({ length: arcs }, (_, a) => {
      const { kind, from, to, weightS, periods, node } = lists;
      return [ARC_KINDS[kind[a]!], from[a], to[a], weightS[a], periods[a], node[a]];
    });
    expect(listed).toEqual([
      ['robot', 0, 1, 2, 0, -1],
      ['robot', 1, 2, 2, 0, -1],
      ['robot', 2, 3, 2, 0, -1],
      ['robot', 3, 0, 1, 1, -1],
      ['process', 3, 0, 5, 1, 1],
      ['longest wait', 0, 3, -8, -1, 1],
    ]);
  });

  it('process and longest wait run from the last part of a batch: the robot puts the others in before', () => {
    const plan = mill({ machine: { capacityParts: 2 }, work: { partsPerCycle: 2, maxWaitS: 9 } }, 2);
    const { arcs } = evaluateOrder(plan, [0, 1, 0, 1, 2, 3, 2, 3]);
    const ends = (kind: string) => arcs.filter((a) => a.kind === kind).map(({ from, to }) => [from, to]);
    expect(ends('process')).toEqual([
      [3, 4],
      [3, 6],
    ]);
    expect(ends('longest wait')).toEqual([
      [4, 3],
      [6, 3],
    ]);
  });

  it('with a part in hand the robot takes the loaded way', () => {
    const ways = (emptyS: number, loadedS: number) => ({
      travelS: null,
      travel: ['in', 'mill', 'out'].flatMap((from) =>
        ['in', 'mill', 'out'].flatMap((to) => (from === to ? [] : [{ from, to, emptyS, loadedS }])),
      ),
    });
    // Loaded in to mill and mill to out; empty out to in.
    expect(periodOf(mill(ways(1, 3)), BESIDE)).toBe(15);
    expect(periodOf(mill(ways(3, 1)), BESIDE)).toBe(13);
  });

  it('with two hands the gripper turns between two actions at one station', () => {
    // pick in, way, pick mill, turn, place mill, way, place out, way back: 4 actions, 3 ways.
    const swap = [0, 2, 1, 3];
    const plan = (indexS: number) => mill({ hands: 2, indexS, machine: { closeS: 0, readyS: 0 } });
    expect(periodOf(plan(0), swap)).toBe(7);
    expect(periodOf(plan(2.5), swap)).toBe(9.5);
    const oneHand = { indexS: 2.5, machine: { closeS: 0, readyS: 0 }, work: { cycleS: 0 } };
    expect(periodOf(mill(oneHand), BESIDE)).toBe(7);
  });

  it('an infeed or outfeed serves one part after another, each after the time of the one before', () => {
    const paced = (cycleS: number) => mill({ first: { cycleS }, infeed: { closeS: 2, readyS: 2 } });
    expect(periodOf(paced(6), BESIDE)).toBe(11);
    expect(periodOf(paced(8), BESIDE)).toBe(13);
    const pauses = (plan: Plan, order: readonly number[]) =>
      evaluateOrder(plan, order)
        .arcs.filter(({ kind }) => kind === 'feeder')
        .map(({ from, to, weightS, periods, node }) => [from, to, weightS, periods, node]);
    expect(pauses(paced(8), BESIDE)).toEqual([[0, 0, 13, 1, 0]]);
    const twoKinds = capAndLid({ first: [{ cycleS: 30 }, {}] });
    expect(pauses(twoKinds, [0, 1, 2, 3, 4, 5, 6, 7])).toEqual([
      [0, 4, 31, 0, 0],
      [4, 0, 1, 1, 3],
    ]);
    // The lid first: one after another as the period goes, not as the parts are listed.
    expect(pauses(twoKinds, [4, 5, 6, 7, 0, 1, 2, 3])).toEqual([
      [0, 4, 1, 0, 3],
      [4, 0, 31, 1, 0],
    ]);
    const clears = capAndLid({ outfeed: { readyS: 2 }, last: [{ cycleS: 20 }, {}] });
    expect(pauses(clears, [0, 1, 2, 3, 4, 5, 6, 7])).toEqual([
      [3, 7, 23, 0, 2],
      [7, 3, 3, 1, 5],
    ]);
    expect(pauses(mill(), BESIDE)).toEqual([]);
  });
});
