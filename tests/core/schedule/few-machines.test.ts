// Few machines: the best of all sequences always, a shorter cycle beside a very long one, and never less than a cell
// that can do less.
import { describe, expect, test } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { atSize, isDeep } from '../../support/size.js';
import { type UnlikeMachines, unlikeCell, unlikeMachines } from '../../support/unlike-cells.js';
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

describe('three machines and two hands: proven too, and at least what one hand makes', () => {
  /** Short cycles have fewer states. */
  const short = unlikeMachines(1, 3);
  const cells: readonly (readonly [string, UnlikeMachines])[] = [
    ['short cycles', { ...short, cycleS: short.cycleS.map((s) => Math.round(s / 4)) }],
    ...atSize([], [['longer ones', unlikeMachines(3, 3)] as const]),
  ];
  test.each(cells)('%s', (_, spec) => {
    const [one, two] = [found(unlikeCell(spec)), found(unlikeCell(spec, 2))];
    const perS = ({ partsPerPeriod, periodS }: ScheduleFound): number =>
      spec.cycleS.reduce((sum, s, i) => sum + (i === 0 ? 0 : s * partsPerPeriod[`p${i}`]!), 0) / periodS;
    expect(two.proven).toBe(true);
    expect(perS(two)).toBeGreaterThanOrEqual(perS(one) * (1 - 1e-9));
  });
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
