/** Properties of the closed forms over their whole range, and what they refuse. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { constantServiceInterference } from '../../../src/core/interference/constant-service-interference.js';
import { finiteSourceQueue } from '../../../src/core/interference/finite-source-queue.js';
import { randomServicing } from '../../../src/core/interference/random-servicing.js';
import {
  synchronousCostPerPart,
  synchronousRound,
  synchronousServicing,
} from '../../../src/core/interference/synchronous-servicing.js';
import { wrightInterference } from '../../../src/core/interference/wright-interference.js';

const machines = fc.integer({ min: 1, max: 200 });
const time = fc.double({ min: 0.01, max: 1000, noNaN: true });

describe('constant service', () => {
  it('steadier service never runs fewer machines, and neither beats the deterministic limit', () => {
    fc.assert(
      fc.property(machines, time, time, (n, runS, serviceS) => {
        const constant = constantServiceInterference(n, runS, serviceS);
        const exponential = finiteSourceQueue({ runS, serviceS, machines: n, servers: 1 });
        expect(constant.perS).toBeGreaterThanOrEqual(exponential.perS * (1 - 1e-9));
        expect(constant.perS).toBeLessThanOrEqual(Math.min(n / (runS + serviceS), 1 / serviceS) * (1 + 1e-9));
        expect(constant.waitS).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('stays finite for 200 machines at any load', () => {
    for (const k of [1e-6, 0.001, 0.1, 1, 100])
      expect(constantServiceInterference(200, 1, k).runningMachines).toSatisfy(Number.isFinite);
  });
});

describe('the finite-source queue', () => {
  it('chances add up to 1, and running, waiting and served machines add up to all', () => {
    fc.assert(
      fc.property(machines, fc.integer({ min: 1, max: 10 }), time, time, (n, servers, runS, serviceS) => {
        const q = finiteSourceQueue({ runS, serviceS, machines: n, servers });
        expect(q.chanceDown.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
        expect(q.runningMachines + q.waiting + q.perS * serviceS).toBeCloseTo(n, 6);
      }),
    );
  });
});

describe('synchronous servicing', () => {
  it('no number of machines is cheaper than the better side of n prime', () => {
    fc.assert(
      fc.property(time, time, time, fc.integer({ min: 1, max: 60 }), (serviceS, runS, walkS, n) => {
        const times = { serviceS, runS, walkS };
        const costs = { robotPerH: 12, machinePerH: 30 };
        const below = Math.max(1, Math.floor(synchronousServicing(times) + 1e-9));
        const sides = [below, below + 1].map((count) => synchronousCostPerPart(times, count, costs));
        const best = Math.min(...sides);
        expect(synchronousCostPerPart(times, n, costs)).toBeGreaterThanOrEqual(best * (1 - 1e-12));
      }),
    );
  });

  it('up to n prime no machine waits, above it each does', () => {
    fc.assert(
      fc.property(time, time, time, fc.integer({ min: 1, max: 60 }), (serviceS, runS, walkS, n) => {
        const times = { serviceS, runS, walkS };
        const ideal = synchronousServicing(times);
        fc.pre(Math.abs(n - ideal) > 1e-9 * n);
        expect(synchronousRound(times, n).machineIdleS > 0).toBe(n > ideal);
      }),
    );
  });
});

describe('what is out of range is refused', () => {
  it.each([
    () => synchronousServicing({ serviceS: 0, runS: 5, walkS: 0 }),
    () => synchronousServicing({ serviceS: -1, runS: 5, walkS: 2 }),
    () => synchronousServicing({ serviceS: Number.NaN, runS: 5, walkS: 2 }),
    () => randomServicing(3, 1.2),
    () => randomServicing(0, 0.2),
    () => wrightInterference(0, 5),
    () => wrightInterference(5, Number.POSITIVE_INFINITY),
    () => finiteSourceQueue({ runS: 0, serviceS: 1, machines: 3, servers: 1 }),
    () => finiteSourceQueue({ runS: 1, serviceS: 1, machines: 2.5, servers: 1 }),
    () => constantServiceInterference(5, 0, 1),
  ])('case %#', (call) => {
    expect(call).toThrow(RangeError);
  });
});
