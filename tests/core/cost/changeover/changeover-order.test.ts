import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeoverOrder } from '../../../../src/core/cost/changeover/changeover-order.js';
import { goodTour } from '../../../../src/core/cost/changeover/improve-tour.js';
import { shortestTourByTable } from '../../../../src/core/cost/changeover/shortest-tour-table.js';
import { tourBySubtours } from '../../../../src/core/cost/changeover/tour-by-subtours.js';
import { leastAssignment } from '../../../../src/core/lp/least-assignment.js';
import br17 from '../../../reference/published/br17.json' with { type: 'json' };
import ftv33 from '../../../reference/published/ftv33.json' with { type: 'json' };
import { cases } from '../../../support/size.js';

function lengthOf(minutes: readonly (readonly number[])[], order: readonly number[], round: boolean): number {
  const steps = order.slice(1).reduce((sum, job, k) => sum + minutes[order[k]!]![job]!, 0);
  return round && order.length > 1 ? steps + minutes[order.at(-1)!]![order[0]!]! : steps;
}

/** Least over all orders, by trying them all. */
function bruteForce(minutes: readonly (readonly number[])[], round: boolean, first?: number): number {
  const jobs = minutes.map((_, k) => k);
  const extend = (order: number[]): number => {
    if (order.length === jobs.length) return lengthOf(minutes, order, round);
    return Math.min(...jobs.filter((job) => !order.includes(job)).map((job) => extend([...order, job])));
  };
  const starts = first !== undefined ? [first] : round ? [0] : jobs;
  return Math.min(...starts.map((start) => extend([start])));
}

const tables = (most: number) =>
  fc.integer({ min: 1, max: most }).chain((n) =>
    fc.array(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: n, maxLength: n }), {
      minLength: n,
      maxLength: n,
    }),
  );

describe('order of changeovers', () => {
  it.each([
    ['br17', br17],
    ['ftv33', ftv33],
  ])('published instance %s: the optimum, proven', (_name, instance) => {
    const found = changeoverOrder(instance.matrix, { round: true });
    expect(found.minutes).toBe(instance.optimum);
    expect(found.proven).toBe(true);
    expect(found.boundMinutes).toBe(instance.optimum);
    expect([...found.order].sort((a, b) => a - b)).toEqual(instance.matrix.map((_, k) => k));
    expect(lengthOf(instance.matrix, found.order, true)).toBe(instance.optimum);
  });

  it('br17 by the table of all sets', () => {
    const tour = shortestTourByTable(br17.matrix);
    expect(lengthOf(br17.matrix, tour, true)).toBe(39);
  });

  it('a stopped search gives its bound and an honest gap', () => {
    const found = changeoverOrder(ftv33.matrix, { round: true, nodeLimit: 1 });
    expect(found.minutes).toBeGreaterThanOrEqual(1286);
    expect(found.minutes).toBeLessThan(1286 * 1.05);
    expect(found.boundMinutes).toBeLessThanOrEqual(1286);
    expect(found.proven).toBe(found.minutes === found.boundMinutes);
    expect(found.gapPct).toBeCloseTo((100 * (found.minutes - found.boundMinutes)) / found.minutes, 9);
  });

  it('is the least of all orders, as a round and as a line', () => {
    fc.assert(
      fc.property(tables(6), fc.boolean(), fc.boolean(), (minutes, round, fixed) => {
        const first = fixed ? minutes.length - 1 : undefined;
        const found = changeoverOrder(minutes, { round, ...(first === undefined ? {} : { first }) });
        expect(found.order.length).toBe(minutes.length);
        expect(new Set(found.order).size).toBe(minutes.length);
        if (first !== undefined) expect(found.order[0]).toBe(first);
        expect(found.minutes).toBe(minutes.length === 1 ? 0 : bruteForce(minutes, round, first));
        expect(lengthOf(minutes, found.order, round && minutes.length > 1)).toBe(found.minutes);
      }),
      { numRuns: cases(150) },
    );
  });

  it('branch and bound and the table of all sets agree on 16 jobs, called by themselves', () => {
    let state = 7;
    const next = () => {
      state = (state * 48271) % 2147483647;
      return state % 50;
    };
    for (let k = 0; k < 5; k++) {
      const minutes = Array.from({ length: 16 }, () => Array.from({ length: 16 }, next));
      const found = tourBySubtours(minutes, goodTour(minutes), 5000);
      expect(found.bound).toBe(found.minutes);
      expect(found.minutes).toBe(lengthOf(minutes, shortestTourByTable(minutes), true));
    }
  });

  it('the assignment is the least of all', () => {
    fc.assert(
      fc.property(tables(6), (costs) => {
        const least = (row: number, used: ReadonlySet<number>): number => {
          if (row === costs.length) return 0;
          return Math.min(
            ...costs[row]!.flatMap((cost, j) =>
              used.has(j) ? [] : [cost + least(row + 1, new Set([...used, j]))],
            ),
          );
        };
        const found = leastAssignment(costs);
        expect(new Set(found.columnOf).size).toBe(costs.length);
        expect(found.total).toBe(least(0, new Set()));
      }),
      { numRuns: cases(100) },
    );
  });

  it('refuses a table that is not square or holds what is no time', () => {
    expect(() => changeoverOrder([])).toThrow('there must be at least one job');
    expect(() => changeoverOrder([[0, 1]])).toThrow('row 1 of the table holds 2 numbers for 1 jobs');
    expect(() =>
      changeoverOrder([
        [0, -1],
        [1, 0],
      ]),
    ).toThrow('from job 1 to job 2: found -1');
    expect(() =>
      changeoverOrder([
        [0, Number.NaN],
        [1, 0],
      ]),
    ).toThrow('minutes must be 0 or more');
    expect(() => changeoverOrder([[0]], { first: 1 })).toThrow('it must be a place from 0 to 0');
  });
});
