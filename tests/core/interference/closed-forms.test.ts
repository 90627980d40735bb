/** Properties of the closed forms over their whole range, and what they refuse. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  constantServiceInterference,
  erlangServiceInterference,
} from '../../../src/core/interference/constant-service-interference.js';
import { finiteSourceQueue } from '../../../src/core/interference/finite-source-queue.js';
import { randomServicing } from '../../../src/core/interference/random-servicing.js';
import {
  largestWithoutWaiting,
  synchronousCostAround,
  synchronousCostPerPart,
  synchronousServicing,
} from '../../../src/core/interference/synchronous-servicing.js';
import { wrightInterference } from '../../../src/core/interference/wright-interference.js';

const machines = fc.integer({ min: 1, max: 200 });
const time = fc.double({ min: 0.01, max: 1000, noNaN: true });

describe('constant and Erlang service', () => {
  it('one phase equals the exponential finite-source queue up to 200 machines', () => {
    fc.assert(
      fc.property(machines, time, time, (n, runS, serviceS) => {
        const erlang = erlangServiceInterference(n, runS, serviceS, 1).runningMachines;
        const exact = finiteSourceQueue({ runS, serviceS, machines: n, servers: 1 }).runningMachines;
        expect(Math.abs(erlang - exact)).toBeLessThanOrEqual(1e-9 * Math.max(1, exact));
      }),
    );
  });

  it('steadier service never runs fewer machines, and neither beats the deterministic limit', () => {
    fc.assert(
      fc.property(machines, time, time, (n, runS, serviceS) => {
        const constant = constantServiceInterference(n, runS, serviceS);
        const erlang = erlangServiceInterference(n, runS, serviceS, 3);
        expect(constant.perS).toBeGreaterThanOrEqual(erlang.perS * (1 - 1e-9));
        expect(constant.perS).toBeLessThanOrEqual(Math.min(n / (runS + serviceS), 1 / serviceS) * (1 + 1e-9));
        expect(constant.waitS).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('many phases come near to constant service', () => {
    const many = erlangServiceInterference(6, 10, 1, 100_000).runningMachines;
    expect(many).toBeCloseTo(constantServiceInterference(6, 10, 1).runningMachines, 4);
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
        const around = synchronousCostAround(times, costs);
        const best = Math.min(around.below.costPerPart, around.above.costPerPart);
        expect(synchronousCostPerPart(times, n, costs)).toBeGreaterThanOrEqual(best * (1 - 1e-12));
      }),
    );
  });

  it('the largest number without waiting is the whole part of n prime where the walk is constant', () => {
    const times = { serviceS: 30, runS: 200, walkS: 7 };
    const n = largestWithoutWaiting(230, () => 37);
    expect(n).toBe(Math.floor(synchronousServicing(times)));
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
    () => erlangServiceInterference(5, 1, 1, 0),
    () => largestWithoutWaiting(0, () => 1),
  ])('case %#', (call) => {
    expect(call).toThrow(RangeError);
  });
});
