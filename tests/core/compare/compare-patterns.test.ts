/** Patterns under the same luck: like patterns are alike in every run, longer ones make more, and weeks add up. */
import { expect, test } from 'vitest';
import { comparePatterns } from '../../../src/core/compare/compare-patterns.js';
import type { Shift } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { likeMachines } from '../simulate/cells.js';

const shift = (pattern: string, hours: number): Shift => ({
  pattern,
  shift: 'early',
  days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
  startMin: 360,
  endMin: 360 + 60 * hours,
  breaks: [],
  attended: true,
  operators: 1,
  labourPerH: 30,
});
const cell = likeMachines(2, 60, 8, {
  variation: [{ station: '*', element: 'cycle', distribution: 'exponential', parameters: [60] }],
  shifts: [shift('a', 8), shift('b', 8), shift('long', 10)],
});

const schedule = bestSchedule(cell, { nodeLimit: 2000, improvements: false }) as ScheduleFound;

test('the same pattern under two names differs in no run; a longer one is clearly ahead', async () => {
  const { patterns, differences } = await comparePatterns(cell, schedule, {
    program: 'first',
    replications: 6,
    seed: 3,
  });
  const pair = (a: string, b: string) => differences.find((d) => d.a === a && d.b === b)!;
  expect(pair('a', 'b')).toEqual({
    a: 'a',
    b: 'b',
    partsPerWeek: { mean: 0, ciLow: 0, ciHigh: 0 },
    clear: false,
  });
  expect(pair('a', 'long')).toMatchObject({ clear: true });
  expect(pair('a', 'long').partsPerWeek.ciHigh).toBeLessThan(0);
  const [a, , long] = patterns;
  expect(a!.partsPerWeek.mean).toBeCloseTo(5 * a!.partsPerShift.mean, 9);
  expect(pair('a', 'long').partsPerWeek.mean).toBeCloseTo(a!.partsPerWeek.mean - long!.partsPerWeek.mean, 9);
  // 10 hours in place of 8 at the same mean rate.
  expect(long!.partsPerWeek.mean / a!.partsPerWeek.mean).toBeCloseTo(1.25, 1);
});
