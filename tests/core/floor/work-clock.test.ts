/** What the clock of a week answers: by hand, and for small weeks against a count of every half second. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stretchEnds, WorkClock } from '../../../src/core/floor/work-clock.js';

const NEVER = Number.POSITIVE_INFINITY;

interface Stretch {
  readonly lengthS: number;
  /** Open, attended, and with an operator. */
  readonly holds: 'shut' | 'alone' | 'break' | 'attended';
}

function segmentsOf(stretches: readonly Stretch[]) {
  let endS = 0;
  return stretches.map(({ lengthS, holds }, i) => {
    const startS = endS;
    endS += lengthS;
    const attended = holds === 'attended' || holds === 'break';
    return { startS, endS, open: holds !== 'shut', attended, operator: holds === 'attended', shift: 10 + i };
  });
}

function clockOf(
  stretches: readonly Stretch[],
  operator: 'attended' | 'no breaks' | 'always' = 'attended',
): WorkClock {
  const segments = segmentsOf(stretches);
  return new WorkClock({ segments, weekS: segments.at(-1)!.endS }, { attendedSpeedPct: 50, operator });
}

/** Shut to 10, attended to 30 with a break from 20 to 24, alone to 50, shut to 60. */
const WEEK: readonly Stretch[] = [
  { lengthS: 10, holds: 'shut' },
  { lengthS: 10, holds: 'attended' },
  { lengthS: 4, holds: 'break' },
  { lengthS: 6, holds: 'attended' },
  { lengthS: 20, holds: 'alone' },
  { lengthS: 10, holds: 'shut' },
];

describe('the ends of stretches', () => {
  const ends = (holds: readonly boolean[]) =>
    stretchEnds(
      holds.map((h, i) => ({ holds: h, endS: 10 * (i + 1) })),
      10 * holds.length,
    );

  it('are those of the last neighbour in which it still holds', () => {
    expect(ends([false, true, true, false, true])).toEqual([10, 30, 30, 40, 50]);
  });

  it('may lie beyond the end of the week', () => {
    expect(ends([true, true, false, true])).toEqual([20, 20, 30, 60]);
    expect(ends([true, false, true, true])).toEqual([10, 20, 50, 50]);
  });

  it('are nowhere where it always holds', () => {
    expect(ends([true, true])).toEqual([NEVER, NEVER]);
    expect(ends([false])).toEqual([10]);
  });
});

describe('by hand, in a week of a minute', () => {
  it('the segment of a moment says what holds there', () => {
    const clock = clockOf(WEEK);
    expect(clock.segmentAt(5)).toEqual({
      index: 0,
      endS: 10,
      open: false,
      operator: false,
      slow: false,
      shift: 10,
    });
    expect(clock.segmentAt(80)).toEqual({
      index: 2,
      endS: 84,
      open: true,
      operator: false,
      slow: true,
      shift: 12,
    });
    expect(clock.segmentAt(145)).toEqual({
      index: 3,
      endS: 150,
      open: true,
      operator: true,
      slow: true,
      shift: 13,
    });
    expect(clock.segmentAt(49)).toEqual({
      index: 4,
      endS: 50,
      open: true,
      operator: false,
      slow: false,
      shift: 14,
    });
  });

  it('the longest span, its end, and the open time between two moments', () => {
    const clock = clockOf(WEEK);
    expect(clock.longestSpanS).toBe(40);
    expect([clock.spanEnd(5), clock.spanEnd(10), clock.spanEnd(109), clock.spanEnd(110)]).toEqual([
      5, 50, 110, 110,
    ]);
    // Shut to 10; then 38 s to 50, and from 70 on those of the next week.
    expect([clock.openBetween(3, 12), clock.openBetween(12, 75), clock.openBetween(48, 70)]).toEqual([
      2, 43, 2,
    ]);
    expect([clock.operatorBetween(3, 12), clock.operatorBetween(12, 75)]).toEqual([2, 8 + 6 + 5]);
  });

  it('travel takes twice as long while people are there, and rests while the cell is shut', () => {
    const clock = clockOf(WEEK);
    expect(clock.travelEnd(12, 5)).toBe(22);
    expect(clock.travelEnd(28, 5)).toBe(34);
    // Two seconds to 50, the other three from 70 on.
    expect(clock.travelEnd(48, 5)).toBe(76);
    // Work of no time at all is over when it could begin.
    expect([clock.travelEnd(3, 0), clock.travelEnd(13, 0)]).toEqual([10, 13]);
    expect(clock.travelEnd(NEVER, 1)).toBe(NEVER);
  });

  it('other work goes on at full pace while the cell is open', () => {
    const clock = clockOf(WEEK);
    expect(clock.openEnd(12, 5)).toBe(17);
    expect(clock.openEnd(48, 5)).toBe(73);
    // The whole 40 s of a week more.
    expect(clock.openEnd(48, 45)).toBe(133);
  });

  it('the operator works beside breaks, all attended time or all open time, as the rule says', () => {
    expect(clockOf(WEEK).operatorEnd(18, 4)).toBe(26);
    expect(clockOf(WEEK, 'no breaks').operatorEnd(18, 4)).toBe(22);
    expect(clockOf(WEEK).operatorEnd(28, 4)).toBe(72);
    expect(clockOf(WEEK, 'no breaks').operatorEnd(28, 4)).toBe(72);
    expect(clockOf(WEEK, 'always').operatorEnd(28, 4)).toBe(32);
    expect(clockOf(WEEK).operatorBetween(15, 75)).toBe(5 + 6 + 5);
    expect(clockOf(WEEK, 'no breaks').operatorBetween(15, 75)).toBe(15 + 5);
    expect(clockOf(WEEK, 'always').operatorBetween(15, 75)).toBe(35 + 5);
  });

  it('an act begins where closing does not cut it', () => {
    const clock = clockOf(WEEK);
    expect([clock.fitStart(5, 3), clock.fitStart(47, 3), clock.fitStart(48, 3)]).toEqual([10, 47, 70]);
    expect([clock.fitStart(0, 40), clock.fitStart(11, 40), clock.fitStart(0, 41)]).toEqual([10, 70, NEVER]);
    // At the very end no time is left, but the moment is still of the span before only by its end.
    expect(clock.fitStart(50, 0)).toBe(70);
    // A last digit lost in a sum is no reason to wait for the next week.
    expect(clock.fitStart(47, 3 + 1e-10)).toBe(47);
  });

  it('a span over the end of the week goes on into the next', () => {
    const clock = clockOf([
      { lengthS: 5, holds: 'alone' },
      { lengthS: 20, holds: 'shut' },
      { lengthS: 5, holds: 'attended' },
    ]);
    expect(clock.longestSpanS).toBe(10);
    expect([clock.spanEnd(26), clock.spanEnd(31), clock.spanEnd(3), clock.spanEnd(7)]).toEqual([
      35, 35, 5, 7,
    ]);
    expect([clock.fitStart(24, 10), clock.fitStart(26, 10)]).toEqual([25, 55]);
  });

  it('a week that never closes, one that never opens, and one in which nobody comes', () => {
    const open = clockOf([
      { lengthS: 7, holds: 'alone' },
      { lengthS: 3, holds: 'attended' },
    ]);
    expect([open.longestSpanS, open.spanEnd(8), open.fitStart(8, 1e6)]).toEqual([NEVER, NEVER, 8]);
    expect(open.openEnd(8, 25)).toBe(33);
    const shut = clockOf([{ lengthS: 9, holds: 'shut' }]);
    expect([shut.longestSpanS, shut.spanEnd(4), shut.fitStart(4, 0), shut.travelEnd(4, 1)]).toEqual([
      0,
      4,
      NEVER,
      NEVER,
    ]);
    const alone = clockOf([{ lengthS: 9, holds: 'alone' }]);
    expect([alone.operatorEnd(4, 0), alone.openEnd(4, 0)]).toEqual([NEVER, 4]);
  });
});

describe('half second by half second', () => {
  const stretches = fc.array(
    fc.record({
      lengthS: fc.integer({ min: 1, max: 6 }),
      holds: fc.constantFrom('shut' as const, 'alone' as const, 'break' as const, 'attended' as const),
    }),
    { minLength: 1, maxLength: 6 },
  );

  it('every answer is that of a count', () => {
    fc.assert(
      fc.property(
        stretches,
        fc.array(fc.integer({ min: 0, max: 70 }), { minLength: 4, maxLength: 8 }),
        (week, asked) => {
          const clock = clockOf(week);
          const weekS = clock.weekS;
          const at = week.flatMap(({ lengthS, holds }) =>
            new Array<Stretch['holds']>(2 * lengthS).fill(holds),
          );
          const holdsAt = (half: number) => at[half % at.length];
          const isOpen = (half: number) => holdsAt(half) !== 'shut';
          const speed = (half: number) => (isOpen(half) ? (holdsAt(half) === 'alone' ? 1 : 0.5) : 0);
          const there = (half: number) => (holdsAt(half) === 'attended' ? 1 : 0);
          /** Counts half seconds until the work is done. */
          const end = (pace: (half: number) => number, fromS: number, workS: number): number => {
            if (!at.some((_, half) => pace(half) > 0)) return NEVER;
            let half = 2 * fromS;
            while (pace(half) === 0) half++;
            for (let left = 2 * workS; left > 0; half++) left -= pace(half);
            return half / 2;
          };
          const between = (pace: (half: number) => number, fromS: number, toS: number): number => {
            let sum = 0;
            for (let half = 2 * fromS; half < 2 * toS; half++) sum += pace(half) / 2;
            return sum;
          };
          const open = (half: number) => (isOpen(half) ? 1 : 0);
          for (const [i, fromS] of asked.entries()) {
            const workS = asked[(i + 1) % asked.length] % 17;
            expect(clock.travelEnd(fromS, workS)).toBe(end(speed, fromS, workS));
            expect(clock.openEnd(fromS, workS)).toBe(end(open, fromS, workS));
            expect(clock.operatorEnd(fromS, workS)).toBe(end(there, fromS, workS));
            const toS = fromS + workS + 3;
            expect(clock.openBetween(fromS, toS)).toBe(between(open, fromS, toS));
            expect(clock.operatorBetween(fromS, toS)).toBe(between(there, fromS, toS));
            const suits = (half: number) =>
              isOpen(half) && Array.from({ length: 2 * workS }, (_, k) => half + k).every(isOpen);
            let first = 2 * fromS;
            while (first <= 2 * (fromS + weekS) && !suits(first)) first++;
            expect(clock.fitStart(fromS, workS)).toBe(first > 2 * (fromS + weekS) ? NEVER : first / 2);
            let closes = 2 * fromS;
            while (closes <= 2 * (fromS + weekS) && isOpen(closes)) closes++;
            expect(clock.spanEnd(fromS)).toBe(closes > 2 * (fromS + weekS) ? NEVER : closes / 2);
          }
        },
      ),
    );
  });
});
