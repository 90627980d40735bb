/** Effectiveness, takt and the indicators of ISO 22400 against published and recomputed examples. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { overallEquipmentEffectiveness } from '../../../src/core/performance/overall-equipment-effectiveness.js';
import { patternPerformance } from '../../../src/core/performance/pattern-performance.js';
import { taktTimeMin } from '../../../src/core/performance/takt-time.js';
import { workUnitIndicators } from '../../../src/core/performance/work-unit-indicators.js';
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

test('availability, performance, quality and their product', () => {
  const i = inputs('oee.shift');
  const time = {
    plannedMin: i.planned_min!,
    downMin: i.down_min!,
    idealMin: i.ideal_min!,
    total: i.total!,
    good: i.good!,
  };
  const { availability, performance, quality, oee } = overallEquipmentEffectiveness(time);
  within([availability, performance, quality], 'oee.shift');
  within([oee], 'oee.shift.product');
});

test('availability in per cent', () => {
  const i = inputs('oee.smrp.avail');
  const plannedMin = 60 * (i.total_h! - i.idle_h!);
  const { availability } = overallEquipmentEffectiveness({
    plannedMin,
    downMin: 60 * i.downtime_h!,
    idealMin: 1,
    total: 1,
    good: 1,
  });
  within([100 * availability], 'oee.smrp.avail');
});

test('takt', () => {
  const s = inputs('takt.stevenson');
  within([taktTimeMin(s.shifts! * (s.shift_min! - s.rest! - s.lunch!), s.demand!)], 'takt.stevenson');
  const f = inputs('takt.day');
  within([taktTimeMin(f.avail!, f.demand!)], 'takt.day');
});

test('the indicators of ISO 22400-2', () => {
  const i = inputs('iso22400.synthetic');
  const k = workUnitIndicators({
    plannedBusyTime: i.PBT!,
    actualProductionTime: i.APT!,
    actualUnitBusyTime: i.AUBT!,
    actualUnitSetupTime: i.AUST!,
    actualUnitProcessingTime: i.AUPT!,
    actualUnitDelayTime: i.ADET!,
    plannedRunTimePerItem: i.PRI!,
    producedQuantity: i.PQ!,
    goodQuantity: i.GQ!,
    scrapQuantity: i.SQ!,
  });
  within(
    [
      k.availability,
      k.effectiveness,
      k.qualityRatio,
      k.overallEquipmentEffectivenessIndex,
      k.netEquipmentEffectivenessIndex,
      k.allocationEfficiency,
      k.utilizationEfficiency,
      k.setupRatio,
      k.technicalEfficiency,
      k.scrapRatio,
    ],
    'iso22400.synthetic',
  );
});

test('the three factors multiply to the whole, which is good parts times ideal time over planned time', () => {
  const minutes = fc.double({ min: 1, max: 1e5, noNaN: true });
  const share = fc.double({ min: 0, max: 0.99, noNaN: true });
  fc.assert(
    fc.property(
      minutes,
      share,
      minutes,
      fc.integer({ min: 1, max: 1e5 }),
      share,
      (plannedMin, down, idealMin, total, bad) => {
        const good = total * (1 - bad);
        const e = overallEquipmentEffectiveness({
          plannedMin,
          downMin: plannedMin * down,
          idealMin,
          total,
          good,
        });
        expect((e.availability * e.performance * e.quality) / e.oee).toBeCloseTo(1, 9);
      },
    ),
  );
});

test('times and counts outside their range are refused by name', () => {
  const time = { plannedMin: 10, downMin: 0, idealMin: 1, total: 5, good: 5 };
  expect(() => overallEquipmentEffectiveness({ ...time, downMin: 11 })).toThrow(
    'stops must lie within the planned time',
  );
  expect(() => overallEquipmentEffectiveness({ ...time, good: 6 })).toThrow('good parts must be 0 or more');
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
