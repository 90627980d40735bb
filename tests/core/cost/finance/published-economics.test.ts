/** The money measures against published and recomputed values; each check names its source in the data file. */
import { describe, expect, it } from 'vitest';
import { annualEquivalent } from '../../../../src/core/cost/finance/annual-equivalent.js';
import { depreciation } from '../../../../src/core/cost/finance/depreciation.js';
import { incrementalAnalysis } from '../../../../src/core/cost/finance/incremental-analysis.js';
import { internalRatesOfReturn } from '../../../../src/core/cost/finance/internal-rates-of-return.js';
import { modifiedRateOfReturn } from '../../../../src/core/cost/finance/modified-rate-of-return.js';
import { netPresentValue } from '../../../../src/core/cost/finance/net-present-value.js';
import { discountedPaybackYears, paybackYears } from '../../../../src/core/cost/finance/payback-years.js';
import { referenceChecks } from '../../../support/reference.js';

interface Check {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Record<string, unknown>;
  readonly expected: unknown;
  readonly tolerance: number;
}
const checks = referenceChecks<Check>('economics');

function check(id: string): Check {
  const found = checks.find((c) => c.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found;
}

/** The check's number, or list of numbers, within its own tolerance. */
function expectClose(id: string, actual: number | readonly (number | null)[] | null): void {
  const { expected, tolerance } = check(id);
  const wanted = [expected].flat() as number[];
  const got = [actual].flat() as number[];
  expect(got.length, id).toBe(wanted.length);
  wanted.forEach((value, k) => {
    expect(Math.abs(got[k]! - value), `${id} [${k}]: ${got[k]} for ${value}`).toBeLessThanOrEqual(
      tolerance + 1e-12,
    );
  });
}

/** The factors of a table of compound interest, from present values alone. */
function factorsOf(rate: number, years: number) {
  const each = Array.from({ length: years }, (_, k) => k);
  const PF = netPresentValue(rate, [0, ...each.map((k) => (k === years - 1 ? 1 : 0))]);
  const PA = netPresentValue(rate, [0, ...each.map(() => 1)]);
  const PG = netPresentValue(rate, [0, ...each]);
  return { PF, PA, PG, FP: 1 / PF, FA: PA / PF, AP: 1 / PA, AF: PF / PA, AG: PG / PA };
}

const level = (first: number, yearly: number, years: number) => [first, ...Array(years).fill(yearly)];
const onlyRate = (flows: readonly number[]) => {
  const rates = internalRatesOfReturn(flows);
  expect(rates.length).toBe(1);
  return rates[0]!;
};

describe('compound-interest tables', () => {
  it.each(checks.filter((c) => c.id.startsWith('econ.factors')).map((c) => [c.id, c] as const))(
    '%s',
    (id, c) => {
      const { i, n } = c.inputs as { i: number; n: number };
      const factors = factorsOf(i, n);
      const names = c.quantity.split(',').map((name) => name.replace('/', '') as keyof typeof factors);
      expectClose(
        id,
        names.map((name) => factors[name]),
      );
    },
  );
});

describe('internal rates of return', () => {
  it.each(checks.filter((c) => c.id.startsWith('econ.newnan17_5')).map((c) => [c.id, c] as const))(
    '%s',
    (id, c) => expectClose(id, 100 * onlyRate(c.inputs.cf as number[])),
  );
  it.each(['D', 'B', 'A', 'C', 'E'])('econ.newnan8.irr.%s', (name) => {
    const { cost, uab, n } = check(`econ.newnan8.irr.${name}`).inputs as Record<string, number>;
    expectClose(`econ.newnan8.irr.${name}`, 100 * onlyRate(level(-cost!, uab!, n!)));
  });
  it.each(['B-D', 'A-B', 'C-A'])('econ.newnan8.incr.%s', (name) => {
    const { dcost, duab, n } = check(`econ.newnan8.incr.${name}`).inputs as Record<string, number>;
    expectClose(`econ.newnan8.incr.${name}`, 100 * onlyRate(level(-dcost!, duab!, n!)));
  });
  it('econ.newnan8.incr.E-A: less comes back than was paid, so the rate is negative', () => {
    const { dcost, duab, n } = check('econ.newnan8.incr.E-A').inputs as Record<string, number>;
    expectClose('econ.newnan8.incr.E-A', n! * duab!);
    expect(onlyRate(level(-dcost!, duab!, n!))).toBeLessThan(0);
  });
  it('econ.irr.four, negative', () => {
    expectClose('econ.irr.four', internalRatesOfReturn(check('econ.irr.four').inputs.cf as number[]));
    expectClose('econ.irr.negative', internalRatesOfReturn(check('econ.irr.negative').inputs.cf as number[]));
  });
  it('several rates and none', () => {
    const pump = check('econ.multirr.pump').inputs.cf as number[];
    expectClose(
      'econ.multirr.pump',
      internalRatesOfReturn(pump).map((rate) => 100 * rate),
    );
    expectClose('econ.multirr.pump.npv10', netPresentValue(0.1, pump));
    expectClose('econ.multirr.none', internalRatesOfReturn(check('econ.multirr.none').inputs.cf as number[]));
  });
});

describe('challenger against defender', () => {
  it('econ.newnan8.choice: the best of five at 6%', () => {
    const alternatives = ['A', 'B', 'C', 'D', 'E'].map((name) => {
      const { cost, uab, n } = check(`econ.newnan8.irr.${name}`).inputs as Record<string, number>;
      return { name, flows: level(-cost!, uab!, n!) };
    });
    const nothing = { name: 'do nothing', flows: [0] };
    const { marr } = check('econ.newnan8.choice').inputs as { marr: number };
    const found = incrementalAnalysis([nothing, ...alternatives], marr);
    expect(found.best).toBe(check('econ.newnan8.choice').expected);
    const values = alternatives.map((a) => netPresentValue(marr, a.flows));
    expect(alternatives[values.indexOf(Math.max(...values))]!.name).toBe(found.best);
  });
});

describe('a project of eight level years', () => {
  const { P, A, n, i } = check('econ.brigham.npv').inputs as Record<string, number>;
  const flows = level(-P!, A!, n!);
  it('value, rate, paybacks, modified rate', () => {
    expectClose('econ.brigham.npv', netPresentValue(i!, flows));
    expectClose('econ.brigham.irr', 100 * onlyRate(flows));
    expectClose('econ.brigham.payback', paybackYears(flows));
    expectClose('econ.brigham.dpayback', discountedPaybackYears(i!, flows));
    expectClose('econ.brigham.mirr', 100 * modifiedRateOfReturn(flows, i!, i!)!);
  });
});

describe('worked examples', () => {
  it('econ.npv.small', () => {
    const cf = check('econ.npv.small').inputs.cf as number[];
    expectClose('econ.npv.small', [netPresentValue(0.06, cf), 100 * onlyRate(cf), paybackYears(cf)]);
  });
  it('econ.mirr.five', () => {
    const { cf, finance, reinvest } = check('econ.mirr.five').inputs as {
      cf: number[];
      finance: number;
      reinvest: number;
    };
    expectClose('econ.mirr.five', modifiedRateOfReturn(cf, finance, reinvest));
  });
  it('econ.npv.four', () => {
    const { rate, cf } = check('econ.npv.four').inputs as { rate: number; cf: number[] };
    expectClose('econ.npv.four', netPresentValue(rate, cf));
  });
  it('econ.npv.simple and notreached', () => {
    const simple = check('econ.npv.simple').inputs as { cf: number[]; i: number };
    const discounted = discountedPaybackYears(simple.i, simple.cf)!;
    expect(paybackYears(simple.cf)).toBe(2.5);
    // Printed to five decimals.
    expect(discounted).toBeCloseTo((check('econ.npv.simple').expected as number[])[1]!, 5);
    const never = check('econ.npv.notreached').inputs as { cf: number[]; i: number };
    expect(discountedPaybackYears(never.i, never.cf)).toBeNull();
    expect(netPresentValue(never.i, never.cf)).toBeCloseTo(-5.26, 2);
  });
  it('econ.omb: benefits over costs (a stream as remembered from the circular, matched by its totals)', () => {
    const costs = [0, 10, 20, 30, 30, 20, 10, 5, 5, 5, 5];
    const benefits = [0, 0, 0, 5, 10, 30, 40, 40, 40, 40, 25];
    const at = (rate: number) => [netPresentValue(rate, costs), netPresentValue(rate, benefits)] as const;
    const [cost7, benefit7] = at(0.07);
    expectClose('econ.omb_a94_1992.pv7', [cost7, benefit7, benefit7 - cost7]);
    const [cost, benefit] = at(0.031);
    expectClose('econ.omb_a94_2023.bcr', benefit / cost);
  });
  it('econ.euac: capital recovery both ways, and repeated lives leave the yearly cost as it is', () => {
    const { P, A, S, i, n } = check('econ.euac.identity').inputs as Record<string, number>;
    const flows = [-P!, ...Array(n! - 1).fill(-A!), -A! + S!];
    const { AP, AF } = factorsOf(i!, n!);
    expectClose('econ.euac.identity', -annualEquivalent(i!, flows));
    expectClose('econ.euac.identity', (P! - S!) * AP + S! * i! + A!);
    expectClose('econ.euac.identity', P! * AP - S! * AF + A!);
    for (const years of [4, 6]) {
      const once = [-1000, ...Array(years).fill(-50)];
      const repeated = Array.from({ length: 13 }, (_, year) =>
        year === 12 ? -50 : year === 0 ? -1000 : year % years === 0 ? -1050 : -50,
      );
      expect(annualEquivalent(0.08, repeated)).toBeCloseTo(annualEquivalent(0.08, once), 9);
    }
  });
});

describe('depreciation', () => {
  it('the half-year tables and their sums', () => {
    for (const years of [3, 5] as const) {
      const table = depreciation(`macrs-${years}`, 100);
      expectClose(`econ.macrs.${years}y`, table);
      expectClose(
        `econ.macrs.${years}y.sum`,
        table.reduce((sum, pct) => sum + pct, 0),
      );
    }
    // IRS Publication 946, Table A-1, the 7-year column.
    const seven = depreciation('macrs-7', 100);
    expect(seven).toEqual([14.29, 24.49, 17.49, 12.49, 8.93, 8.92, 8.93, 4.46]);
    expect(seven.reduce((sum, pct) => sum + pct, 0)).toBeCloseTo(100, 10);
    expectClose('econ.macrs.1000', depreciation('macrs-5', 1000));
  });
  it('the tables follow from 200% declining balance turning to straight line', () => {
    for (const years of [3, 5, 7] as const) {
      let book = 100;
      const computed = Array.from({ length: years + 1 }, (_, k) => {
        const declining = (book * 2) / years / (k === 0 ? 2 : 1);
        const level = k === 0 ? declining : book / Math.max(0.5, years + 0.5 - k);
        const amount = k === years ? book : Math.max(declining, level);
        book -= amount;
        return amount;
      });
      depreciation(`macrs-${years}`, 100).forEach((pct, k) => {
        expect(Math.abs(pct - computed[k]!)).toBeLessThan(0.011);
      });
    }
  });
  it('straight line, whole years and half-year convention', () => {
    expectClose('econ.macrs.sl5hy', depreciation('straight-line', 100, { years: 5, halfYear: true }));
    const { first_cost, salvage, life } = check('econ.sl.bt').inputs as Record<string, number>;
    const yearly = depreciation('straight-line', first_cost!, { years: life!, salvage: salvage! });
    expectClose('econ.sl.bt', [yearly[0]!, first_cost! - yearly[0]! - yearly[1]!]);
  });
});
