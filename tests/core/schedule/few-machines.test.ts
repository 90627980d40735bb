// Few machines: the best of all sequences always, a shorter cycle beside a very long one, and never less than a cell
// that can do less.
import { describe, expect, test } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { isDeep } from '../../support/size.js';
import { unlikeCell, unlikeMachines } from '../../support/unlike-cells.js';
import { publishedCell, unlikePublished } from '../../support/unlike-published.js';
import { drawnCell, faultsOfMore } from '../../support/what-holds.js';

const found = (cell: Parameters<typeof bestSchedule>[0]): ScheduleFound =>
  bestSchedule(cell, { improvements: false }) as ScheduleFound;

describe('proven over every sequence', () => {
  test.each([1, 2] as const)('two machines, %i hands', (hands) => {
    for (let seed = 1; seed <= 6; seed++)
      expect(found(unlikeCell(unlikeMachines(seed, 2), hands)).proven, `seed ${seed}`).toBe(true);
  });

  test.each(unlikePublished.filter((cell) => cell.machines === 3).map((cell) => [cell.id, cell] as const))(
    '%s, one hand: the value that is known',
    (_, published) => {
      const { proven, partsPerPeriod, periodS } = found(publishedCell(published));
      const seconds = published.cycleS.reduce((sum, s, i) => sum + s * partsPerPeriod[`p${i + 1}`]!, 0);
      expect(proven).toBe(true);
      expect(seconds / periodS / published.bestMachineSecondsPerS!).toBeCloseTo(1, 9);
    },
  );
});

test('beside a best cycle of some hundred visits one of a few dozen is offered', () => {
  const { partsPerPeriod, shorter } = found(publishedCell(unlikePublished[2]!));
  expect(Object.values(partsPerPeriod).reduce((sum, n) => sum + n, 0)).toBeGreaterThan(500);
  expect(shorter!.visits).toBeLessThan(80);
  expect(shorter!.givesAwayPct).toBeLessThan(0.5);
});

test.runIf(isDeep)('six unlike machines: near what annealing by itself finds, 4.934', () => {
  const published = unlikePublished.find((cell) => cell.id === 'unlike-6-8')!;
  const { partsPerPeriod, periodS } = found(publishedCell(published));
  const seconds = published.cycleS.reduce((sum, s, i) => sum + s * partsPerPeriod[`p${i + 1}`]!, 0);
  expect(seconds / periodS).toBeGreaterThan(4.89);
});

test('three machines and two hands, whose states are too many once a spare machine is added', () => {
  expect(faultsOfMore(drawnCell('independent machines', 8, 2), 8, 'alternative')).toEqual([]);
});
