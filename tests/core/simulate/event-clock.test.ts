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
});
