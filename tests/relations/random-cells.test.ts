// What one question says, another says too, and what may not matter does not: on random cells of several kinds, as
// commands.test.ts, other-names.test.ts and scaled-time.test.ts do on the folders of data/.
import { describe, expect, test } from 'vitest';
import { productMix } from '../../src/core/mix/product-mix.js';
import type { Cell, Shift } from '../../src/core/model/cell.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../src/core/schedule/bound/rate-bound.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { shiftYield } from '../../src/core/shifts/shift-yield.js';
import { runStudy } from '../../src/core/studies/studies.js';
import { highsSolver } from '../../src/solver/highs-solver.js';
import {
  choiceShop,
  fixtureShop,
  gaugeShop,
  heldShop,
  independentShop,
  mixedShop,
  roomyShop,
  serialShop,
} from '../support/random-shops.js';
import { atSize, isDeep } from '../support/size.js';
import { slowedCell } from './slowed-cell.js';

const solve = await highsSolver();
const context = { mixedSolver: highsSolver };

const DAY: Shift = {
  ...{ pattern: 'day', shift: 'early', days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'] },
  ...{ startMin: 360, endMin: 840, breaks: [], attended: true, operators: 1, labourPerH: 30 },
};

/** With a week, and every part sold for something. */
const inWeek = (cell: Cell): Cell => ({
  ...cell,
  shifts: [DAY],
  parts: cell.routes.map(({ part }, k) => ({
    ...(cell.parts.find((p) => p.part === part) ?? { part, ratio: null }),
    ...{ contribution: 3 + k, perShift: null, yieldPct: 100 },
  })),
});

const kinds: Readonly<Record<string, (seed: number, hands: 1 | 2) => Cell>> = {
  'a line': (seed, hands) => serialShop(seed, { machines: 2 + (seed % 2), hands }).cell,
  'a choice of machines': (seed, hands) => choiceShop(seed, hands, 2).cell,
  'two parts in a ratio': (seed, hands) => mixedShop(seed, hands, [2, 1]).cell,
  'a machine for each part': (seed, hands) => independentShop(seed, hands, [1, 1, 1]).cell,
};

function scheduleOf(cell: Cell): ScheduleFound {
  const found = bestSchedule(cell, { improvements: false, nodeLimit: 20_000 });
  if (!('order' in found)) throw new Error(`a cell without a sequence: ${found.status}`);
  return found;
}

/** Stations, parts, ways and rows from the last to the first, all under other names. */
function otherWay(cell: Cell): Cell {
  const name = (of: string): string => `x_${of}`;
  return {
    ...cell,
    stations: cell.stations.map((s) => ({ ...s, name: name(s.name) })).reverse(),
    travel: cell.travel.map((t) => ({ ...t, from: name(t.from), to: name(t.to) })).reverse(),
    parts: cell.parts.map((p) => ({ ...p, part: name(p.part) })).reverse(),
    routes: cell.routes
      .map((r) => ({
        part: name(r.part),
        steps: r.steps.map((s) => ({ ...s, stations: s.stations.map(name).reverse() })),
      }))
      .reverse(),
  };
}

const total = (perH: Readonly<Record<string, number>>): number => perH.total!;

describe.each(Object.keys(kinds))('%s', (kind) => {
  const cells = Array.from({ length: atSize(2, 4, 8) }, (_, k) =>
    inWeek(kinds[kind]!(k + 1, ((k % 2) + 1) as 1 | 2)),
  );
  const schedules = cells.map(scheduleOf);
  const proven = cells.flatMap((cell, k) =>
    schedules[k]!.partSet.proven ? [[cell, schedules[k]!] as const] : [],
  );

  test('everything twice as long: half the parts, of the same sequence', () => {
    for (const [k, cell] of cells.entries()) {
      const slow = scheduleOf(slowedCell(cell));
      expect(slow.periodS / schedules[k]!.periodS).toBeCloseTo(2, 9);
      expect(slow.partsPerPeriod).toEqual(schedules[k]!.partsPerPeriod);
      expect(slow.rateBoundPerH.total! * 2).toBeCloseTo(schedules[k]!.rateBoundPerH.total!, 6);
    }
  });

  test('other names and rows from the last to the first: the same rates', () => {
    let same = 0;
    for (const [cell, schedule] of proven) {
      const other = scheduleOf(otherWay(cell));
      // A search that comes to its limit in one order of the rows and not in the other has found no more.
      if (other.partSet.proven) expect(total(other.partsPerH)).toBeCloseTo(total(schedule.partsPerH), 9);
      else expect(total(other.partsPerH)).toBeLessThanOrEqual(total(schedule.partsPerH) * (1 + 1e-9));
      same += Number(other.partSet.proven);
      expect(other.rateBoundPerH.total).toBeCloseTo(schedule.rateBoundPerH.total!, 6);
    }
    expect(same).toBeGreaterThan(cells.length / 2);
  });

  test('twice the money a part: the same sequence, and a mix that is worth twice as much', () => {
    for (const [k, cell] of cells.entries()) {
      const rich = {
        ...cell,
        parts: cell.parts.map((p) => ({ ...p, contribution: 2 * p.contribution! })),
      };
      const { partsPerPeriod, periodS } = scheduleOf(rich);
      expect(periodS).toBe(schedules[k]!.periodS);
      expect(partsPerPeriod).toEqual(schedules[k]!.partsPerPeriod);
      const [plain, twice] = [cell, rich].map((c) => productMix(c, solve).patterns[0]!.valuePerWeek!);
      expect(twice! / plain!).toBeCloseTo(2, 6);
    }
  });

  test.each(['order', 'strict'] as const)(
    'the sequence simulated without chance makes what the schedule says, and a week of it what `shifts` says: %s',
    async (program) => {
      for (const [k, cell] of cells.entries()) {
        // In the quick run each program has one cell with each number of grippers.
        if (!isDeep && (k % 2 === 0) !== (program === 'order')) continue;
        const alike = { cell, schedule: schedules[k]! };
        const open = { cell: { ...cell, shifts: [] }, schedule: schedules[k]! };
        const hours = Math.max(40, Math.ceil((atSize(250, 500) * schedules[k]!.periodS) / 3600));
        const once = { replications: 1, against: [] as const, program };
        const steady = (await runStudy('simulate', open, { ...once, hours }, context)).result;
        const perH = (total(meansOf(steady.partsPerShift)) * steady.shifts) / steady.horizonH;
        expect(perH / total(schedules[k]!.partsPerH)).toBeGreaterThan(0.995);
        expect(perH / total(schedules[k]!.partsPerH)).toBeLessThan(1.005);
        const week = shiftYield(cell, schedules[k]!, 'day', { program, losses: false });
        const run = (await runStudy('simulate', alike, { ...once, hours: atSize(80, 400) }, context)).result;
        // Several weeks hold a part more or less than so many times the week.
        expect(
          Math.abs(total(meansOf(run.partsPerShift)) - total(week.partsPerShift)) * 5,
        ).toBeLessThanOrEqual(1 + 0.002 * total(week.partsPerWeek));
      }
    },
  );

  test('no week makes more than the mix says is possible, nor than the steady rate in its hours', () => {
    for (const [k, cell] of cells.entries()) {
      const week = shiftYield(cell, schedules[k]!, 'day', { program: 'strict', losses: false });
      // What is in the machines when a shift ends is finished after it.
      const runOn = week.shiftsPerWeek * cell.stations.length;
      const worth = cell.parts.reduce(
        (sum, p) => sum + p.contribution! * (week.partsPerWeek[p.part] ?? 0),
        0,
      );
      const dearest = Math.max(...cell.parts.map((p) => p.contribution!));
      const free = { ...cell, parts: cell.parts.map((p) => ({ ...p, ratio: null })) };
      expect(worth).toBeLessThanOrEqual(productMix(free, solve).patterns[0]!.valuePerWeek! + runOn * dearest);
      expect(total(week.partsPerWeek)).toBeLessThanOrEqual(
        total(schedules[k]!.partsPerH) * week.hoursPerWeek + runOn,
      );
    }
  });
});

/** What each feature of the model makes of the hours: several places, batches, parts held by the robot, a gauge. */
const features: Readonly<Record<string, (seed: number, hands: 1 | 2) => Cell>> = {
  ...kinds,
  'a longer line': (seed, hands) => serialShop(seed, { machines: 4, hands }).cell,
  'a machine with several places': (seed, hands) => roomyShop(seed, hands, 2).cell,
  'a fixture of two parts': (seed, hands) => fixtureShop(seed, hands, 2).cell,
  'a part that the robot holds': (seed, hands) => heldShop(seed, hands, 1).cell,
  'a gauge for one part in three': (seed, hands) => gaugeShop(seed, hands, 3).cell,
};

describe.each(Object.keys(features))('%s: mix, rate bound and schedule', (kind) => {
  test.each([1, 2] as const)(
    'hands %i: without stops the mix is the rate bound times the hours, and never below what the schedule makes',
    (hands) => {
      for (let seed = 1; seed <= atSize(1, 3, 8); seed++) {
        const cell = { ...inWeek(features[kind]!(seed, hands)), shifts: [] };
        const free = { ...cell, parts: cell.parts.map((p) => ({ ...p, ratio: null })) };
        const bound = rateBound(free);
        if (!bound.found) throw new Error(bound.why);
        const hoursPerWeek = 40;
        const [plan] = productMix(free, solve, { hoursPerWeek }).patterns;
        expect(plan!.valuePerWeek / (bound.valuePerS * 3600 * hoursPerWeek), `seed ${seed}`).toBeCloseTo(
          1,
          6,
        );
        const { partsPerH } = scheduleOf(cell);
        const madePerH = cell.parts.reduce((sum, p) => sum + p.contribution! * partsPerH[p.part]!, 0);
        expect(plan!.valuePerWeek, `seed ${seed}`).toBeGreaterThanOrEqual(
          hoursPerWeek * madePerH * (1 - 1e-7),
        );
      }
    },
  );
});

function meansOf(of: Readonly<Record<string, { readonly mean: number }>>): Record<string, number> {
  return Object.fromEntries(Object.entries(of).map(([part, { mean }]) => [part, mean]));
}
