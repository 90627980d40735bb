// The order of the next events: by hand over three blocks of timers, and against a plain search.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EventClock } from '../../../src/core/floor/event-clock.js';

describe('the event clock', () => {
  it('always gives the least time, and of equal times the least number', () => {
    const setting = fc.tuple(fc.nat(70), fc.oneof(fc.nat(6), fc.constant(Number.POSITIVE_INFINITY)));
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 71 }),
        fc.array(setting, { maxLength: 200 }),
        (count, settings) => {
          const clock = new EventClock(count);
          const times = new Array<number>(count).fill(Number.POSITIVE_INFINITY);
          for (const [i, t] of settings) {
            const timer = i % count;
            clock.set(timer, t);
            times[timer] = t;
            const least = Math.min(...times);
            if (least < Number.POSITIVE_INFINITY) expect(clock.first).toBe(times.indexOf(least));
            expect(clock.times[clock.first]).toBe(least);
          }
        },
      ),
    );
  });

  it('by hand: over three blocks of eight', () => {
    const clock = new EventClock(20);
    const OFF = Number.POSITIVE_INFINITY;
    for (const [timer, timeS, first, what] of [
      [3, 5, 3, 'the only one'],
      [11, 4, 11, 'an earlier one in another block'],
      [19, 4, 11, 'of equal times the least number'],
      [2, 4, 2, 'a lower number of the same time'],
      [2, OFF, 11, 'taken out'],
      [11, 9, 19, 'later in its own block'],
      [12, 9, 19, 'one that is later'],
      [19, OFF, 3, 'the last timer taken out'],
      [3, 20, 11, 'of equal times in one block the least number'],
      [8, 9, 8, 'a lower number of the same time in one block'],
      [8, 30, 11, 'back again'],
      [11, OFF, 12, 'and the next of them'],
      [7, 9, 7, 'a lower number in a block before'],
      [16, 1, 16, 'the first of the last block'],
      [17, 1, 16, 'the same time in one block'],
      [16, 2, 17, 'overtaken in its own block'],
      [17, OFF, 16, 'and first again'],
      [16, OFF, 7, 'nothing left in the last block'],
    ] as const) {
      clock.set(timer, timeS);
      expect(clock.first, what).toBe(first);
    }
  });

  it('by hand: the first and the last of a block', () => {
    const clock = new EventClock(16);
    const firstAfter = (timer: number, timeS: number) => {
      clock.set(timer, timeS);
      return clock.first;
    };
    expect([firstAfter(7, 1), firstAfter(0, 2), firstAfter(7, 3), firstAfter(0, 4)]).toEqual([7, 7, 0, 7]);
    // The block after it does not count among its own.
    expect([firstAfter(8, 1), firstAfter(7, 6), firstAfter(0, 7), firstAfter(8, 10)]).toEqual([8, 8, 8, 7]);
    const other = new EventClock(16);
    for (const [timer, timeS] of [
      [0, 1],
      [9, 5],
      [0, Number.POSITIVE_INFINITY],
    ] as const)
      other.set(timer, timeS);
    expect(other.first).toBe(9);
  });
});
