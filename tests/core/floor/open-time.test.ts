/** Where a run stands in its week, by hand: a week of two minutes, gone through segment by segment. */
import { describe, expect, it } from 'vitest';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { OpenTime } from '../../../src/core/floor/open-time.js';

const NEVER = Number.POSITIVE_INFINITY;

/** Shut to 20; two people from 20 to 50 with a break from 30 to 40; alone to 80; shut to 120. Half speed while attended. */
const week = () =>
  openCalendar(
    [
      { startS: 20, endS: 30, attended: true, operators: 2, weekS: 120 },
      { startS: 30, endS: 40, attended: true, operators: 0, weekS: 120 },
      { startS: 40, endS: 50, attended: true, operators: 2, weekS: 120 },
      { startS: 50, endS: 80, attended: false, weekS: 120 },
    ],
    50,
  );

/** Goes through so many segments and stands at the begin of the one after them. */
function inSegment(segments: number): { hours: OpenTime; endsS: number; nowS: number } {
  const hours = new OpenTime(week());
  let nowS = 0;
  let endsS = hours.enter(0);
  for (let i = 0; i < segments; i++) {
    nowS = endsS;
    hours.goOn();
    endsS = hours.enter(nowS);
  }
  return { hours, endsS, nowS };
}

describe('the segments of a week', () => {
  it.each([
    [
      0,
      { endsS: 20, open: false, closesS: -NEVER, plainUntilS: -NEVER, operators: 0, alone: false, aloneS: 0 },
    ],
    [1, { endsS: 30, open: true, closesS: 80, plainUntilS: -NEVER, operators: 2, alone: false, aloneS: 30 }],
    [2, { endsS: 40, open: true, closesS: 80, plainUntilS: -NEVER, operators: 0, alone: false, aloneS: 30 }],
    [3, { endsS: 50, open: true, closesS: 80, plainUntilS: -NEVER, operators: 2, alone: false, aloneS: 30 }],
    [4, { endsS: 80, open: true, closesS: 80, plainUntilS: 80, operators: 0, alone: true, aloneS: 0 }],
    [
      5,
      {
        endsS: 120,
        open: false,
        closesS: -NEVER,
        plainUntilS: -NEVER,
        operators: 0,
        alone: false,
        aloneS: 0,
      },
    ],
    [
      6,
      {
        endsS: 140,
        open: false,
        closesS: -NEVER,
        plainUntilS: -NEVER,
        operators: 0,
        alone: false,
        aloneS: 0,
      },
    ],
    [
      7,
      { endsS: 150, open: true, closesS: 200, plainUntilS: -NEVER, operators: 2, alone: false, aloneS: 30 },
    ],
  ] as const)('the one with number %i', (number, holds) => {
    const { hours, endsS } = inSegment(number);
    const { open, closesS, plainUntilS, operators, alone, aloneS } = hours;
    expect({ endsS, open, closesS, plainUntilS, operators, alone, aloneS }).toEqual(holds);
  });

  it('people leave at 50 of each week, breaks or not', () => {
    expect([1, 2, 3, 7].map((number) => inSegment(number).hours.leavesS)).toEqual([50, 50, 50, 170]);
  });
});

describe('moments of the clock', () => {
  it('have as many open seconds before them as the cell was open', () => {
    for (const number of [0, 1, 3, 5, 6, 7]) {
      const { hours } = inSegment(number);
      const openAt = [0, 20, 45, 80, 100, 140, 160, 260].map((t) => hours.openAt(t));
      expect(openAt).toEqual([0, 0, 25, 60, 60, 60, 80, 120]);
    }
  });

  it('a move takes twice its time while people are there, a turn on the spot does not', () => {
    const { hours } = inSegment(1);
    expect([hours.arrival(20, 6, false), hours.arrival(20, 6, true)]).toEqual([32, 26]);
    const { hours: alone } = inSegment(4);
    expect([alone.arrival(60, 6, false), alone.arrival(74, 6, false), alone.arrival(60, 6, true)]).toEqual([
      66, 80, 66,
    ]);
    // Four seconds to 80, the other two from 140 on, at half speed or on the spot.
    expect([alone.arrival(76, 6, false), alone.arrival(76, 6, true)]).toEqual([144, 142]);
  });

  it('an act begins where it is over before the cell closes', () => {
    const { hours } = inSegment(4);
    expect([hours.fit(74, 6), hours.fit(75, 6), hours.fit(60, 20)]).toEqual([74, 140, 60]);
  });

  it('so many open seconds pass while the cell is open alone', () => {
    const { hours } = inSegment(1);
    expect([hours.after(0, 15), hours.after(75, 10), hours.after(0, NEVER)]).toEqual([35, 145, NEVER]);
  });
});

it('without a calendar the cell is always open and at full speed', () => {
  const hours = new OpenTime(null);
  expect([hours.openAt(7), hours.arrival(7, 5, false), hours.fit(7, 1e9), hours.after(7, 5)]).toEqual([
    7, 12, 7, 12,
  ]);
  const { open, alone, closesS, plainUntilS, leavesS, aloneS } = hours;
  expect({ open, alone, closesS, plainUntilS, leavesS, aloneS }).toEqual({
    ...{ open: true, alone: false, closesS: NEVER, plainUntilS: NEVER, leavesS: NEVER, aloneS: 0 },
  });
});
