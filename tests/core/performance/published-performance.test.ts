/** Takt against published examples, and the performance of a pattern worked by hand. */
import { expect, test } from 'vitest';
import { patternPerformance } from '../../../src/core/performance/pattern-performance.js';
import { taktTimeMin } from '../../../src/core/performance/takt-time.js';
import type { ShiftYield } from '../../../src/core/shifts/shift-yield.js';
import { referenceChecks } from '../../support/reference.js';
import { cellOf } from '../simulate/cells.js';

const check = (id: string) => referenceChecks('performance').find((c) => c.id === id)!;
const within = (values: readonly (number | null)[], id: string): void => {
  const { expected, tolerance } = check(id);
  const wanted = Array.isArray(expected) ? expected : [expected];
  expect(values).toHaveLength(wanted.length);
  for (const [i, value] of values.entries())
    expect(Math.abs(value! - wanted[i]!), `${id} ${i}`).toBeLessThanOrEqual(tolerance);
};
const inputs = (id: string) => check(id).inputs as Record<string, number>;

test('takt', () => {
  const s = inputs('takt.stevenson');
  within([taktTimeMin(s.shifts! * (s.shift_min! - s.rest! - s.lunch!), s.demand!)], 'takt.stevenson');
  const f = inputs('takt.day');
  within([taktTimeMin(f.avail!, f.demand!)], 'takt.day');
});

test('a demand of 0 is refused by name', () => {
  expect(() => taktTimeMin(10, 0)).toThrow('the demand must be above 0');
});

test('a pattern: takt against what comes out, effectiveness against the steady rate', () => {
  const week = {
    pattern: 'day',
    hoursPerWeek: 40,
    shiftsPerWeek: 5,
    partsPerWeek: { a: 720, total: 720 },
    ceilingPerWeek: { a: 960, total: 960 },
    losses: [
      { cause: 'planned stops', partsPerWeek: 160 },
      { cause: 'scrap', partsPerWeek: 80 },
    ],
  } as unknown as ShiftYield;
  const cell = cellOf({
    parts: [{ part: 'a', contribution: null, perShift: 160, ratio: null, yieldPct: 90 }],
  });
  // 800 a week are wanted in 144,000 s: one in 180 s; 720 come out, one in 200 s.
  expect(patternPerformance(cell, week)).toEqual({
    pattern: 'day',
    effectivenessPct: 75,
    qualityPct: 90,
    takt: [{ part: 'a', taktS: 180, actualS: 200, isMet: false }],
  });
});
