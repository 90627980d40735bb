// Every feature of the model on small random cells, against a listing of all orders by separate code.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule, type ScheduleOptions } from '../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../src/core/schedule/bound/rate-bound.js';
import { buildPlan } from '../../../src/core/schedule/plan/plan.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { searchOrder } from '../../../src/core/schedule/search/order/search-order.js';
import { station, step } from '../../support/line-cell.js';
import { listedPeriod, type PartWay } from '../../support/listed-orders.js';
import { playedPeriod } from '../../support/played-period.js';
import {
  choiceShop,
  choiceWays,
  drawFrom,
  ends,
  everythingShop,
  feederShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  independentShop,
  makeCell,
  mixedShop,
  roomyShop,
  type ShopCase,
  serialShop,
} from '../../support/random-shops.js';
import { atSize, cases } from '../../support/size.js';
import { wayPaths } from '../../support/way-paths.js';
import { windowedPeriod } from '../../support/windowed-period.js';

const noLimits = { belowS: Number.POSITIVE_INFINITY, nodes: 10_000_000, untilMs: Number.POSITIVE_INFINITY };

/** The search must end with a proof, at the period of the listing or with none where that has none. */
function expectListed(cell: Cell, ways: readonly PartWay[], what: string): number | null {
  const listed = listedPeriod(cell, ways).periodS;
  const found = searchOrder(buildPlan(cell, wayPaths(cell, ways)), noLimits);
  expect(found.complete, what).toBe(true);
  if (listed === null) expect(found.best, what).toBeNull();
  else expect(found.best?.periodS, what).toBeCloseTo(listed, 6);
  return listed;
}

const features: [string, number, (seed: number) => ShopCase][] = [
  ['two hands, two machines', 40, (seed) => serialShop(seed, { machines: 2, hands: 2 })],
  ['two hands, three machines', 12, (seed) => serialShop(seed, { machines: 3, hands: 2 })],
  ['longest waits', 40, (seed) => serialShop(seed, { machines: 1 + (seed % 4), waitPct: 70 })],
  [
    'two hands with longest waits',
    40,
    (seed) => serialShop(seed, { machines: 1 + (seed % 3), hands: 2, waitPct: 70 }),
  ],
  [
    'two parts with longest waits',
    40,
    (seed) => serialShop(seed, { machines: 1 + (seed % 3), parts: 2, waitPct: 60 }),
  ],
  [
    'two parts and two hands with longest waits',
    20,
    (seed) => serialShop(seed, { machines: 1, hands: 2, parts: 2, waitPct: 90 }),
  ],
  ['alternatives', 40, (seed) => choiceShop(seed, 1, 2 + (seed % 2))],
  ['alternatives with two hands', 10, (seed) => choiceShop(seed, 2, 2)],
  ['more room', 40, (seed) => roomyShop(seed, 1, 1 + (seed % 3))],
  ['more room with two hands', 30, (seed) => roomyShop(seed, 2, 1 + (seed % 2))],
  ['more room with longest waits', 40, (seed) => roomyShop(seed, 1, 1 + (seed % 3), 70)],
  ['more room, two hands and longest waits', 30, (seed) => roomyShop(seed, 2, 1 + (seed % 2), 70)],
  ['fixtures', 30, (seed) => fixtureShop(seed, 1, 2)],
  ['fixtures with two hands', 15, (seed) => fixtureShop(seed, 2, 2)],
  ['fixtures with longest waits', 40, (seed) => fixtureShop(seed, 1, 2, 70)],
  ['fixtures, four parts', 20, (seed) => fixtureShop(seed, 1, 4)],
  ['held steps', 30, (seed) => heldShop(seed, 1, 1 + (seed % 2))],
  ['held steps with two hands', 20, (seed) => heldShop(seed, 2, 1)],
  ['gauge every 2', 30, (seed) => gaugeShop(seed, 1, 2)],
  ['gauge every 3', 30, (seed) => gaugeShop(seed, 1, 3)],
  ['gauge every 2 with two hands', 6, (seed) => gaugeShop(seed, 2, 2)],
  ['mixed parts 2 : 1', 40, (seed) => mixedShop(seed, 1, [2, 1])],
  ['mixed parts with two hands', 12, (seed) => mixedShop(seed, 2, [1, 1])],
  ['two to four parts, two machines', 30, (seed) => serialShop(seed, { machines: 2, parts: 2 + (seed % 3) })],
  [
    'two or three parts, three machines',
    20,
    (seed) => serialShop(seed, { machines: 3, parts: 2 + (seed % 2) }),
  ],
  ['two parts with two hands', 20, (seed) => serialShop(seed, { machines: 1, hands: 2, parts: 2 })],
  ['unlike visits 2 : 1', 30, (seed) => independentShop(seed, 1, [2, 1])],
  ['unlike visits 3 : 1', 30, (seed) => independentShop(seed, 1, [3, 1])],
  ['unlike visits 2 : 1 : 1', 15, (seed) => independentShop(seed, 1, [2, 1, 1])],
  ['unlike visits 2 : 1 with two hands', 6, (seed) => independentShop(seed, 2, [2, 1])],
  ['infeed and outfeed with a cycle', 40, (seed) => feederShop(seed, 1, 1 + (seed % 3))],
  ['infeed and outfeed with a cycle, two hands', 20, (seed) => feederShop(seed, 2, 1)],
];

describe('one part set against all orders listed', () => {
  it.each(features)('%s', (name, cells, build) => {
    for (let seed = 1; seed <= cases(cells); seed++) {
      const { cell, ways } = build(seed);
      expectListed(cell, ways, `${name}, seed ${seed}`);
    }
  });

  it('several features at once, feasible or not', () => {
    let none = 0;
    for (let seed = 1; seed <= cases(30); seed++) {
      const { cell, ways } = everythingShop(seed);
      if (expectListed(cell, ways, `seed ${seed}`) === null) none++;
    }
    expect(none).toBeLessThan(5);
  });

  it('batches whose parts may not wait while the rest is taken out have no order at all', () => {
    let none = 0;
    for (let seed = 1; seed <= cases(40); seed++) {
      const { cell, ways } = fixtureShop(seed, 1, 2, 70);
      if (listedPeriod(cell, ways).periodS === null) none++;
    }
    expect(none).toBeGreaterThan(cases(40) / 8);
  });
});

describe('the two means of the listing', () => {
  it('play and circuits give each order the same period where nothing limits the waiting', () => {
    for (const build of [roomyShop, fixtureShop, feederShop, heldShop])
      for (let seed = 1; seed <= cases(6); seed++) {
        const { cell, ways } = build(seed, (1 + (seed % 2)) as 1 | 2, 2);
        listedPeriod(cell, ways, (shop, order, start, inHand) => {
          const played = playedPeriod(shop, order, start, inHand);
          const circuit = windowedPeriod(shop, order, start, inHand, Number.POSITIVE_INFINITY);
          expect(circuit).toBeCloseTo(played, 6);
          return played;
        });
      }
  });
});

describe('travel tables that break the triangle inequality', () => {
  const quick = (from: string, to: string) => ({ from, to, emptyS: 0, loadedS: 0 });
  const free = (names: readonly string[], slow: readonly { from: string; to: string; emptyS: number }[]) =>
    names.flatMap((a) =>
      names.flatMap((b) => {
        const row = slow.find((s) => s.from === a && s.to === b);
        return a === b ? [] : [{ ...quick(a, b), emptyS: row?.emptyS ?? 0 }];
      }),
    );

  it('going home by the infeed is quicker than the direct way to the rack', () => {
    const { cell, ways } = roomyShop(1160, 1, 3);
    expectListed(cell, ways, 'a rack and a machine');
    const names = cell.stations.map((s) => s.name);
    const steps = ['in', 'rack', 'm2', 'out'].map((name, i) => step(i + 1, name));
    const bare: Cell = {
      ...cell,
      routes: [{ part: 'part', steps }],
      stations: cell.stations.map((s) => ({ ...s, readyS: 0, closeS: 0 })),
      travel: free(names, [{ from: 'out', to: 'rack', emptyS: 1 }]),
    };
    // Every way but one takes no time, and that one need not be taken.
    expect(expectListed(bare, ways, 'the same with one time above 0')).toBe(0);
  });

  it('the rate bound stays above what an order reaches', () => {
    for (const [{ cell, ways }, what] of [
      [roomyShop(3320, 1, 1), 'a rack and a machine'],
      [fixtureShop(3354, 1, 2), 'a fixture'],
    ] as const) {
      const bound = rateBound(cell);
      const parts = ways.reduce((sum, way) => sum + way.count, 0);
      const perH = (3600 * parts) / listedPeriod(cell, ways).periodS!;
      expect(bound.found && bound.total, what).toBeGreaterThanOrEqual(perH - 1e-6);
    }
  });

  it('a fixture of two reached faster by a detour', () => {
    const { cell, ways } = fixtureShop(1031, 1, 2);
    expectListed(cell, ways, 'a fixture');
  });
});

function foundIn(cell: Cell, options: ScheduleOptions): ScheduleFound {
  const outcome = bestSchedule(cell, { ...options, improvements: false });
  if (!('periodS' in outcome)) throw new Error(`no schedule: ${outcome.reason}`);
  return outcome;
}

describe('bestSchedule against all orders listed', () => {
  it('so many parts per period', () => {
    for (let seed = 1; seed <= cases(24); seed++) {
      const parts = 1 + (seed % 4);
      const { cell, ways } = serialShop(seed, { machines: 2, parts });
      const found = foundIn(cell, { partsPerPeriod: parts });
      expect(found.partSet.proven, `seed ${seed}`).toBe(true);
      expect(found.periodS, `seed ${seed}`).toBeCloseTo(listedPeriod(cell, ways).periodS!, 6);
    }
  });

  it('a demanded mix', () => {
    for (let seed = 1; seed <= cases(20); seed++) {
      const { cell, ways } = mixedShop(seed, 1, [2, 1]);
      const found = foundIn(cell, { partsPerPeriod: 3 });
      expect(found.partsPerPeriod).toEqual({ a: 2, b: 1 });
      expect(found.periodS, `seed ${seed}`).toBeCloseTo(listedPeriod(cell, ways).periodS!, 6);
    }
  });

  it('a gauge for one part in two or three', () => {
    for (let seed = 1; seed <= cases(20); seed++) {
      const every = 2 + (seed % 2);
      const { cell, ways } = gaugeShop(seed, 1, every);
      const found = foundIn(cell, { partsPerPeriod: every });
      expect(found.periodS, `seed ${seed}`).toBeCloseTo(listedPeriod(cell, ways).periodS!, 6);
    }
  });

  it('alternatives: the best of all splits', () => {
    for (let seed = 1; seed <= cases(40); seed++) {
      const parts = 2 + (seed % 2);
      const { cell } = choiceShop(seed, 1, parts);
      const splits = Array.from({ length: parts + 1 }, (_, first) =>
        listedPeriod(cell, choiceWays(cell, first, parts - first)),
      );
      const best = Math.min(...splits.map((split) => split.periodS ?? Number.POSITIVE_INFINITY));
      const found = foundIn(cell, { partsPerPeriod: parts });
      // Splits within 0.3% of each other count as alike: a proven one is then preferred.
      expect(found.periodS, `seed ${seed}`).toBeGreaterThanOrEqual(best - 1e-6);
      expect(found.periodS, `seed ${seed}`).toBeLessThanOrEqual(best * 1.003 + 1e-6);
    }
  });

  it('independent machines: the best visit counts up to a stated total', () => {
    const most = 4;
    for (let seed = 1; seed <= cases(15); seed++) {
      const { cell } = independentShop(seed, 1, [2, 1]);
      const way = (route: number, count: number): PartWay => ({
        route,
        count,
        stations: cell.routes[route].steps.map((s) => s.stations[0]),
      });
      const secondsOf = (counts: readonly number[]): number =>
        counts.reduce((sum, c, i) => sum + c * cell.routes[i].steps[1].cycleS, 0);
      let best = 0;
      for (let a = 0; a <= most; a++)
        for (let b = 0; a + b <= most; b++) {
          const ways = [way(0, a), way(1, b)].filter((w) => w.count > 0);
          if (ways.length > 0) best = Math.max(best, secondsOf([a, b]) / listedPeriod(cell, ways).periodS!);
        }
      const found = foundIn(cell, { maxVisits: most });
      const counts = cell.routes.map((route) => found.partsPerPeriod[route.part]);
      const rate = secondsOf(counts) / found.periodS;
      expect(rate, `seed ${seed}`).toBeLessThanOrEqual(best * (1 + 1e-9));
      // Sets within 0.3% of each other count as alike: the one with fewest visits is then preferred.
      expect(rate, `seed ${seed}`).toBeGreaterThanOrEqual(best * (1 - 0.003) - 1e-9);
      expect(found.partSet.proven, `seed ${seed}`).toBe(true);
      const ways = counts.flatMap((count, i) => (count > 0 ? [way(i, count)] : []));
      expect(found.periodS, `seed ${seed}`).toBeCloseTo(listedPeriod(cell, ways).periodS!, 6);
    }
  });

  it('independent machines: what a second less at a machine brings, by listing again', () => {
    let told = 0;
    for (let seed = 1; seed <= atSize(4, 8); seed++) {
      const { cell } = independentShop(seed, 1, [2, 1]);
      const outcome = bestSchedule(cell, { maxVisits: 4 });
      if (!('periodS' in outcome)) throw new Error(outcome.reason);
      const ways = cell.routes.flatMap((route, i) => {
        const count = outcome.partsPerPeriod[route.part];
        return count > 0 ? [{ route: i, count, stations: route.steps.map((s) => s.stations[0]) }] : [];
      });
      const parts = ways.reduce((sum, w) => sum + w.count, 0);
      for (const { route } of ways) {
        const { part, steps } = cell.routes[route];
        if (steps[1].cycleS < 1) continue;
        const shorter = steps.map((s, i) => (i === 1 ? { ...s, cycleS: s.cycleS - 1 } : s));
        const routes = cell.routes.map((r, i) => (i === route ? { ...r, steps: shorter } : r));
        const { periodS } = listedPeriod({ ...cell, routes }, ways);
        const gain = 3600 * parts * (1 / periodS! - 1 / outcome.periodS);
        const element = `cycle of ${part} at ${steps[1].stations[0]}`;
        const row = outcome.improvements.find((i) => i.element === element);
        expect(row?.partsPerHPerSecond ?? 0, `seed ${seed}, ${element}`).toBeCloseTo(gain, 6);
        if (gain > 0) told++;
      }
    }
    expect(told).toBeGreaterThan(3);
  });

  it('says that a cell has no order where the listing has none', () => {
    let none = 0;
    for (let seed = 1; seed <= cases(40); seed++) {
      const { cell, ways } = fixtureShop(seed, 1, 2, 70);
      const outcome = bestSchedule(cell, { partsPerPeriod: 2, improvements: false });
      const listed = listedPeriod(cell, ways).periodS;
      if (listed === null) none++;
      expect(outcome.status === 'infeasible', `seed ${seed}`).toBe(listed === null);
    }
    expect(none).toBeGreaterThan(cases(40) / 8);
  });

  it('two parts that need each other’s machine take the order that does not lock up', () => {
    const draw = drawFrom(3);
    const machines = [station('m1', 'machine'), station('m2', 'machine')];
    const inner = (names: readonly string[]) => [
      step(1, 'in'),
      ...names.map((name, i) => step(i + 2, name, { cycleS: 10, loadS: 1, unloadS: 1 })),
      step(4, 'out'),
    ];
    const routes = [
      { part: 'a', steps: inner(['m1', 'm2']) },
      { part: 'b', steps: inner(['m2', 'm1']) },
    ];
    for (const hands of [1, 2] as const) {
      const cell = makeCell(draw, { hands, indexS: 1 }, [...ends, ...machines], routes);
      const ways = routes.map((route, i) => ({
        route: i,
        stations: route.steps.map((s) => s.stations[0]),
        count: 1,
      }));
      expectListed(cell, ways, `${hands} hands`);
    }
  });
});
