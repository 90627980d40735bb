/** The order of jobs with the fewest set-up minutes, as the tables give it, held against listing every order. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell, Setup } from '../../../src/core/model/cell.js';
import { setupOrders } from '../../../src/core/setups/setup-orders.js';
import { emptyCell } from '../../support/line-cell.js';

const row = (station: string, from: string, to: string, minutes: number): Setup => ({
  station,
  from,
  to,
  minutes,
});
const cellOf = (setups: readonly Setup[]): Cell => ({
  ...emptyCell,
  stations: [],
  routes: [],
  travel: [],
  setups,
});

function orders(jobs: readonly string[]): string[][] {
  if (jobs.length < 2) return [[...jobs]];
  return jobs.flatMap((job) => orders(jobs.filter((other) => other !== job)).map((rest) => [job, ...rest]));
}

/** Added up along the order; the way back of a pair takes the same where it has no row. */
function minutesOf(setups: readonly Setup[], order: readonly string[], round: boolean): number {
  const next = round ? [...order.slice(1), order[0]] : order.slice(1);
  return next.reduce((sum, to, k) => {
    const from = order[k];
    if (from === to) return sum;
    const there = setups.find((s) => s.from === from && s.to === to);
    const back = setups.find((s) => s.from === to && s.to === from);
    return sum + (there ?? back!).minutes;
  }, 0);
}

const JOBS = ['a', 'b', 'c', 'd', 'e', 'f'];
/** Some or all ways back have rows of their own. */
const someSetups = fc
  .record({
    count: fc.integer({ min: 2, max: 6 }),
    minutes: fc.array(fc.integer({ min: 0, max: 90 }), { minLength: 36, maxLength: 36 }),
    backs: fc.array(fc.boolean(), { minLength: 36, maxLength: 36 }),
  })
  .map(({ count, minutes, backs }) =>
    JOBS.slice(0, count).flatMap((from, i) =>
      JOBS.slice(0, count).flatMap((to, j) =>
        i < j || (i > j && backs[i * 6 + j]) ? [row('m', from, to, minutes[i * 6 + j])] : [],
      ),
    ),
  );

describe('a pair with a row in one direction only', () => {
  const one = [row('m', 'a', 'b', 30), row('m', 'b', 'c', 20)];
  const text = (pairs: string): string =>
    `m: changeovers without a row of their own in setups.csv are taken to need the minutes of the other direction: ${pairs}.`;

  it('is asked about where other pairs of the machine have both', () => {
    const found = setupOrders(cellOf([...one, row('m', 'b', 'a', 11), row('m', 'a', 'c', 9)]));
    expect(found.warnings).toEqual([text('c to b 20 min, c to a 9 min')]);
    expect(found.assumptions.join()).not.toContain('other direction');
  });

  it('is assumed to be alike both ways where all pairs are like that', () => {
    const found = setupOrders(cellOf([...one, row('m', 'a', 'c', 9)]));
    expect(found.warnings).toEqual([]);
    expect(found.assumptions).toContain(text('b to a 30 min, c to b 20 min, c to a 9 min'));
  });
});

describe('against every order', () => {
  it.each([
    [true, false],
    [false, false],
    [false, true],
  ])('round %s, with a job set up now %s', (round, hasNow) => {
    fc.assert(
      fc.property(someSetups, (setups) => {
        const now = hasNow ? 'b' : undefined;
        const result = setupOrders(cellOf(setups), { once: !round, ...(now === undefined ? {} : { now }) });
        const [found] = result.stations;
        const jobs = [...new Set(setups.flatMap((s) => [s.from, s.to]))];
        const all = orders(jobs).filter((order) => now === undefined || order[0] === now);
        const least = Math.min(...all.map((order) => minutesOf(setups, order, round)));
        expect(found!.proven).toBe(true);
        expect(found!.minutes).toBe(least);
        expect(minutesOf(setups, found!.order, round)).toBe(least);
        expect(found!.steps.reduce((sum, step) => sum + step.minutes, 0)).toBe(least);
        expect(found!.asListedMinutes).toBeGreaterThanOrEqual(least);
        if (now !== undefined) expect(found!.order[0]).toBe(now);
      }),
      { numRuns: 60 },
    );
  });
});

it('each machine by itself; a job that one of them does not have changes nothing there', () => {
  const setups = [row('m1', 'a', 'b', 5), row('m1', 'b', 'a', 7), row('m2', 'c', 'd', 4)];
  const result = setupOrders(cellOf(setups), { now: 'b' });
  expect(result.stations.map(({ station, order, minutes }) => ({ station, order, minutes }))).toEqual([
    { station: 'm1', order: ['b', 'a'], minutes: 12 },
    { station: 'm2', order: ['c', 'd'], minutes: 8 },
  ]);
});

it('no rows: no machines, and nothing claimed', () => {
  expect(setupOrders(cellOf([])).stations).toEqual([]);
});

describe('what is said of the way back', () => {
  it('pairs with a row in one direction only are named with the minutes that are taken', () => {
    const setups = [row('m', 'a', 'b', 20), row('n', 'a', 'b', 5), row('n', 'b', 'a', 7)];
    const lone = { ...row('m', 'b', 'c', 30), at: { file: 'setups.csv', line: 7 } };
    const said = setupOrders(cellOf([...setups, lone, row('m', 'a', 'c', 9), row('m', 'c', 'a', 9)]));
    expect(said.warnings.filter((text) => text.includes('direction'))).toEqual([
      'm: changeovers without a row of their own in setups.csv are taken to need the minutes of the other direction: b to a 20 min, c to b 30 min (line 7).',
    ]);
  });

  it('of many pairs five are named', () => {
    const setups = JOBS.flatMap((from, i) => JOBS.slice(i + 1).map((to) => row('m', from, to, 10)));
    expect(setupOrders(cellOf(setups)).assumptions.at(-1)).toMatch(/f to a 10 min and 10 more\.$/);
  });
});
