/** What no layout of a cell can exceed: the upper limit with no travel at all. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { cases } from '../../support/size.js';
import { lineCell } from '../shifts/small-cells.js';

const found = (travelS: number, cycleS: readonly number[], hands: 1 | 2): ScheduleFound => {
  const hand = [...cycleS, 0].map(() => 5);
  const { cell } = lineCell({ cycleS, pickS: hand, placeS: hand, wayS: (a, b) => (a === b ? 0 : travelS) }, [
    ...hand.keys(),
  ]);
  const outcome = bestSchedule({ ...cell, robot: { ...cell.robot, hands, indexS: 2 } });
  if (!('order' in outcome)) throw new Error(outcome.reason);
  return outcome;
};

it('one machine: carrying away and fetching take two loads, two unloads and three ways', () => {
  // 100 s of cycle; unload, way, place, way, pick, way, load: 20 s of handling and 12 s of ways.
  const { layoutGainPct } = found(4, [100], 1);
  expect(layoutGainPct).toBeCloseTo(100 * (132 / 120 - 1), 6);
});

it('no layout makes more than that', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 5, max: 120 }), { minLength: 1, maxLength: 3 }),
      fc.integer({ min: 1, max: 30 }),
      fc.constantFrom(1 as const, 2 as const),
      (cycleS, travelS, hands) => {
        const { partsPerH, layoutGainPct } = found(travelS, cycleS, hands);
        const best = found(0, cycleS, hands).partsPerH.total!;
        expect(best).toBeLessThanOrEqual(partsPerH.total! * (1 + layoutGainPct! / 100) + 1e-6);
      },
    ),
    { numRuns: cases(60) },
  );
});
