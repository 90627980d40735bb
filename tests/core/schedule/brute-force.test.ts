import { describe, expect, it } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { bruteForcePeriod } from '../../support/brute-force.js';
import { randomSerial, serialCell } from '../../support/random-cells.js';
import { cases } from '../../support/size.js';

const period = (outcome: ReturnType<typeof bestSchedule>): number =>
  'periodS' in outcome ? outcome.periodS : Number.NaN;

describe('every order listed and played by separate code', () => {
  it.each([1, 2, 3, 4])('one hand, %i machines', (machines) => {
    for (let seed = 1; seed <= cases(25); seed++) {
      const serial = randomSerial({ machines, seed });
      const outcome = bestSchedule(serialCell(serial), { partsPerPeriod: 1, improvements: false });
      expect('partSet' in outcome && outcome.partSet.proven).toBe(true);
      expect(period(outcome)).toBeCloseTo(bruteForcePeriod(serial), 6);
    }
  });

  it.each([
    [1, 20, 0],
    [2, 20, 2],
    [3, 12, 1],
    [3, 12, 4],
    [4, 3, 2],
  ])('two hands, %i machines', (machines, cells, indexS) => {
    for (let seed = 1; seed <= cases(cells); seed++) {
      const serial = randomSerial({ machines, seed: seed + 100, hands: 2, indexS });
      const outcome = bestSchedule(serialCell(serial), { partsPerPeriod: 1, improvements: false });
      expect('partSet' in outcome && outcome.partSet.proven).toBe(true);
      expect(period(outcome)).toBeCloseTo(bruteForcePeriod(serial), 6);
    }
  });
});
