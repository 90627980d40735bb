// Two hands and unlike visits against HiGHS, an outside solver, by models of their own; and the models that the
// benchmark times, on published lines.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { buildPlan } from '../../../src/core/schedule/plan/plan.js';
import { searchOrder } from '../../../src/core/schedule/search/order/search-order.js';
import { highsPeriod, highsSolve } from '../../support/highs-line.js';
import { twoHandModel } from '../../support/highs-two-hands.js';
import { lineTimes, type PositionLine, type PublishedLine, positionTimes } from '../../support/line-cell.js';
import { randomSerial, serialCell } from '../../support/random-cells.js';
import { atSize, cases } from '../../support/size.js';
import { unlikeCell, unlikeMachines, visitsModel } from '../../support/unlike-cells.js';
import { wayPaths } from '../../support/way-paths.js';

describe('two hands by HiGHS', () => {
  it.each([1, 2, 3])('%i machines', (machines) => {
    for (let seed = 1; seed <= (machines < 3 ? 10 : 6); seed++) {
      const serial = randomSerial({ machines, seed: seed + 300, hands: 2, indexS: 1 });
      const outcome = bestSchedule(serialCell(serial), { partsPerPeriod: 1, improvements: false });
      const reference = highsSolve(twoHandModel(serial));
      expect(reference.Status, `seed ${seed}`).toBe('Optimal');
      expect('partSet' in outcome && outcome.partSet.proven, `seed ${seed}`).toBe(true);
      expect('periodS' in outcome && outcome.periodS, `seed ${seed}`).toBeCloseTo(
        reference.ObjectiveValue,
        4,
      );
    }
  });
});

describe('unlike visits by HiGHS', () => {
  it.each([
    [1, 1],
    [2, 1],
    [1, 3],
    [2, 1, 1],
  ])('%i, %i, ... visits in a period', (...counts) => {
    for (let seed = 1; seed <= cases(5); seed++) {
      const spec = unlikeMachines(seed, counts.length);
      const cell = unlikeCell(spec);
      const ways = counts.map((count, route) => ({
        route,
        count,
        stations: cell.routes[route].steps.map((s) => s.stations[0]),
      }));
      const found = searchOrder(buildPlan(cell, wayPaths(cell, ways)), {
        belowS: Number.POSITIVE_INFINITY,
        nodes: 1_000_000,
        untilMs: Number.POSITIVE_INFINITY,
      });
      expect(found.complete).toBe(true);
      const reference = highsSolve(visitsModel(spec, [0, ...counts]));
      expect(reference.Status, `seed ${seed}`).toBe('Optimal');
      expect(found.best?.periodS, `seed ${seed}`).toBeCloseTo(reference.ObjectiveValue, 4);
    }
  });
});

describe('the models on published lines', () => {
  const read = (name: string) =>
    JSON.parse(readFileSync(new URL(`../../reference/${name}.json`, import.meta.url), 'utf8'));

  it('reach the published optima of the smaller benchmark lines', () => {
    const lines: PublishedLine[] = read('published/chsp').lines;
    for (const line of lines.filter((l) => l.stations <= atSize(8, 12)))
      expect(highsPeriod(lineTimes(line))).toBeCloseTo(line.period, 4);
  });

  it('reach the agreed periods of the random line cells', () => {
    const cells: (PositionLine & { id: string })[] = read('recomputed/random-line-cells').cells;
    for (const cell of cells.slice(0, cases(cells.length))) {
      const period = highsPeriod(positionTimes(cell));
      if (cell.periodS === null) expect(period, cell.id).toBeNull();
      else expect(period, cell.id).toBeCloseTo(cell.periodS, 4);
    }
  });
});
