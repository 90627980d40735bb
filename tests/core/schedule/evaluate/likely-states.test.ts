// Which start contents of a batch are timed, each found on paper: parts inside and, of an unfinished batch, loaded.
import { describe, expect, it } from 'vitest';
import { likelyStates } from '../../../../src/core/schedule/evaluate/likely-states.js';
import { countOrder } from '../../../../src/core/schedule/evaluate/order-graph.js';
import type { Plan } from '../../../../src/core/schedule/plan/plan.js';
import { type Changes, capAndLid, millPlan } from '../../../support/mill-cell.js';

const IN = [0, 1];
const OUT = [2, 3];
const BY_TURNS = [IN, OUT];

/** A mill that starts when `partsPerCycle` parts are in, `visits` parts a period. */
const batchMill = (partsPerCycle: number, capacityParts: number, visits: number, changes: Changes = {}) =>
  millPlan({ ...changes, machine: { capacityParts }, work: { partsPerCycle, ...changes.work } }, visits);

/** `inside/loaded` of each start content of the places: all of them, and those that are timed. */
function contents(plan: Plan, stretches: readonly (readonly number[])[], places = [1]) {
  const order = stretches.flat();
  const counts = countOrder(plan, order)!;
  const text = (states: typeof counts.states) =>
    states.map(({ inside, loaded }) => places.map((n) => `${inside[n]! + 0}/${loaded[n]}`).join(' '));
  const timed = likelyStates(plan, order, counts);
  return { all: text(counts.states), timed: text(timed), isEvery: timed === counts.states };
}

describe('without a batch', () => {
  it('all contents are timed', () => {
    const waits = { work: { maxWaitS: 9 } };
    expect(contents(batchMill(1, 2, 1, waits), BY_TURNS)).toMatchObject({
      all: ['0/0', '1/0'],
      isEvery: true,
    });
    // An infeed has no batch, whatever its row says.
    const infeed = { ...waits, first: { partsPerCycle: 2 } };
    expect(contents(batchMill(1, 2, 1, infeed), BY_TURNS)).toMatchObject({ isEvery: true });
  });
});

describe('contents that no order can have are left out', () => {
  it('a pair is not half picked before it is full', () => {
    // Places at 5 and 7 of 8, picks at 0 and 2. With one loaded the pair of the place at 7 is full at 5 of the next
    // period, and its first part is picked at 2 of it.
    expect(contents(batchMill(2, 2, 2), [OUT, OUT, IN, IN])).toMatchObject({
      all: ['2/0', '2/1'],
      timed: ['2/0'],
    });
    // Places at 3 and 5, picks at 0 and 6: a pair over the end of the period would be picked at 8, and is full at 11.
    expect(contents(batchMill(2, 2, 2), [OUT, IN, IN, OUT])).toMatchObject({
      all: ['1/0', '1/1'],
      timed: ['1/0'],
    });
    // Places at 1 and 7, picks at 2 and 4: the pair must be the one over the end of the period.
    expect(contents(batchMill(2, 2, 2), [IN, OUT, OUT, IN])).toMatchObject({
      all: ['1/0', '1/1'],
      timed: ['1/1'],
    });
  });

  it('with a longest wait, under which fewer inside are tried as well', () => {
    const waits = { work: { maxWaitS: 9 } };
    // Places at 1 and 5, picks at 2 and 6: with none inside the first is picked at 2, its pair is full at 5.
    expect(contents(batchMill(2, 3, 2, waits), [IN, OUT, IN, OUT])).toMatchObject({
      all: ['0/0', '1/0', '1/1', '2/0', '2/1'],
      timed: ['1/0', '2/0'],
    });
    // Both in, then both out: every content can be, the pair full at 3 and picked at 4.
    expect(contents(batchMill(2, 4, 2, waits), [IN, IN, OUT, OUT]).timed).toEqual([
      '0/0',
      '1/0',
      '1/1',
      '2/0',
      '2/1',
    ]);
  });

  it('of three one place late is enough: then all are timed, for the reason to be told', () => {
    // With one inside, and one of it loaded, the third place at 9 begins a batch that is full at 17 and picked at 14.
    const none = contents(batchMill(3, 2, 3), [IN, OUT, IN, OUT, IN, OUT]);
    expect(none).toMatchObject({ all: ['1/0', '1/1'], isEvery: true });
  });

  it('of two kinds in one fixture both must be full', () => {
    const pairs = (capacityParts: number) =>
      capAndLid({
        machine: { capacityParts },
        work: [{ partsPerCycle: 2 }, { partsPerCycle: 2 }],
        counts: [2, 2],
      });
    const CAP = [0, 1, 2, 3];
    const LID = [4, 5, 6, 7];
    // Room for one more of one kind alone: the other one is picked as soon as it is placed, before its mate.
    expect(contents(pairs(2), [CAP, LID, CAP, LID], [1, 4])).toMatchObject({
      all: ['0/0 1/0', '0/0 1/1', '1/0 0/0', '1/1 0/0'],
      isEvery: true,
    });
    expect(contents(pairs(3), [CAP, LID, CAP, LID], [1, 4])).toMatchObject({
      all: ['1/0 1/0', '1/0 1/1', '1/1 1/0', '1/1 1/1'],
      timed: ['1/0 1/0', '1/0 1/1'],
    });
  });
});

describe('contents that are the same some parts later are timed once', () => {
  it('by turns, half loaded is none loaded one part later', () => {
    expect(contents(batchMill(2, 2, 2), [IN, OUT, IN, OUT])).toMatchObject({
      all: ['1/0', '1/1'],
      timed: ['1/0'],
    });
    expect(contents(batchMill(2, 2, 4), [IN, OUT, IN, OUT, IN, OUT, IN, OUT]).timed).toEqual(['1/0']);
    expect(contents(batchMill(3, 3, 3), [IN, OUT, IN, OUT, IN, OUT])).toMatchObject({
      all: ['2/0', '2/1', '2/2'],
      timed: ['2/0'],
    });
    // Nor does a batch in the row of the infeed make a difference.
    const infeed = { first: { partsPerCycle: 2 } };
    expect(contents(batchMill(2, 2, 2, infeed), [IN, OUT, IN, OUT]).timed).toEqual(['1/0']);
  });

  it('two in and two out, twice: two parts later', () => {
    const twice = [IN, IN, OUT, OUT, IN, IN, OUT, OUT];
    // Of a batch of two both contents are ones of their own.
    expect(contents(batchMill(2, 3, 4), twice)).toMatchObject({ all: ['1/0', '1/1'], timed: ['1/0', '1/1'] });
    // Of four, full at 11 with none loaded and at 3 with two; with one loaded the last place, at 11, is picked at 22, full at 25.
    expect(contents(batchMill(4, 4, 4), twice)).toMatchObject({
      all: ['2/0', '2/1', '2/2'],
      timed: ['2/0'],
    });
  });

  it('an order that ends as it began, but does not repeat: all that can be', () => {
    // Places at 1, 3, 13, 15, picks at 4, 6, 8, 10, three inside. The place at 1 is picked at 10: the batch is full by
    // then with two loaded (at 3) and with three (at 1), not with none (at 15) or one (at 13).
    expect(contents(batchMill(4, 5, 4), [IN, IN, OUT, OUT, OUT, OUT, IN, IN])).toMatchObject({
      all: ['3/0', '3/1', '3/2', '3/3'],
      timed: ['3/2', '3/3'],
    });
  });

  it('not where a period is no whole number of batches', () => {
    // Three parts in pairs: the next period has its pairs elsewhere.
    expect(contents(batchMill(2, 2, 3), [IN, OUT, IN, OUT, IN, OUT])).toMatchObject({
      all: ['1/0', '1/1'],
      timed: ['1/0', '1/1'],
    });
    // Two caps in pairs, two lids in threes, by turns: none of the six is left out.
    const lids = capAndLid({
      machine: { capacityParts: 4 },
      work: [{ partsPerCycle: 2 }, { partsPerCycle: 3 }],
      counts: [2, 2],
    });
    const found = contents(
      lids,
      [
        [0, 1, 2, 3, 4, 5, 6, 7],
        [0, 1, 2, 3, 4, 5, 6, 7],
      ],
      [1, 4],
    );
    expect(found.timed.length).toBe(6);
    expect(found.timed).toEqual(found.all);
  });

  it('by the first kind that has batches', () => {
    // Caps one by one, lids in pairs.
    const plan = capAndLid({
      machine: { capacityParts: 2 },
      work: [{}, { partsPerCycle: 2 }],
      counts: [2, 2],
    });
    const both = [0, 1, 2, 3, 4, 5, 6, 7];
    expect(contents(plan, [both, both], [1, 4])).toMatchObject({
      all: ['0/0 1/0', '0/0 1/1'],
      timed: ['0/0 1/0'],
    });
  });
});
