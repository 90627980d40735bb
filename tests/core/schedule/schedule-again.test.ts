// An order found before, tried again: on its own cell it yields the same, on a changed one what the play of it yields.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { scaledCell } from '../../../src/core/model/scaled-cell.js';
import {
  bestSchedule,
  type ScheduleOptions,
  scheduleAgain,
  scheduleByRule,
} from '../../../src/core/schedule/best-schedule.js';
import { checkSchedule } from '../../../src/core/schedule/evaluate/check-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { copiedMachine } from '../../../src/core/size/copied-machine.js';
import {
  choiceShop,
  feederShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  independentShop,
  mixedShop,
  roomyShop,
  type ShopCase,
} from '../../support/random-shops.js';

const shops: [string, (seed: number) => ShopCase][] = [
  ['alternatives', (seed) => choiceShop(seed, 1, 3)],
  ['alternatives with two hands', (seed) => choiceShop(seed, 2, 2)],
  ['more room', (seed) => roomyShop(seed, 1, 2)],
  ['fixtures', (seed) => fixtureShop(seed, 1, 2)],
  ['held steps', (seed) => heldShop(seed, 1, 2)],
  ['held steps with two hands', (seed) => heldShop(seed, 2, 2)],
  ['a gauge', (seed) => gaugeShop(seed, 1, 2)],
  ['mixed parts', (seed) => mixedShop(seed, 1, [1, 2])],
  ['unlike visits', (seed) => independentShop(seed, 1, [2, 1])],
  ['feeders', (seed) => feederShop(seed, 1, 2)],
];

const best = ({ cell }: ShopCase): ScheduleFound | null => {
  const outcome = bestSchedule(cell, { improvements: false, nodeLimit: 20_000 });
  return 'order' in outcome ? outcome : null;
};

describe.each(shops)('%s', (_, shopOf) => {
  const cases = [1, 2, 3, 4, 5, 6].flatMap((seed) => {
    const shop = shopOf(seed);
    const found = best(shop);
    return found === null ? [] : [{ cell: shop.cell, found }];
  });

  it('yields the same on its own cell', () => {
    expect(cases.length).toBeGreaterThan(3);
    for (const { cell, found } of cases) {
      const again = scheduleAgain(cell, found)!;
      expect(again.periodS).toBeCloseTo(found.periodS, 6);
      expect(again.partsPerPeriod).toEqual(found.partsPerPeriod);
      expect(again.partsPerH.total).toBeCloseTo(found.partsPerH.total!, 6);
    }
  });

  it('is never better than a new search that starts from it, and keeps every rule', () => {
    for (const { cell, found } of cases) {
      const slower = scaledCell(cell, 'cycle', 1.3);
      const again = scheduleAgain(slower, found);
      if (again === null) continue;
      expect(checkSchedule(slower, again)).toEqual([]);
      const fresh = bestSchedule(slower, { improvements: false, nodeLimit: 2000, known: [found] });
      expect('order' in fresh && fresh.rateBoundPerH.total).toBeGreaterThanOrEqual(
        again.partsPerH.total! - 1e-6,
      );
    }
  });
});

describe.each(shops)('by the plain rule, %s', (_, shopOf) => {
  it('keeps every rule of the cell and is never above the bound', () => {
    const answered = [1, 2, 3, 4].flatMap((seed) => {
      const { cell } = shopOf(seed);
      const plain = scheduleByRule(cell);
      return plain === null ? [] : [{ cell, plain }];
    });
    expect(answered.length).toBeGreaterThan(1);
    for (const { cell, plain } of answered) {
      expect(checkSchedule(cell, plain)).toEqual([]);
      expect(plain.proven).toBe(false);
      const fresh = bestSchedule(cell, { improvements: false, nodeLimit: 500 });
      expect('order' in fresh && fresh.rateBoundPerH.total).toBeGreaterThanOrEqual(
        plain.partsPerH.total! - 1e-6,
      );
    }
  });
});

it('the sequence that is shown before the changes are worked out is that of the search alone', () => {
  const { cell } = choiceShop(2, 1, 3);
  const shown: ScheduleFound[] = [];
  const whole = bestSchedule(cell, { whatIf: true, nodeLimit: 2000 }, (found) => shown.push(found));
  const alone = bestSchedule(cell, { improvements: false, nodeLimit: 2000 });
  const timeless = (found: object) => ({ ...found, searched: null });
  expect(shown.map(timeless)).toEqual([timeless(alone)]);
  expect('order' in whole && whole.order).toEqual(shown[0]!.order);
  expect('order' in whole && whole.whatIf.length).toBeGreaterThan(0);
});

it('a cell with one more machine can run it, a cell without a station of it cannot', () => {
  const shop = independentShop(3, 1, [1, 1]);
  const found = best(shop)!;
  const machine = shop.cell.stations.find((s) => s.kind === 'machine')!.name;
  const larger = copiedMachine(shop.cell, machine).cell;
  expect(scheduleAgain(larger, found)!.periodS).toBeCloseTo(found.periodS, 6);
  const routes = shop.cell.routes.map((r) => ({
    ...r,
    steps: r.steps.map((s) => ({
      ...s,
      stations: s.stations.map((name) => (name === machine ? `${name} new` : name)),
    })),
  }));
  const stations = shop.cell.stations.map((s) => (s.name === machine ? { ...s, name: `${machine} new` } : s));
  expect(scheduleAgain({ ...shop.cell, routes, stations }, found)).toBeNull();
});

describe('a cell that is asked for again', () => {
  const asked: readonly ScheduleOptions[] = [
    { nodeLimit: 300, improvements: false },
    { nodeLimit: 3000, improvements: false },
    { nodeLimit: 3000, whatIf: true },
    { nodeLimit: 3000, partsPerPeriod: 2 },
    { nodeLimit: 3000, maxVisits: 3 },
    { nodeLimit: 300 },
  ];
  const answer = (cell: Cell, options: ScheduleOptions) => {
    const outcome = bestSchedule(cell, options);
    return { ...outcome, searched: { ...outcome.searched, seconds: 0 } };
  };

  it.each(shops)('has the answer of one that was never asked for: %s', (_, shopOf) => {
    const { cell } = shopOf(2);
    for (const options of asked)
      expect(answer(cell, options)).toEqual(answer(structuredClone(cell), options));
    const start = bestSchedule(cell, { nodeLimit: 300 });
    const options = { nodeLimit: 3000, known: 'order' in start ? [start] : [] };
    expect(answer(cell, options)).toEqual(answer(structuredClone(cell), options));
  });
});
