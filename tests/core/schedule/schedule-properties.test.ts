// What must hold of every schedule, whatever the cell: on random cells of all features.
import { describe, expect, it } from 'vitest';
import type { Cell, Station, Step } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../src/core/schedule/bound/rate-bound.js';
import { buildPlan } from '../../../src/core/schedule/plan/plan.js';
import { searchOrder } from '../../../src/core/schedule/search/order/search-order.js';
import type { PartWay } from '../../support/listed-orders.js';
import {
  choiceShop,
  drawFrom,
  everythingShop,
  feederShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  independentShop,
  mixedShop,
  roomyShop,
  type ShopCase,
  serialShop,
} from '../../support/random-shops.js';
import { cases } from '../../support/size.js';
import { wayPaths } from '../../support/way-paths.js';

const noLimits = { belowS: Number.POSITIVE_INFINITY, nodes: 10_000_000, untilMs: Number.POSITIVE_INFINITY };

function periodOf(cell: Cell, ways: readonly PartWay[]): number | null {
  const found = searchOrder(buildPlan(cell, wayPaths(cell, ways)), noLimits);
  expect(found.complete).toBe(true);
  return found.best?.periodS ?? null;
}

/** Cells without longest waits, one or two hands by seed. */
const plain: readonly ((seed: number) => ShopCase)[] = [
  (seed) => serialShop(seed, { machines: 2 + (seed % 3) }),
  (seed) => serialShop(seed, { machines: 3, hands: 2 }),
  (seed) => serialShop(seed, { machines: 2, parts: 3 }),
  (seed) => choiceShop(seed, hands(seed), 2),
  (seed) => roomyShop(seed, hands(seed), 2),
  (seed) => fixtureShop(seed, hands(seed), 2),
  (seed) => heldShop(seed, hands(seed), 1),
  (seed) => gaugeShop(seed, hands(seed), 2),
  (seed) => mixedShop(seed, hands(seed), [2, 1]),
  (seed) => independentShop(seed, hands(seed), [2, 1]),
  (seed) => feederShop(seed, hands(seed), 2),
];
const waiting: readonly ((seed: number) => ShopCase)[] = [
  (seed) => serialShop(seed, { machines: 3, waitPct: 70 }),
  (seed) => serialShop(seed, { machines: 2, hands: 2, waitPct: 70 }),
  (seed) => roomyShop(seed, hands(seed), 2, 70),
  (seed) => fixtureShop(seed, 1, 2, 70),
  everythingShop,
];

function hands(seed: number): 1 | 2 {
  return (1 + (seed % 2)) as 1 | 2;
}

/** Every time of the cell put through `change`. */
function withTimes(cell: Cell, change: (timeS: number) => number): Cell {
  const stepTimes = (s: Step): Step => ({
    ...s,
    cycleS: change(s.cycleS),
    loadS: change(s.loadS),
    unloadS: change(s.unloadS),
    maxWaitS: s.maxWaitS === null ? null : change(s.maxWaitS),
  });
  const stationTimes = (s: Station): Station => ({
    ...s,
    readyS: change(s.readyS),
    closeS: change(s.closeS),
  });
  return {
    ...cell,
    robot: { ...cell.robot, indexS: change(cell.robot.indexS) },
    stations: cell.stations.map(stationTimes),
    travel: cell.travel.map((t) => ({ ...t, emptyS: change(t.emptyS), loadedS: change(t.loadedS) })),
    routes: cell.routes.map((r) => ({ ...r, steps: r.steps.map(stepTimes) })),
  };
}

describe('scaling', () => {
  it.each([7, 1 / 3, 0.001, 1000])('all times by %d scale the period', (factor) => {
    for (const [i, build] of [...plain, ...waiting].entries())
      for (let seed = 1; seed <= 3; seed++) {
        const { cell, ways } = build(seed);
        const before = periodOf(cell, ways);
        const after = periodOf(
          withTimes(cell, (timeS) => timeS * factor),
          ways,
        );
        if (before === null) expect(after, `kind ${i}, seed ${seed}`).toBeNull();
        else expect(after! / factor, `kind ${i}, seed ${seed}`).toBeCloseTo(before, factor < 0.01 ? 3 : 5);
      }
  });
});

describe('one second more', () => {
  it('on any one time never shortens the period where nothing limits the waiting', () => {
    for (const [i, build] of plain.entries())
      for (let seed = 11; seed <= 12; seed++) {
        const { cell, ways } = build(seed);
        const before = periodOf(cell, ways)!;
        let times = 0;
        withTimes(cell, (timeS) => {
          times++;
          return timeS;
        });
        for (let which = 0; which < times; which++) {
          let at = 0;
          const slower = withTimes(cell, (timeS) => (at++ === which ? timeS + 1 : timeS));
          expect(periodOf(slower, ways), `kind ${i}, seed ${seed}, time ${which}`).toBeGreaterThanOrEqual(
            before - 1e-6,
          );
        }
      }
  });
});

describe('a second hand', () => {
  it('never lengthens the period when turning the gripper takes no time', () => {
    let shorter = 0;
    for (const [i, build] of [...plain, ...waiting].entries())
      for (let seed = 1; seed <= cases(6); seed++) {
        const { cell, ways } = build(2 * seed);
        const withHands = (count: 1 | 2): Cell => ({
          ...cell,
          robot: { ...cell.robot, hands: count, indexS: 0 },
        });
        const [one, two] = [periodOf(withHands(1), ways), periodOf(withHands(2), ways)];
        if (one === null) continue;
        expect(two, `kind ${i}, seed ${2 * seed}`).not.toBeNull();
        expect(two, `kind ${i}, seed ${2 * seed}`).toBeLessThanOrEqual(one + 1e-6);
        if (two! < one - 1e-6) shorter++;
      }
    expect(shorter).toBeGreaterThan(10);
  });
});

describe('names and the order of rows', () => {
  const shuffled = <T>(seed: number, list: readonly T[]): T[] => {
    const draw = drawFrom(seed);
    const copy = [...list];
    for (let i = copy.length - 1; i > 0; i--) {
      const j = draw(0, i);
      [copy[i], copy[j]] = [copy[j], copy[i]];
    }
    return copy;
  };

  /** New names, rows of every table in another order, step numbers further apart. */
  function relabelled(cell: Cell, seed: number): Cell {
    const name = (old: string): string =>
      `station ${cell.stations.length - cell.stations.findIndex((s) => s.name === old)}`;
    return {
      ...cell,
      stations: shuffled(seed, cell.stations).map((s) => ({ ...s, name: name(s.name) })),
      travel: shuffled(seed + 1, cell.travel).map((t) => ({ ...t, from: name(t.from), to: name(t.to) })),
      parts: shuffled(seed + 2, cell.parts).map((p) => ({ ...p, part: `new ${p.part}` })),
      routes: shuffled(seed + 3, cell.routes).map((r) => ({
        part: `new ${r.part}`,
        steps: r.steps.map((s) => ({
          ...s,
          step: 10 * s.step,
          stations: shuffled(seed + 4, s.stations).map(name),
        })),
      })),
    };
  }

  it('change nothing in the rate', () => {
    for (const [i, build] of [...plain, ...waiting].entries())
      for (let seed = 1; seed <= 3; seed++) {
        const { cell, ways } = build(seed);
        const partsPerPeriod = ways.reduce((sum, way) => sum + way.count, 0);
        const options = { partsPerPeriod, improvements: false, nodeLimit: 3_000_000 } as const;
        const before = bestSchedule(cell, options);
        const after = bestSchedule(relabelled(cell, seed), options);
        expect(after.status, `kind ${i}, seed ${seed}`).toBe(before.status);
        if (!('periodS' in before) || !('periodS' in after)) continue;
        const renamed = Object.fromEntries(
          Object.entries(before.partsPerPeriod).map(([part, n]) => [`new ${part}`, n]),
        );
        expect(after.partsPerPeriod, `kind ${i}, seed ${seed}`).toEqual(renamed);
        expect(after.periodS, `kind ${i}, seed ${seed}`).toBeCloseTo(before.periodS, 6);
      }
  });
});

describe('bounds', () => {
  it('no schedule beats the rate bound, its own bound, or what the robot and the stations can do', () => {
    for (const [i, build] of [...plain, ...waiting].entries())
      for (let seed = 1; seed <= cases(8); seed++) {
        const { cell, ways } = build(seed);
        const partsPerPeriod = ways.reduce((sum, way) => sum + way.count, 0);
        const what = `kind ${i}, seed ${seed}`;
        const found = bestSchedule(cell, { partsPerPeriod, improvements: false });
        const bound = rateBound(cell);
        if (!('periodS' in found) || !bound.found) continue;
        expect(found.boundS, what).toBeLessThanOrEqual(found.periodS + 1e-6);
        expect(found.robot.utilizationPct, what).toBeLessThanOrEqual(100 + 1e-6);
        for (const s of found.stations) expect(s.utilizationPct, what).toBeLessThanOrEqual(100 + 1e-6);
        if (cell.routes.length === 1 || cell.parts.length > 0)
          expect(found.partsPerH.total, what).toBeLessThanOrEqual(bound.total + 1e-6);
        else {
          const seconds = cell.routes.map((r) =>
            r.steps.reduce((sum, s) => sum + s.cycleS / s.partsPerCycle / s.everyParts, 0),
          );
          const perS = cell.routes.reduce(
            (sum, r, k) => sum + (found.partsPerH[r.part] * seconds[k]) / 3600,
            0,
          );
          expect(perS, what).toBeLessThanOrEqual(bound.valuePerS + 1e-6);
        }
      }
  });
});
