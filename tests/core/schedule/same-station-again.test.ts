// A part that comes to one station twice, as its first and second operation do: against all orders listed.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../src/core/schedule/bound/rate-bound.js';
import { emptyCell, station, step } from '../../support/line-cell.js';
import { listedPeriod } from '../../support/listed-orders.js';
import { againShop, brushTwiceShop, type ShopCase } from '../../support/random-shops.js';
import { cases } from '../../support/size.js';

/** @returns whether the cell has a sequence, and whether the search says that it looked at all of them */
function expectListed({ cell, ways }: ShopCase, what: string): 'none' | 'proven' | 'limit' {
  const parts = ways.reduce((sum, way) => sum + way.count, 0);
  const found = bestSchedule(cell, { partsPerPeriod: parts, improvements: false });
  const { periodS } = listedPeriod(cell, ways);
  if (periodS === null) {
    expect(found.status, what).toBe('infeasible');
    return 'none';
  }
  if (!('partSet' in found)) throw new Error(`${what}: ${found.status}, but ${periodS} s by the list`);
  const { proven, boundS } = found.partSet;
  expect(found.periodS, what).toBeGreaterThanOrEqual(periodS - 1e-6);
  expect(boundS, what).toBeLessThanOrEqual(periodS + 1e-6);
  if (proven) expect(found.periodS, what).toBeCloseTo(periodS, 6);
  else expect(found.searched.complete, what).toBe(false);
  const bound = rateBound(cell);
  expect(bound.found && bound.total, what).toBeGreaterThanOrEqual((3600 * parts) / periodS - 1e-6);
  return proven ? 'proven' : 'limit';
}

describe('480 cells against all orders listed', () => {
  it.each([
    ['one part, one hand', 150, (seed: number) => againShop(seed, 1, 1)],
    ['one part, two hands', 100, (seed: number) => againShop(seed, 2, 1)],
    ['two parts, one hand', 60, (seed: number) => againShop(seed, 1, 2)],
    ['two parts, two hands', 30, (seed: number) => againShop(seed, 2, 2)],
    ['longest waits', 80, (seed: number) => againShop(seed, 1, 1, 60)],
    ['a brush twice, past a gauge', 40, (seed: number) => brushTwiceShop(seed, 1)],
    ['a brush twice, two hands', 20, (seed: number) => brushTwiceShop(seed, 2)],
  ])('%s, %i cells', (what, all, build) => {
    const cells = cases(all);
    const ends = Array.from({ length: cells }, (_, k) =>
      expectListed(build(k + 1), `${what}, seed ${k + 1}`),
    );
    const count = (end: string): number => ends.filter((e) => e === end).length;
    expect(count('none')).toBeLessThan(cells / 2);
    // Where a limit ends the search before a proof, its bound holds all the same; that may be so in one cell of twenty.
    expect(count('limit')).toBeLessThanOrEqual(cells / 20);
  });
});

/** One hand, the same travel time between any two places, times at the robot as given by step: load, unload. */
function lineThrough(stops: readonly (readonly [string, number, number, number])[], travelS: number): Cell {
  const names = [...new Set(stops.map(([at]) => at))];
  return {
    ...emptyCell,
    robot: { ...emptyCell.robot, travelS },
    stations: names.map((name) =>
      station(name, name === 'in' ? 'infeed' : name === 'out' ? 'outfeed' : 'machine'),
    ),
    travel: [],
    routes: [
      {
        part: 'part',
        steps: stops.map(([at, cycleS, loadS, unloadS], i) => step(i + 1, at, { cycleS, loadS, unloadS })),
      },
    ],
  };
}

describe('by hand', () => {
  it('the second operation follows at once: 15.1 parts an hour, and the bound is not below', () => {
    // Load 10, 100, unload 8, load 10, 80, unload 8; then 4 there, 5, 4 back, 5, 4: 238 s in which the mill has its part or its next one.
    const cell = lineThrough(
      [
        ['in', 0, 0, 5],
        ['mill', 100, 10, 8],
        ['mill', 80, 10, 8],
        ['out', 0, 5, 0],
      ],
      4,
    );
    const found = bestSchedule(cell, { partsPerPeriod: 1, improvements: false });
    expect(found).toMatchObject({ status: 'proven', periodS: 238 });
    const bound = rateBound(cell);
    expect(bound.found && bound.total).toBeCloseTo(3600 / 238, 6);
  });

  it('a line whose last machine works on each part twice: 109 s, not 117 s', () => {
    const cell = lineThrough(
      [
        ['in', 0, 0, 2],
        ['m1', 10, 3, 6],
        ['m2', 42, 2, 3],
        ['m3', 15, 8, 6],
        ['m3', 44, 6, 4],
        ['out', 0, 5, 0],
      ],
      6,
    );
    const found = bestSchedule(cell, { partsPerPeriod: 1, improvements: false });
    expect(found).toMatchObject({ status: 'proven', periodS: 109 });
  });
});
