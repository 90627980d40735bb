/** Changeover checks: wear of connectors, internal and external share, learning curve, break-even, loaded labour. */
import { describe, expect, it } from 'vitest';
import { minuteCost, personMinute } from '../../../src/core/cost/changeover-minutes.js';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { learningFactor } from '../../../src/core/cost/learning-factor.js';
import { readCase } from '../../../src/core/cost/read-case.js';
import { setsWornOut } from '../../../src/core/cost/sets-worn-out.js';
import { referenceChecks } from '../../support/reference.js';
import { changeoverRow, costCell, PLAIN_ITEMS } from './support/cost-cell.js';

const all = [...referenceChecks('changeover'), ...referenceChecks('economics')];
function check(id: string) {
  const found = all.find((c) => c.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found as unknown as {
    inputs: Record<string, number>;
    expected: number | number[];
    tolerance: number;
  };
}

describe('wear of connectors', () => {
  it('chg.mating.sets: the first set and those bought as the count passes each multiple', () => {
    const { changeovers, rating } = check('chg.mating.sets').inputs;
    for (const years of [1, 2, 5, 13]) {
      const bought = Array.from({ length: years }, (_, k) =>
        setsWornOut(k + 1, changeovers! / years, rating!),
      );
      expect(1 + bought.reduce((sum, sets) => sum + sets, 0)).toBe(check('chg.mating.sets').expected);
    }
  });
  it('exactly a multiple is not yet past it, whatever the rounding of the yearly count', () => {
    expect(setsWornOut(1, 100, 100)).toBe(0);
    expect(setsWornOut(1, 100.001, 100)).toBe(1);
    expect(setsWornOut(2, 100, 100)).toBe(1);
    expect(Array.from({ length: 30 }, (_, k) => setsWornOut(k + 1, 0.1, 1)).indexOf(1)).toBe(10);
    expect(setsWornOut(3, 50, null)).toBe(0);
  });
});

describe('internal and external set-up', () => {
  it('chg.smed.split: the machine stands for the internal minutes, the labour is paid for all', () => {
    const { total_min, external_min } = check('chg.smed.split').inputs;
    const internalPct = (100 * (total_min! - external_min!)) / total_min!;
    const cell = costCell(
      { ...PLAIN_ITEMS, labour_per_h: 60, machine_constrained: 'yes', contribution_per_machine_h: 60 },
      [changeoverRow('mill', 10, { internalPct })],
    );
    const inputs = readCase(cell, null, null);
    const cost = minuteCost(inputs, inputs.stations[0]!);
    // At one money a minute, the money is the minutes.
    const [stopped, labour] = check('chg.smed.split').expected as number[];
    expect(total_min! * cost.contribution).toBeCloseTo(stopped!, 9);
    expect(total_min! * cost.labour).toBeCloseTo(labour!, 9);
  });
});

describe('learning curve', () => {
  it.each(['chg.lc.cumavg80', 'chg.lc.cumavg70'])('%s', (id) => {
    const { first_unit_h, rate } = check(id).inputs;
    const totals = [1, 2, 4, 8, 16].map((units) => first_unit_h! * units * learningFactor(units, rate!));
    (check(id).expected as number[]).forEach((total, k) => {
      expect(totals[k]).toBeCloseTo(total, 6);
    });
  });
  it('chg.lc.second: the second unit by itself', () => {
    expect(2 * learningFactor(2, 0.8) - learningFactor(1, 0.8)).toBeCloseTo(0.6, 12);
  });
  it('lowers the fitting of several machines, not of one', () => {
    const items = { ...PLAIN_ITEMS, box_mount_h: 4, install_per_h: 50, install_learning_pct: 80 };
    const found = costCase(costCell(items, [changeoverRow('a', 40), changeoverRow('b', 40)]), null);
    if (found.status !== 'found') throw new Error(found.recommendation);
    expect(found.byStation.map((s) => s.capital)).toEqual([1700, 1700]);
    expect(found.alternatives[1]!.capital).toBeCloseTo(3000 + 2 * 200 * 0.8, 9);
  });
});

describe('break-even', () => {
  it('econ.be.box: 48 changeovers', () => {
    const { box_first_cost, harness_first_cost, box_cost_per_changeover, harness_cost_per_changeover } =
      check('econ.be.box').inputs;
    const found = costCase(
      costCell(
        {
          labour_per_h: 60,
          box_price: box_first_cost!,
          harness_price: harness_first_cost!,
          harness_connectors: 1,
          harness_min_per_connector: harness_cost_per_changeover!,
          box_plug_min: box_cost_per_changeover!,
          harness_elsewhere_per_year: 1e6,
          horizon_years: 4,
          discount_pct: 0,
        },
        [changeoverRow('mill', 30)],
      ),
      null,
    );
    if (found.status !== 'found') throw new Error(found.recommendation);
    expect(found.breakEvenChangeovers.total).toBeCloseTo(check('econ.be.box').expected as number, 9);
    expect(found.cumulativeCost.crossing).toBeCloseTo(48, 9);
  });
  it('econ.be.units: 6000 units', () => {
    const { fixed, cm_per_unit } = check('econ.be.units').inputs;
    const found = costCase(
      costCell(
        {
          labour_per_h: 60,
          box_price: fixed!,
          harness_connectors: 1,
          harness_min_per_connector: cm_per_unit!,
          harness_elsewhere_per_year: 1e6,
          horizon_years: 10,
          discount_pct: 0,
        },
        [changeoverRow('mill', 30)],
      ),
      null,
    );
    if (found.status !== 'found') throw new Error(found.recommendation);
    expect(found.breakEvenChangeovers.total).toBeCloseTo(check('econ.be.units').expected as number, 6);
  });
});

describe('loaded labour', () => {
  it('lab.burden, lab.cnc.loaded: an hour with its burden', () => {
    const { total, wages } = check('lab.ecec').inputs;
    const burden = total! / wages!;
    expect(burden).toBeCloseTo(check('lab.burden').expected as number, 3);
    const items = {
      ...PLAIN_ITEMS,
      labour_per_h: check('lab.cnc.loaded').inputs.wage_per_h!,
      labour_burden_pct: 100 * (burden - 1),
    };
    const inputs = readCase(costCell(items, [changeoverRow('mill', 10)]), null, null);
    expect(60 * personMinute(inputs)).toBeCloseTo(check('lab.cnc.loaded').expected as number, 2);
  });
});
