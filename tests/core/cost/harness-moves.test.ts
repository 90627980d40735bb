import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { harnessMoves } from '../../../src/core/cost/harness-moves.js';
import { cases } from '../../support/size.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS } from './support/cost-cell.js';

function found(items: Record<string, ItemValue>, counts: readonly number[]) {
  const rows = counts.map((count, k) => changeoverRow(`m${k}`, count));
  const outcome = costCase(
    costCell({ ...PLAIN_ITEMS, harness_elsewhere_per_year: 0, ...items }, rows),
    null,
    { trials: 1, turns: false },
  );
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

describe('a harness that never leaves its machine is not moved', () => {
  it('by hand', () => {
    expect(harnessMoves([50])).toEqual([0]);
    expect(harnessMoves([50], 8)).toEqual([8]);
    expect(harnessMoves([50, 10])).toEqual([10, 10]);
    expect(harnessMoves([30, 20, 25])).toEqual([30, 20, 25]);
    expect(harnessMoves([])).toEqual([]);
  });

  it('one machine: no minutes, so no box', () => {
    const one = found({}, [400]);
    expect(one.alternatives[0]!.annualCost).toBe(0);
    expect(one.byStation[0]!.savedMinPerYear).toBe(-400 * 3);
    expect(one.decision).toBe('move the harness');
  });

  it('all machines but one with boxes: the last one keeps the harness and needs none', () => {
    const result = found({}, [120, 110, 100]);
    expect(result.decision).toBe('boxes on the best machines');
    expect(result.selection.stations.length).toBe(2);
    const some = result.alternatives.find((a) => a.name === result.decision)!;
    // 12 minutes of moves are gone everywhere; two machines plug 3 minutes in, at 0.60 a minute.
    const plugged = [120, 110, 100].filter((_, k) => some.stations.includes(`m${k}`));
    expect(some.annualCost).toBeCloseTo(plugged.reduce((sum, n) => sum + n, 0) * 3 * 0.6, 9);
  });

  it('a box that lets the harness rest at another machine saves the moves to that one as well', () => {
    // Three connectors of four minutes; a box plugs in 2 and is checked in 1: 0.60 a minute, five years at 8%.
    const { byStation, audit } = found({}, [50, 50]);
    const [first] = byStation;
    expect(first!.savedElsewhereMinPerYear).toBe(50 * 12);
    expect(first!.savedMinPerYear).toBe(50 * 12 + 50 * 12 - 50 * 3);
    expect(first!.savingPerYear).toBeCloseTo(1050 * 0.6, 9);
    // The present value is that saving over the years less what the box takes.
    const factor = [1, 2, 3, 4, 5].reduce((sum, year) => sum + 1.08 ** -year, 0);
    expect(first!.npv).toBeCloseTo(first!.savingPerYear * factor - first!.capital, 9);
    expect(audit.find(({ result }) => result === 'm0: minutes saved per year')!.formula).toContain(
      'm1: minutes saved per year by a box on m0',
    );
    expect(found({}, [50, 30, 40]).byStation.map((s) => s.savedElsewhereMinPerYear)).toEqual([
      10 * 12,
      10 * 12,
      20 * 12,
    ]);
  });

  it('a connector wears with the moves, not with the changeovers', () => {
    const worn = { connector_price: 100, connector_matings: 10 };
    const [harness] = found(worn, [1000, 5]).alternatives;
    // Ten moves a year onto ten rated matings: a set is bought from the second year on.
    expect(harness!.cashFlow.map((flow) => Math.round(flow) + 0)).toEqual([0, -72, -172, -172, -172, -172]);
  });

  it('the count moves the value continuously, also where the harness begins to rest', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 5 }),
        fc.nat(4),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (counts, index, step) => {
          const k = index % counts.length;
          const moved = harnessMoves(counts.map((count, j) => (j === k ? count + step : count)));
          harnessMoves(counts).forEach((moves, j) => {
            expect(Math.abs(moved[j]! - moves)).toBeLessThanOrEqual(step + 1e-9);
          });
        },
      ),
    );
  });

  it('at its break-even count a machine is worth 0, whether or not the harness rests', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 2, maxLength: 4 }),
        fc.constantFrom(0, 15),
        (counts, elsewhere) => {
          const items = { harness_elsewhere_per_year: elsewhere, box_price: 300 };
          const { breakEvenChangeovers: even } = found(items, counts);
          counts.forEach((_, k) => {
            const count = even.byStation[`m${k}`];
            if (count === null || count === undefined || count === 0) return;
            const at = counts.map((n, j) => (j === k ? count / 5 : n));
            expect(Math.abs(found(items, at).byStation[k]!.npv)).toBeLessThan(1e-4);
          });
        },
      ),
      { numRuns: cases(40) },
    );
  });
});

describe('two boxes are two plugs', () => {
  it('minutes and wear', () => {
    const items = {
      boxes_per_machine: 2,
      box_plug_price: 40,
      box_plug_matings: 100,
      harness_elsewhere_per_year: 1e6,
    };
    const result = found(items, [50]);
    expect(result.byStation[0]!.boxMin).toBe(2 * 2 + 1);
    // 100 plugs a year: the rating is passed from the second year on.
    expect(result.alternatives[1]!.cashFlow.map(Math.round)).toEqual([-3000, -150, -190, -190, -190, -190]);
  });
});

describe('costs that are easily left out', () => {
  const bought = {
    engineering_price: 400,
    risk_assessment_price: 250,
    programming_h: 2,
    commissioning_h: 3,
    contingency_pct: 10,
    box_fit_stand_h: 4,
    contribution_per_machine_h: 50,
  };
  it('once for all, for each machine, and the machine standing in year 0', () => {
    const [, boxes] = found(bought, [40, 40]).alternatives;
    const capital = 1.1 * (2 * 1500 + 400 + 250 + 2 * 5 * 36);
    expect(boxes!.capital).toBeCloseTo(capital, 9);
    expect(boxes!.cashFlow[0]).toBeCloseTo(-capital - 2 * 4 * 50, 9);
  });
  it('standing is relieved of tax in year 0, and is not written off', () => {
    const taxed = found({ ...bought, tax_pct: 30 }, [40, 40]).alternatives[1]!;
    expect(taxed.afterTax!.cashFlow[0]).toBeCloseTo(-taxed.capital - 0.7 * 400, 9);
  });
});
