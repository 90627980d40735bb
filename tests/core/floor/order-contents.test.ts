/** What an order leaves where, and when it takes it out again, counted on paper. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { HOLD, PICK, PLACE } from '../../../src/core/floor/order-acts.js';
import { orderContents } from '../../../src/core/floor/order-contents.js';
import type { Step } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const [IN, MILL, OVEN, BRUSH, OUT] = [0, 1, 2, 3, 4];
const [FETCHED, MILLED, BAKED, BRUSHED, PUT_OUT] = [0, 1, 2, 3, 4];

/** A mill for one part, an oven for three, and a brush in hand; one hand. */
function line(baked: Partial<Step> = {}) {
  return compileCell(
    cellOf({
      stations: [
        station('in', 'infeed'),
        station('mill', 'machine'),
        station('oven', 'bench', { capacityParts: 3 }),
        station('brush', 'held'),
        station('out', 'outfeed'),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['in'], { unloadS: 1 }),
            step(2, ['mill'], { cycleS: 9 }),
            step(3, ['oven'], { cycleS: 9, ...baked }),
            step(4, ['brush'], { cycleS: 2 }),
            step(5, ['out']),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 1 },
    }),
  );
}

type Act = readonly [action: number, station: number, op: number, firstPeriod: number];

const contentsOf = (acts: readonly Act[], cell = line()) =>
  orderContents(
    {
      count: acts.length,
      action: Uint8Array.from(acts, ([action]) => action),
      station: Int32Array.from(acts, ([, at]) => at),
      op: Int32Array.from(acts, ([, , op]) => op),
      firstPeriod: acts.map(([, , , first]) => first),
      lifePeriods: Math.max(...acts.map(([, , , first]) => first)) + 1,
    },
    cell,
  );
const texts = (before: readonly ReadonlySet<string>[]) => before.map((set) => [...set]);

/** Into the mill, from the oven out over the brush, from the mill into the oven: a cap is in the oven for so many rounds. */
const round = (rounds: number): readonly Act[] => [
  [PICK, IN, FETCHED, 0],
  [PLACE, MILL, MILLED, 0],
  [PICK, OVEN, BAKED, rounds],
  [HOLD, BRUSH, BRUSHED, rounds],
  [PLACE, OUT, PUT_OUT, rounds],
  [PICK, MILL, MILLED, 0],
  [PLACE, OVEN, BAKED, 0],
];

describe('a line', () => {
  it('a part is due at the pick that takes it', () => {
    // Of mill and oven; the mill's part four events on, the oven's at the third event of the next round.
    const { dueIn, nodes, nodeOf } = contentsOf(round(1));
    expect(nodes).toBe(2);
    expect([nodeOf[MILL * 5 + MILLED], nodeOf[OVEN * 5 + BAKED], nodeOf[OUT * 5 + PUT_OUT]]).toEqual([
      0, 1, -1,
    ]);
    expect([...dueIn]).toEqual([0, 4, 0, 0, 0, 0, 3]);
    // Two and three rounds in the oven.
    expect([2, 3].map((rounds) => contentsOf(round(rounds)).dueIn[6])).toEqual([10, 17]);
  });

  it('tells what lies in mill and oven before each pick, while it fills and then', () => {
    // In the first round nothing is in the oven at its pick; the mill is empty before and full after the place.
    const before = texts(contentsOf(round(2)).before);
    expect(before[0]).toEqual(['0,0;0,0', '0,1;0,0', '0,2;0,0']);
    expect(before[2]).toEqual(['1,2;0,0']);
    expect(before[5]).toEqual(['1,0;0,0', '1,1;0,0']);
    expect([before[1], before[3], before[4], before[6]]).toEqual([[], [], [], []]);
  });

  it('says nothing of an order that finds no room, or no part', () => {
    const stopped = (acts: readonly Act[]) => {
      const { dueIn, before } = contentsOf(acts);
      return dueIn.every((n) => n === 0) && before.every((set) => set.size === 0);
    };
    expect([stopped(round(3)), stopped(round(4))]).toEqual([false, true]);
    const early = round(2).map(([action, at, op, first]): Act => [action, at, op, at === OVEN ? 0 : first]);
    expect(stopped(early)).toBe(true);
  });
});

describe('a batch of two in the oven', () => {
  const pairs = line({ partsPerCycle: 2 });
  const twice = (first: number): readonly Act[] => [
    [PICK, OVEN, BAKED, first],
    [PLACE, OUT, PUT_OUT, first],
    [PICK, IN, FETCHED, 0],
    [PLACE, MILL, MILLED, 0],
    [PICK, MILL, MILLED, 0],
    [PLACE, OVEN, BAKED, 0],
  ];

  it('is out again in turn, the first placed first', () => {
    // Both picks, then both places.
    const [a, b, ...fill] = twice(1);
    const { dueIn, before } = contentsOf([a!, b!, a!, b!, ...fill, ...fill], pairs);
    // Places into the oven at 7 and 11 of 12; picks at 0 and 2.
    expect([dueIn[7], dueIn[11]]).toEqual([5, 3]);
    expect(texts(before)[2]).toEqual(['0,1;0,0']);
    // Between the two places one part waits for its mate.
    expect(texts(before)[8]).toEqual(['0,1;0,1']);
  });

  it('says nothing where every second round only ends as the first, or where a pair is picked before it is full', () => {
    expect(contentsOf(twice(2), pairs).dueIn[5]).toBe(0);
    expect(contentsOf(twice(1), pairs).dueIn[5]).toBe(0);
    expect(contentsOf(twice(2), line()).dueIn[5]).toBe(7);
  });

  it('is of one kind: a lid has no place beside a cap that waits for its mate', () => {
    const kinds = ['cap', 'lid'].map((part) => ({
      part,
      steps: [step(1, ['in']), step(2, ['oven'], { cycleS: 9, partsPerCycle: 2 }), step(3, ['out'])],
    }));
    const oven = station('oven', 'bench', { capacityParts: 4 });
    const cell = compileCell(
      cellOf({
        ...{ stations: [station('in', 'infeed'), oven, station('out', 'outfeed')], routes: kinds },
        robot: { ...ROBOT, travelS: 1 },
      }),
    );
    const [cap, lid] = [1, 4];
    const filled = (ops: readonly number[]) => {
      const picks = [cap, cap, lid, lid].map((op): Act => [PICK, 1, op, 1]);
      return [...contentsOf([...picks, ...ops.map((op): Act => [PLACE, 1, op, 0])], cell).dueIn];
    };
    // Four picks, then four places of eight events: each part is due half a round after its place.
    expect(filled([cap, cap, lid, lid])).toEqual([0, 0, 0, 0, 4, 4, 4, 4]);
    expect(filled([cap, lid, cap, lid])).toEqual([0, 0, 0, 0, 0, 0, 0, 0]);
  });
});
