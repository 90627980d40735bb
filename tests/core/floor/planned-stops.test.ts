/** When planned stops are due and when they are done early, by hand. */
import { describe, expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { OpenTime } from '../../../src/core/floor/open-time.js';
import { PlannedStops } from '../../../src/core/floor/planned-stops.js';
import type { PlannedStop } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const NEVER = Number.POSITIVE_INFINITY;
const stop = (of: Partial<PlannedStop>): PlannedStop => ({
  ...{ station: 'lathe', name: 'stop', everyParts: null, everyH: null, minutes: 1, operator: true },
  ...of,
});
/** A part is in work for 2 + 15 + 3 s at the lathe; somebody comes there after half a minute. */
const LATHE = 2;
const MILL = 3;
const TURNED = 1;

function stopsOf(rows: readonly PlannedStop[], places = 1) {
  const hours = new OpenTime(null);
  const cell = compileCell(
    cellOf({
      stations: [
        station('in', 'infeed'),
        station('saw', 'machine'),
        station('lathe', 'machine', { closeS: 2, readyS: 3, capacityParts: places }),
        station('mill', 'machine'),
        station('out', 'outfeed'),
      ],
      routes: [
        {
          part: 'pin',
          steps: [
            step(1, ['in']),
            step(2, ['lathe'], { cycleS: 15 }),
            step(3, ['mill'], { cycleS: 9 }),
            step(4, ['out']),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 1 },
      variation: [{ station: 'lathe', element: 'response', distribution: 'constant', parameters: [0.5] }],
      stops: [...rows],
    }),
  );
  return { hours, stops: new PlannedStops(cell, hours) };
}

describe('what is due', () => {
  /** A tool change every 10 parts, a gauge every 4 parts of the mill, and a clean every half hour, for 2 minutes. */
  const rows = [
    stop({ name: 'tool', everyParts: 10 }),
    stop({ name: 'gauge', station: 'mill', everyParts: 4, operator: false }),
    stop({ name: 'clean', everyH: 0.5, minutes: 2 }),
  ];

  it('is found by station, the first stop in the list first', () => {
    const { stops } = stopsOf(rows);
    stops.begin();
    expect([...stops.first]).toEqual([-1, -1, 0, 1, -1]);
    expect([...stops.dueAtS]).toEqual([NEVER, NEVER, 1800]);
    expect([stops.dueAt(LATHE, 1799), stops.dueAt(LATHE, 1800), stops.dueAt(MILL, 1800)]).toEqual([
      -1, 2, -1,
    ]);
    stops.add(LATHE, 9);
    expect([stops.dueAt(LATHE, 0), stops.dueAt(LATHE, 1800)]).toEqual([-1, 2]);
    stops.add(LATHE, 1);
    expect([stops.dueAt(LATHE, 0), stops.dueAt(LATHE, 1800), stops.dueAt(MILL, 0)]).toEqual([0, 0, -1]);
    expect([...stops.count]).toEqual([10, 0, 10]);
    stops.add(MILL, 5);
    expect([...stops.count]).toEqual([10, 5, 10]);
    expect(stops.dueAt(MILL, 0)).toBe(1);
    stops.forget(LATHE);
    expect([stops.dueAt(LATHE, 0), stops.beginsAt(LATHE, TURNED, 0, true)]).toEqual([-1, -1]);
  });

  it('begins with what is too many left over, and the hours to the next begin after the stop', () => {
    const { stops } = stopsOf(rows);
    stops.begin();
    stops.add(LATHE, 12);
    expect(stops.beginsAt(LATHE, TURNED, 100, true)).toBe(0);
    expect([...stops.count]).toEqual([2, 0, 12]);
    expect(stops.beginsAt(LATHE, TURNED, 1799, true)).toBe(-1);
    expect(stops.beginsAt(LATHE, TURNED, 2000, true)).toBe(2);
    expect([...stops.count]).toEqual([2, 0, 0]);
    stops.renew(2, 2000);
    stops.renew(0, 2000);
    expect([...stops.dueAtS]).toEqual([NEVER, NEVER, 2000 + 120 + 1800]);
    expect(stops.beginsAt(LATHE, TURNED, 3919, true)).toBe(-1);
    expect(stops.beginsAt(LATHE, TURNED, 3920, true)).toBe(2);
  });

  it('is forgotten by station', () => {
    const { stops } = stopsOf(rows);
    stops.add(LATHE, 3);
    stops.add(MILL, 2);
    stops.forget(MILL);
    expect([...stops.count]).toEqual([3, 0, 3]);
    stops.forget(LATHE);
    expect([...stops.count]).toEqual([0, 0, 0]);
  });
});

describe('a stop every 10 parts that may be done 3 parts early', () => {
  interface Moment {
    readonly made?: number;
    /** End of the cycle before. */
    readonly lastS?: number;
    readonly nowS: number;
    readonly aloneS?: number;
    readonly anyFree?: boolean;
    readonly places?: number;
  }

  /** Whether it begins at the end of a cycle; people leave at 1000, the stop takes 60 s and somebody comes after 30. */
  function begins({ made = 7, lastS, nowS, aloneS = 100, anyFree = true, places = 1 }: Moment): boolean {
    const { hours, stops } = stopsOf([stop({ everyParts: 10, earlyParts: 3 })], places);
    stops.begin();
    if (lastS !== undefined) stops.beginsAt(LATHE, TURNED, lastS, anyFree);
    hours.leavesS = 1000;
    hours.aloneS = aloneS;
    stops.add(LATHE, made);
    return stops.beginsAt(LATHE, TURNED, nowS, anyFree) === 0;
  }

  it('begins at the last end of a cycle after which the 90 s are still there', () => {
    // The next end would be 20 s later: at 890 that one is early enough as well.
    expect([890, 891, 910, 911].map((nowS) => begins({ lastS: nowS - 20, nowS }))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it('counts on the next cycle to take as long as the last, but on no more than three times its work', () => {
    expect([870, 871].map((nowS) => begins({ lastS: nowS - 40, nowS }))).toEqual([false, true]);
    expect([850, 851].map((nowS) => begins({ lastS: nowS - 300, nowS }))).toEqual([false, true]);
    expect([850, 851].map((nowS) => begins({ nowS }))).toEqual([false, true]);
    // Quicker than its work it cannot be.
    expect([890, 891].map((nowS) => begins({ lastS: nowS - 5, nowS }))).toEqual([false, true]);
  });

  it('is not more than 3 parts early', () => {
    expect([6, 7, 9].map((made) => begins({ made, nowS: 900 }))).toEqual([false, true, true]);
  });

  it('needs somebody who is free, and hours alone after that', () => {
    expect(begins({ nowS: 900, anyFree: false })).toBe(false);
    expect(begins({ nowS: 900, aloneS: 0, made: 9 })).toBe(false);
  });

  it('is left where it would not come due before people are back', () => {
    // Three parts left: one that is made already, and two of 20 s each; with two places four in that time.
    expect([39, 40].map((aloneS) => begins({ nowS: 900, aloneS }))).toEqual([false, true]);
    expect([9, 10].map((aloneS) => begins({ nowS: 900, aloneS, places: 2 }))).toEqual([false, true]);
  });

  it('leaves no count behind', () => {
    const { hours, stops } = stopsOf([stop({ everyParts: 10, earlyParts: 3 })]);
    stops.begin();
    hours.leavesS = 1000;
    hours.aloneS = 100;
    stops.add(LATHE, 8);
    expect(stops.beginsAt(LATHE, TURNED, 900, true)).toBe(0);
    expect([...stops.count]).toEqual([0]);
  });

  it('is told apart by the time since the last cycle, which no other stop needs', () => {
    const { stops } = stopsOf([stop({ everyParts: 5 }), stop({ everyParts: 10, earlyParts: 3 })]);
    stops.begin();
    stops.beginsAt(LATHE, TURNED, 40, true);
    const values: number[] = [];
    stops.signature((value) => values.push(value), 55);
    expect(values).toEqual([15]);
  });
});
