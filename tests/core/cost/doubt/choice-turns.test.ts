// Where another choice becomes best, against every set of machines tried out.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestPlan, planValues } from '../../../../src/core/cost/alternatives.js';
import { costCase } from '../../../../src/core/cost/cost-case.js';
import { choiceTurns } from '../../../../src/core/cost/doubt/choice-turns.js';
import { incrementValue } from '../../../../src/core/cost/increment-value.js';
import type { Way } from '../../../../src/core/cost/plan-flows.js';
import { readCase } from '../../../../src/core/cost/read-case.js';
import type { CostCaseFound } from '../../../../src/core/cost/result.js';
import { atSize, deepTest } from '../../../support/size.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS } from '../support/cost-cell.js';

const COUNTS = [60, 40, 20];
const rows = COUNTS.map((count, k) => changeoverRow(`m${k + 1}`, count));

function caseOf(items: Record<string, ItemValue>): CostCaseFound {
  const outcome = costCase(costCell({ ...PLAIN_ITEMS, ...items }, rows), null, { trials: 10 });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

describe('all machines, then two, then one, then none', () => {
  // A changeover saves 9 of 12 min at 36 an hour: 5.40, and 3.9927 years' worth over 5 years at 8%. A box costs 400.
  const result = caseOf({ box_price: 400 });
  const years = [1, 2, 3, 4, 5].reduce((sum, year) => sum + 1.08 ** -year, 0);

  it('each machine leaves where its own changeovers no longer earn its box', () => {
    const count = result.turns.find((turns) => turns.item === 'changeover_count_pct')!;
    expect(count.above).toEqual([]);
    expect(count.below.map((step) => step.stations)).toEqual([['m1', 'm2'], ['m1'], []]);
    // In ascending order of their counts.
    for (const [k, perYear] of [20, 40, 60].entries())
      expect(count.below[k]!.at).toBeCloseTo((100 * 400) / (perYear * 5.4 * years), 6);
    expect(count.below[2]).toMatchObject({ name: 'move the harness', npv: 0 });
    // At the first turn two machines are left: their value there.
    const share = count.below[0]!.at / 100;
    expect(count.below[0]!.npv).toBeCloseTo(share * 100 * 5.4 * years - 800, 2);
  });

  it('the dearer the box, the fewer', () => {
    const price = result.turns.find((turns) => turns.item === 'box_price')!;
    expect(price.above.map((step) => step.stations.length)).toEqual([2, 1, 0]);
    expect(price.above[0]!.at).toBeCloseTo(20 * 5.4 * years, 5);
    expect(result.nearestTurn?.item).toBe(result.turns[0]!.item);
  });
});

it('before and past each turn, no set of machines is worth more than the choice that is named', () => {
  const own: Way[][] = Array.from({ length: 8 }, (_, bits) =>
    rows.map((_row, k) => (bits & (1 << k) ? 'own box' : 'harness')),
  );
  let turned = 0;
  const drawn = fc.record({
    box_price: fc.integer({ min: 100, max: 900 }),
    engineering_price: fc.integer({ min: 0, max: 300 }),
    connector_price: fc.integer({ min: 0, max: 60 }),
    connector_matings: fc.integer({ min: 20, max: 200 }),
    budget: fc.integer({ min: 200, max: 3000 }),
    labour_per_h: fc.integer({ min: 10, max: 60 }),
  });
  const runs = atSize(4, 25);
  fc.assert(
    fc.property(drawn, (items) => {
      const of = (changed: Record<string, number>) =>
        readCase(costCell({ ...PLAIN_ITEMS, ...items, ...changed }, rows), null, null);
      const inputs = of({});
      const planned = bestPlan(inputs, 'before tax');
      const turns = choiceTurns(inputs, {
        planned,
        best: (at) => bestPlan(at, 'before tax'),
        values: (at, plans) => planValues(at, plans, 'before tax'),
      });
      for (const item of ['box_price', 'labour_per_h', 'changeover_count_pct']) {
        const found = turns.find((each) => each.item === item);
        for (const step of [found?.below[0], found?.above[0]]) {
          if (step === undefined) continue;
          turned++;
          for (const side of [-1, 1]) {
            const away = Math.sign(step.at - found!.value);
            const at = of({ [item]: step.at + side * away * 1e-5 * Math.max(0.01, step.at) });
            const values = planValues(
              at,
              own.map((ways) => ({ name: '', ways })),
              'before tax',
            );
            const best = Math.max(...values.map((value) => value ?? Number.NEGATIVE_INFINITY));
            const named =
              side < 0
                ? planned.ways
                : rows.map((row): Way => (step.stations.includes(row.station) ? 'own box' : 'harness'));
            expect(incrementValue(at, named, 'before tax')).toBeGreaterThan(best - 1e-4);
          }
        }
      }
    }),
    { numRuns: runs },
  );
  expect(turned).toBeGreaterThan(runs);
});

describe('break-even of the recommended choice', () => {
  it('before and after tax, each at the count where it is worth nothing', () => {
    const result = caseOf({ box_price: 600, tax_pct: 30 });
    const { ofChoice, total, totalAfterTax } = result.breakEvenChangeovers;
    expect(result.alternatives.find((a) => a.name === ofChoice!.name)!.stations).toEqual(['m1', 'm2']);
    expect(ofChoice!.total).toBeLessThan(total!);
    expect(ofChoice!.totalAfterTax).toBeLessThan(totalAfterTax!);
    const ways: Way[] = ['own box', 'own box', 'harness'];
    for (const [count, basis] of [
      [ofChoice!.total!, 'before tax'],
      [ofChoice!.totalAfterTax!, 'after tax'],
    ] as const) {
      const cell = costCell({ ...PLAIN_ITEMS, box_price: 600, tax_pct: 30 }, rows);
      expect(incrementValue(readCase(cell, null, count), ways, basis)).toBeCloseTo(0, 6);
    }
  });
});

describe('what the discount rate is meant for', () => {
  deepTest('before tax, after tax, or both; nominal or real', () => {
    const base = { box_price: 300, tax_pct: 30, discount_pct: 10, inflation_pct: 3 };
    const npvs = (more: Record<string, ItemValue>) => {
      const { increment, incrementAfterTax } = caseOf({ ...base, ...more });
      return [increment.npv, incrementAfterTax!.npv];
    };
    const [before, after] = npvs({});
    // 10% before tax is 7% after it; 7% after tax is 10% before it.
    expect(npvs({ discount_tax: 'before-tax' })).toEqual([before, npvs({ discount_pct: 7 })[1]]);
    expect(npvs({ discount_tax: 'after-tax' })[1]).toBe(after);
    expect(npvs({ discount_tax: 'after-tax', discount_pct: 7 })[0]).toBeCloseTo(before!, 8);
    // 10% real with a rise of 3% is 13.3% nominal.
    const real = npvs({ discount_prices: 'real' });
    expect(real[0]).toBeCloseTo(npvs({ discount_pct: 13.3 })[0]!, 8);
    expect(real[1]).toBeCloseTo(npvs({ discount_pct: 13.3 })[1]!, 8);
  });
});
