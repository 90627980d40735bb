// The search by gaps against a listing of all orders, against HiGHS, and against the search that builds orders move by
// move. The three share no code with it but the evaluation of a finished order.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../../src/core/model/cell.js';
import { bestSchedule } from '../../../../../src/core/schedule/best-schedule.js';
import { periodBound } from '../../../../../src/core/schedule/bound/period-bound.js';
import { buildPlan, type Plan } from '../../../../../src/core/schedule/plan/plan.js';
import { searchGaps } from '../../../../../src/core/schedule/search/gaps/search-gaps.js';
import {
  type SearchLimits,
  searchOrder,
} from '../../../../../src/core/schedule/search/order/search-order.js';
import { highsSolve } from '../../../../support/highs-line.js';
import { station, step } from '../../../../support/line-cell.js';
import { listedPeriod, type PartWay } from '../../../../support/listed-orders.js';
import { randomSerial, serialCell } from '../../../../support/random-cells.js';
import {
  drawFrom,
  ends,
  fixtureShop,
  heldShop,
  independentShop,
  makeCell,
  mixedShop,
  roomyShop,
  type ShopCase,
  serialShop,
} from '../../../../support/random-shops.js';
import { atSize, cases } from '../../../../support/size.js';
import { unlikeCell, unlikeMachines, visitsModel } from '../../../../support/unlike-cells.js';
import { wayPaths } from '../../../../support/way-paths.js';

const noLimits: SearchLimits = {
  belowS: Number.POSITIVE_INFINITY,
  nodes: 1_000_000,
  untilMs: Number.POSITIVE_INFINITY,
};

const planOf = ({ cell, ways }: ShopCase): Plan => buildPlan(cell, wayPaths(cell, ways));

function countedWays(cell: Cell, counts: readonly number[]): PartWay[] {
  return counts.map((count, route) => ({
    route,
    count,
    stations: cell.routes[route].steps.map((s) => s.stations[0]),
  }));
}

const unlikePlan = (seed: number, counts: readonly number[]): Plan => {
  const cell = unlikeCell(unlikeMachines(seed, counts.length));
  return buildPlan(cell, wayPaths(cell, countedWays(cell, counts)));
};

/** The floor plans have whole seconds; the free travel tables among these break the triangle rule. */
const kinds: [string, number, (seed: number) => ShopCase][] = [
  ['visits 1 : 1', 30, (seed) => independentShop(seed, 1, [1, 1])],
  ['visits 2 : 1', 40, (seed) => independentShop(seed, 1, [2, 1])],
  ['visits 2 : 2', 15, (seed) => independentShop(seed, 1, [2, 2])],
  ['visits 3 : 1', 30, (seed) => independentShop(seed, 1, [3, 1])],
  ['visits 2 : 1 : 1', 15, (seed) => independentShop(seed, 1, [2, 1, 1])],
  ['a line', 40, (seed) => serialShop(seed, { machines: 1 + (seed % 4) })],
  ['a line, two to four parts', 30, (seed) => serialShop(seed, { machines: 2, parts: 2 + (seed % 3) })],
  ['held steps', 30, (seed) => heldShop(seed, 1, 1 + (seed % 2))],
];

describe('against all orders listed', () => {
  it.each(kinds)('%s', (_, cells, build) => {
    let others = 0;
    for (let seed = 1; seed <= cases(cells); seed++) {
      const shop = build(seed);
      const found = searchGaps(planOf(shop), noLimits);
      // A move that takes no time at all, its way included, is left to the other searches.
      if (found === null) {
        others++;
        continue;
      }
      const listed = listedPeriod(shop.cell, shop.ways).periodS!;
      expect(found.complete, `seed ${seed}`).toBe(true);
      expect(found.best?.periodS, `seed ${seed}`).toBeCloseTo(listed, 6);
      expect(found.boundS, `seed ${seed}`).toBeCloseTo(listed, 6);
    }
    expect(others).toBeLessThan(cells / 10);
  });

  it('a machine of its own beside a part that the robot only carries and brushes', () => {
    for (let seed = 1; seed <= cases(12); seed++) {
      const draw = drawFrom(seed);
      const inner = (name: string, cycleS: number) => [
        step(1, 'in', { unloadS: draw(1, 4) }),
        step(2, name, { cycleS, loadS: draw(1, 4), unloadS: draw(1, 4) }),
        step(3, 'out', { loadS: draw(1, 4) }),
      ];
      const routes = [
        { part: 'a', steps: inner('m1', draw(20, 60)) },
        { part: 'b', steps: inner('brush', draw(3, 9)) },
      ];
      const stations = [...ends, station('m1', 'machine'), station('brush', 'held')];
      const cell = makeCell(draw, { hands: 1 }, stations, routes);
      const ways = countedWays(cell, [1 + (seed % 2), 1]);
      const listed = listedPeriod(cell, ways).periodS!;
      const found = searchGaps(buildPlan(cell, wayPaths(cell, ways)), noLimits);
      expect(found?.complete).toBe(true);
      expect(found?.best?.periodS, `seed ${seed}`).toBeCloseTo(listed, 6);
      const mix = ways.map(({ count }, i) => ({
        part: routes[i].part,
        contribution: null,
        perShift: null,
        ratio: count,
        yieldPct: 100,
      }));
      for (const hands of [1, 2] as const) {
        const mixed = { ...cell, robot: { ...cell.robot, hands }, parts: mix };
        const whole = bestSchedule(mixed, { partsPerPeriod: 2 + (seed % 2), improvements: false });
        const least = hands === 1 ? listed : listedPeriod(mixed, ways).periodS!;
        expect('periodS' in whole && whole.periodS, `${hands} hands, seed ${seed}`).toBeCloseTo(least, 6);
      }
    }
  });
});

describe('against HiGHS', () => {
  it.each([[[3, 2]], [[4, 3]], [[2, 2, 1]], [[2, 1, 1, 1]]])('visits %j', (counts) => {
    for (let seed = 1; seed <= atSize(2, 4); seed++) {
      const reference = highsSolve(visitsModel(unlikeMachines(seed, counts.length), [0, ...counts]));
      expect(reference.Status, `seed ${seed}`).toBe('Optimal');
      const found = searchGaps(unlikePlan(seed, counts), noLimits);
      expect(found?.complete).toBe(true);
      expect(found?.best?.periodS, `seed ${seed}`).toBeCloseTo(reference.ObjectiveValue, 4);
    }
  });
});

describe('against the search move by move', () => {
  it.each([[[4, 5]], [[3, 2, 2]], [[2, 3, 4]], [[2, 1, 2, 1]], [[1, 2, 1, 1, 2]]])('visits %j', (counts) => {
    let proofs = 0;
    for (let seed = 11; seed <= atSize(15, 20); seed++) {
      const plan = unlikePlan(seed, counts);
      const found = searchGaps(plan, noLimits);
      const other = searchOrder(plan, { ...noLimits, nodes: 150_000 });
      expect(found?.complete).toBe(true);
      if (other.complete) {
        proofs++;
        expect(found?.best?.periodS, `seed ${seed}`).toBeCloseTo(other.best!.periodS, 6);
      } else {
        expect(found!.best!.periodS, `seed ${seed}`).toBeLessThanOrEqual(other.best!.periodS + 1e-6);
        expect(found!.best!.periodS, `seed ${seed}`).toBeGreaterThanOrEqual(other.boundS - 1e-6);
      }
    }
    expect(proofs).toBeGreaterThan(atSize(1, 3));
  });
});

describe('lines whose robot is busy, against the search move by move', () => {
  it.each([6, 8, 10])('%i machines', (machines) => {
    for (let seed = 1; seed <= cases(8); seed++) {
      const cell = serialCell(randomSerial({ machines, seed: seed + 40, longestCycleS: 20 * machines }));
      const plan = buildPlan(cell, wayPaths(cell, countedWays(cell, [1])));
      const found = searchGaps(plan, noLimits)!;
      const other = searchOrder(plan, noLimits);
      expect(found.complete && other.complete, `seed ${seed}`).toBe(true);
      expect(found.best?.periodS, `seed ${seed}`).toBeCloseTo(other.best!.periodS, 6);
    }
  });
});

describe('limits', () => {
  const counts = [3, 4, 2];

  it('only periods below the asked one count', () => {
    for (let seed = 1; seed <= cases(8); seed++) {
      const plan = unlikePlan(seed, counts);
      const { periodS } = searchGaps(plan, noLimits)!.best!;
      const below = searchGaps(plan, { ...noLimits, belowS: periodS })!;
      expect(below.best).toBeNull();
      expect(below.complete).toBe(true);
      const above = searchGaps(plan, { ...noLimits, belowS: periodS + 0.001 })!;
      expect(above.best?.periodS).toBeCloseTo(periodS, 6);
    }
  });

  it('a search that stops early claims no more than it knows', () => {
    for (let seed = 1; seed <= cases(8); seed++) {
      const plan = unlikePlan(seed, counts);
      const whole = searchGaps(plan, noLimits)!;
      for (const nodes of [1, 3, Math.floor(whole.nodes / 2)]) {
        const part = searchGaps(plan, { ...noLimits, nodes })!;
        expect(part.boundS).toBeGreaterThanOrEqual(periodBound(plan) - 1e-9);
        expect(part.boundS).toBeLessThanOrEqual(whole.best!.periodS + 1e-6);
        if (part.best !== null) expect(part.best.periodS).toBeGreaterThanOrEqual(whole.best!.periodS - 1e-6);
        if (part.complete) expect(part.best?.periodS).toBeCloseTo(whole.best!.periodS, 6);
      }
      expect(searchGaps(plan, { ...noLimits, untilMs: 0 })?.complete).toBe(false);
    }
  });

  it('times by any factor scale the period', () => {
    for (const factor of [1000, 1 / 3, 0.001]) {
      const spec = unlikeMachines(5, counts.length);
      const times = (list: readonly number[]): number[] => list.map((s) => s * factor);
      const scaled = unlikeCell({
        travel: spec.travel.map(times),
        fetchS: spec.fetchS * factor,
        putS: spec.putS * factor,
        loadS: times(spec.loadS),
        unloadS: times(spec.unloadS),
        cycleS: times(spec.cycleS),
      });
      const found = searchGaps(buildPlan(scaled, wayPaths(scaled, countedWays(scaled, counts))), noLimits)!;
      const plain = searchGaps(unlikePlan(5, counts), noLimits)!;
      expect(found.complete).toBe(true);
      expect(found.best!.periodS / factor / plain.best!.periodS).toBeCloseTo(1, 7);
    }
  });
});

describe('plans of another kind are left to the other searches', () => {
  it.each([
    ['two hands', independentShop(1, 2, [2, 1])],
    ['longest waits', serialShop(1, { machines: 2, waitPct: 100 })],
    ['a fixture', fixtureShop(1, 1, 2)],
    ['a station for more than one part', roomyShop(2, 1, 2)],
    ['a machine that two parts share', mixedShop(1, 1, [1, 1])],
  ] as const)('%s', (_, shop) => {
    expect(searchGaps(planOf(shop), noLimits)).toBeNull();
  });
});
