import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stationValue } from '../../../src/core/cost/break-even.js';
import { type CostCaseOptions, costCase } from '../../../src/core/cost/cost-case.js';
import { netPresentValue } from '../../../src/core/cost/finance/net-present-value.js';
import { incrementValue } from '../../../src/core/cost/increment-value.js';
import { readCase } from '../../../src/core/cost/read-case.js';
import type { CostCaseFound } from '../../../src/core/cost/result.js';
import type { Cell, Changeover } from '../../../src/core/model/cell.js';
import { cases, deepTest } from '../../support/size.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS, signalRows } from './support/cost-cell.js';

function found(cell: Cell, options: CostCaseOptions = {}): CostCaseFound {
  const outcome = costCase(cell, null, { trials: 200, ...options });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

/** For properties of the figures alone. */
const figures = (cell: Cell, options: CostCaseOptions = {}): CostCaseFound =>
  found(cell, { trials: 1, turns: false, ...options });

/** Level payment factor by plain summing. */
const level = (rate: number, years: number) =>
  Array.from({ length: years }, (_, k) => (1 + rate) ** -(k + 1)).reduce((sum, v) => sum + v, 0);

describe('a case worked by hand', () => {
  // Harness: 4 x 3 + 6 carry + 16 signals x 0.5 + 0.1 x 30 = 29 min; box: 2 plugs x 2 + 1 + 0.02 x 30 = 5.6 min.
  // A minute: 36/60 x 2 people = 1.20. Saved: 50 x 23.4 min x 1.20 = 1404 a year.
  // Capital: 2 boxes (10 inputs on 8) x 1500 + 2 x 80 cables + (2 x 1.5 h + 16 x 3/60 h) x 40 = 3312.
  const cell = costCell(
    {
      ...PLAIN_ITEMS,
      harness_carry_min: 6,
      check_min_per_signal: 0.5,
      fault_chance_harness: 0.1,
      fault_chance_box: 0.02,
      fault_find_min: 30,
      box_inputs: 8,
      box_outputs: 8,
      box_amps: 4,
      box_mount_h: 1.5,
      box_wire_min_per_signal: 3,
      box_upkeep_per_year: 20,
      box_salvage: 150,
      cable_set_price: 80,
      install_per_h: 40,
      connector_price: 90,
      connector_matings: 100,
      harness_price: 200,
      currency: 'EUR',
    },
    [changeoverRow('mill', 50, { people: 2, minutesOther: 12 })],
    signalRows('mill', 10, 6),
  );
  const result = found(cell);
  const mill = result.byStation[0]!;

  it('minutes, boxes, saving, capital', () => {
    expect(mill.harnessMin).toBeCloseTo(29, 9);
    expect(mill.boxMin).toBeCloseTo(5.6, 9);
    expect(mill.otherMin).toBe(12);
    expect(mill.harnessLines.reduce((sum, line) => sum + line.minutes, 0)).toBeCloseTo(29, 9);
    expect(mill.boxLines.reduce((sum, line) => sum + line.minutes, 0)).toBeCloseTo(5.6, 9);
    expect(mill.boxes).toBe(2);
    expect(mill.savedMinPerYear).toBeCloseTo(1170, 9);
    expect(mill.savingPerYear).toBeCloseTo(1404, 9);
    expect(mill.capital).toBeCloseTo(3312, 9);
  });

  it('cash flows of both ways and their increment', () => {
    // Connectors: the running count passes 100 in year 3 and 200 in year 5.
    const harness = [-200, -1740, -1740, -1830, -1740, -1830];
    const box = [-3312, -376, -376, -376, -376, -376 + 300];
    expect(result.alternatives.map((a) => a.name)).toEqual(['move the harness', 'a box on every machine']);
    result.alternatives[0]!.cashFlow.forEach((flow, y) => {
      expect(flow).toBeCloseTo(harness[y]!, 9);
    });
    result.alternatives[1]!.cashFlow.forEach((flow, y) => {
      expect(flow).toBeCloseTo(box[y]!, 9);
    });
    expect(result.alternatives[0]!.npvCost).toBeCloseTo(-netPresentValue(0.08, harness), 9);
    expect(result.alternatives[0]!.annualCost).toBeCloseTo((3 * 1740 + 2 * 1830) / 5, 9);
    expect(result.alternatives[1]!.annualEquivalent).toBeCloseTo(
      -netPresentValue(0.08, box) / level(0.08, 5),
      9,
    );
    const increment = box.map((flow, y) => flow - harness[y]!);
    expect(result.increment.npv).toBeCloseTo(netPresentValue(0.08, increment), 9);
    expect(result.increment.benefitCost).toBeCloseTo((result.increment.npv + 3112) / 3112, 9);
    // Two years at 1364, then 384 left of the third year's 1454.
    expect(result.increment.paybackYears).toBeCloseTo(2 + (3112 - 2728) / 1454, 9);
    expect(netPresentValue(result.increment.irrPct! / 100, increment)).toBeCloseTo(0, 6);
    expect(result.incrementAfterTax).toBeNull();
  });

  it('says what to do, traces every figure and repeats exactly', () => {
    expect(result.decision).toBe('a box on every machine');
    expect(result.recommendation).toMatch(
      /^Put boxes on every machine: over 5 years this is worth 2,671\u00A0EUR more/,
    );
    const capital = result.audit.find((entry) => entry.result === 'mill: capital')!;
    expect(capital.value).toBeCloseTo(3312, 9);
    const order = result.audit.find((entry) => entry.result === 'order of 2 boxes')!;
    expect(order.inputs).toContainEqual({
      item: 'box_price',
      value: 1500,
      place: { file: 'costs.csv', line: 3 },
    });
    expect(costCase(cell, null, { trials: 200 })).toEqual(result);
  });
});

describe('after tax', () => {
  it('by hand: running costs at 70%, depreciation shields 30%, what is left is relieved in the last year', () => {
    const cell = costCell(
      {
        ...PLAIN_ITEMS,
        horizon_years: 2,
        tax_pct: 30,
        depreciation: 'macrs-3',
        box_salvage: 100,
        box_upkeep_per_year: 0,
      },
      [changeoverRow('mill', 100)],
    );
    const { incrementAfterTax, alternatives } = found(cell);
    // Harness 12 min x 0.6 x 100 = 720, box 3 x 0.6 x 100 = 180 a year; written off 33.33% and 44.45% of 1500.
    const left = 1500 * (1 - 0.3333 - 0.4445);
    const box = [-1500, -180 * 0.7 + 0.3 * 499.95, -180 * 0.7 + 0.3 * 666.75 + 100 - 0.3 * (100 - left)];
    alternatives[1]!.afterTax!.cashFlow.forEach((flow, y) => {
      expect(flow).toBeCloseTo(box[y]!, 9);
    });
    incrementAfterTax!.cashFlow.forEach((flow, y) => {
      expect(flow).toBeCloseTo(box[y]! + [0, 504, 504][y]!, 9);
    });
  });
  it('unless the table says otherwise, purchases are written off in a straight line', () => {
    const items = { ...PLAIN_ITEMS, tax_pct: 30 };
    const rows = [changeoverRow('mill', 100)];
    const line = { ...items, depreciation: 'straight-line', depreciation_years: 5 };
    expect(found(costCell(items, rows)).incrementAfterTax).toEqual(
      found(costCell(line, rows)).incrementAfterTax,
    );
  });
  it('with depreciation none the purchases do not touch the tax, and a warning says so', () => {
    const items = { ...PLAIN_ITEMS, horizon_years: 2, tax_pct: 30, box_salvage: 100, depreciation: 'none' };
    const { alternatives, warnings } = found(costCell(items, [changeoverRow('mill', 100)]));
    expect(warnings).toContain(
      'depreciation is none, so the tax never takes the purchases into account: after tax, boxes look worse than they are.',
    );
    alternatives[1]!.afterTax!.cashFlow.forEach((flow, y) => {
      expect(flow).toBeCloseTo([-1500, -126, -26][y]!, 9);
    });
  });
});

describe('long horizons', () => {
  const rows = [changeoverRow('a', 30), changeoverRow('b', 10)];
  deepTest('51 and 100 years, and the rates at the ends of their ranges, come to numbers', () => {
    for (const horizon_years of [51, 100])
      for (const [discount_pct, inflation_pct] of [
        [8, 0],
        [-90, 1000],
        [1000, -90],
      ] as const) {
        const items = { ...PLAIN_ITEMS, horizon_years, discount_pct, inflation_pct, box_salvage: 90 };
        const result = found(costCell(items, rows));
        expect(Number.isFinite(result.increment.npv)).toBe(true);
        expect(result.increment.cashFlow.length).toBe(horizon_years + 1);
      }
  });
});

describe('inflation', () => {
  it('a rise as large as the discount rate leaves the plain sum', () => {
    const items = { ...PLAIN_ITEMS, discount_pct: 5, inflation_pct: 5 };
    const result = found(costCell(items, [changeoverRow('mill', 100)]));
    expect(result.increment.npv).toBeCloseTo(-1500 + 5 * 540, 6);
  });
});

describe('changeovers over the horizon', () => {
  const rows = [changeoverRow('a', 30), changeoverRow('b', 10)];
  it('--changeovers shares out N in the proportions of the table, evenly over the years', () => {
    const result = found(costCell(PLAIN_ITEMS, rows), { changeovers: 100 });
    expect(result.plannedChangeovers).toBeCloseTo(100, 9);
    expect(result.byStation.map((s) => s.changeoversPerYear)).toEqual([15, 5]);
    expect(found(costCell(PLAIN_ITEMS, rows)).plannedChangeovers).toBe(200);
  });
  it('no changeovers: do nothing', () => {
    const result = found(costCell(PLAIN_ITEMS, rows), { changeovers: 0 });
    expect(result.decision).toBe('do nothing');
    expect(result.recommendation).toMatch(/^Do nothing: no changeovers are planned/);
    expect(result.breakEvenChangeovers.total).toBeNull();
  });
  it('asked for N where every proportion is 0', () => {
    const outcome = costCase(costCell(PLAIN_ITEMS, [changeoverRow('a', 0)]), null, { changeovers: 10 });
    expect(outcome.status).toBe('wrong');
    expect(outcome.recommendation).toContain('per_year is 0 for every machine');
  });
});

const numbers = {
  labour_per_h: fc.integer({ min: 10, max: 90 }),
  box_price: fc.integer({ min: 100, max: 4000 }),
  harness_price: fc.constantFrom(0, 500),
  harness_min_per_connector: fc.integer({ min: 1, max: 9 }),
  box_plug_min: fc.integer({ min: 0, max: 10 }),
  box_upkeep_per_year: fc.integer({ min: 0, max: 50 }),
  box_salvage: fc.integer({ min: 0, max: 90 }),
  horizon_years: fc.integer({ min: 1, max: 10 }),
  discount_pct: fc.constantFrom(0, 4, 8, 25),
  tax_pct: fc.constantFrom(0, 30),
  inflation_pct: fc.constantFrom(0, 2),
};
const rowsOf = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 90 }), fc.integer({ min: 1, max: 3 })), {
    minLength: 1,
    maxLength: 4,
  })
  .map((rows) => rows.map(([perYear, people], k) => changeoverRow(`m${k}`, perYear, { people })));
const wear = fc.record({
  connector_price: fc.constantFrom(0, 100, 700),
  connector_matings: fc.constantFrom(25, 100, 500),
});

describe('properties', () => {
  it('doubling all money doubles every value and moves no rate and no break-even', () => {
    fc.assert(
      fc.property(fc.record(numbers), wear, rowsOf, (items, worn, rows) => {
        const money = [
          'labour_per_h',
          'box_price',
          'harness_price',
          'box_upkeep_per_year',
          'box_salvage',
          'connector_price',
        ];
        const base: Record<string, ItemValue> = {
          ...PLAIN_ITEMS,
          ...items,
          ...worn,
          depreciation: 'macrs-5',
        };
        const double = Object.fromEntries(
          Object.entries(base).map(([item, value]) => [
            item,
            money.includes(item) ? 2 * (value as number) : value,
          ]),
        );
        const [one, two] = [figures(costCell(base, rows)), figures(costCell(double, rows))];
        expect(two.increment.npv).toBeCloseTo(2 * one.increment.npv, 6);
        two.alternatives.forEach((a, k) => {
          expect(a.npvCost).toBeCloseTo(2 * one.alternatives[k]!.npvCost, 6);
        });
        expect(two.selection.npv).toBeCloseTo(2 * one.selection.npv, 6);
        expect(two.selection.stations).toEqual(one.selection.stations);
        one.increment.irrAll.forEach((rate, k) => {
          expect(Math.abs(two.increment.irrAll[k]! - rate)).toBeLessThanOrEqual(
            1e-9 * Math.max(100, Math.abs(rate)),
          );
        });
        if (one.breakEvenChangeovers.total !== null)
          expect(two.breakEvenChangeovers.total! / one.breakEvenChangeovers.total || 1).toBeCloseTo(1, 9);
      }),
      { numRuns: cases(60) },
    );
  });

  it('at the break-even count the value is zero, in all and machine by machine, save where it jumps', () => {
    let zeros = 0;
    let jumps = 0;
    const shared = {
      ...numbers,
      box_plug_price: fc.constantFrom(0, 40),
      box_plug_matings: fc.constantFrom(60, 300),
    };
    fc.assert(
      fc.property(fc.record(shared), wear, rowsOf, (items, worn, rows) => {
        const cell = costCell({ ...PLAIN_ITEMS, ...items, ...worn, tax_pct: 0 }, rows);
        const { breakEvenChangeovers: even } = figures(cell);
        if (even.total !== null && even.total > 0) {
          const at = figures(cell, { changeovers: even.total });
          if (even.atJump.includes('total')) {
            jumps++;
            expect(figures(cell, { changeovers: even.total * (1 - 1e-6) }).increment.npv).toBeLessThan(0);
            expect(
              figures(cell, { changeovers: even.total * (1 + 1e-6) }).increment.npv,
            ).toBeGreaterThanOrEqual(0);
          } else {
            zeros++;
            expect(Math.abs(at.increment.npv)).toBeLessThan(1e-6 * at.alternatives[1]!.npvCost + 1e-9);
          }
        }
        const inputs = readCase(cell, null, null);
        rows.forEach((row, k) => {
          const count = even.byStation[row.station];
          if (count === null || count === undefined || count === 0 || even.atJump.includes(row.station))
            return;
          const value = stationValue(inputs, k, 'before tax');
          expect(Math.abs(value(count))).toBeLessThan(1e-6 * (Math.abs(value(0)) + 1));
        });
      }),
      { numRuns: cases(60) },
    );
    expect(zeros).toBeGreaterThan(cases(60) / 3);
    expect(jumps).toBeGreaterThan(0);
  });

  it('a set that falls due with the first changeover is a jump at 0, whichever connectors wear', () => {
    const rows = [changeoverRow('m0', 25), changeoverRow('m1', 1)];
    const worn = { horizon_years: 1, box_price: 100, connector_price: 100, connector_matings: 25 };
    for (const more of [{}, { box_plug_price: 40, box_plug_matings: 60 }, { box_plug_matings: 1500 }]) {
      const cell = costCell({ ...PLAIN_ITEMS, ...worn, box_salvage: 1, discount_pct: 0, ...more }, rows);
      const { breakEvenChangeovers: even } = figures(cell);
      expect(even.byStation.m1).toBe(0);
      expect(even.atJump).toContain('m1');
    }
  });

  it('the quick value is the value of the flows, and the machines add up with what they share', () => {
    fc.assert(
      fc.property(fc.record(numbers), wear, rowsOf, (items, worn, rows) => {
        const cell = costCell({ ...PLAIN_ITEMS, ...items, ...worn }, rows);
        const result = figures(cell);
        const inputs = readCase(cell, null, null);
        const boxes = rows.map(() => 'own box' as const);
        expect(incrementValue(inputs, boxes, 'before tax')).toBeCloseTo(result.increment.npv, 9);
        const machines = result.byStation.reduce((sum, station) => sum + station.npv, 0);
        expect(machines + result.sharedNpv).toBeCloseTo(result.increment.npv, 6);
        if ((items.harness_price ?? 0) === 0 && worn.connector_price === 0)
          expect(Math.abs(result.sharedNpv)).toBeLessThan(1e-6);
      }),
      { numRuns: cases(80) },
    );
  });
});

describe('more than two alternatives', () => {
  const rows: Changeover[] = [
    changeoverRow('a', 120),
    changeoverRow('b', 60),
    changeoverRow('c', 2),
    changeoverRow('d', 2),
  ];
  it('the best machines and shared boxes stand against harness and boxes everywhere', () => {
    const result = found(costCell({ ...PLAIN_ITEMS, box_move_min: 4 }, rows));
    expect(result.alternatives.map((a) => a.name)).toEqual([
      'move the harness',
      'a box on every machine',
      'boxes on the best machines',
      'shared boxes',
    ]);
    const costs = result.alternatives.map((a) => a.npvCost);
    const best = result.alternatives[costs.indexOf(Math.min(...costs))]!;
    expect(result.comparison.best).toBe(best.name);
    expect(result.decision).toBe(best.name);
    expect(result.comparison.challenges.length).toBe(3);
  });
  it('the budget keeps what it cannot pay out of the comparison', () => {
    const result = found(costCell({ ...PLAIN_ITEMS, budget: 1600 }, rows));
    expect(result.alternatives.find((a) => a.name === 'a box on every machine')!.withinBudget).toBe(false);
    expect(result.selection).toMatchObject({ stations: ['a'], proven: true, budget: 1600 });
    expect(result.decision).toBe('boxes on the best machines');
  });
  it('a budget under the cheapest box is an answer, not an error', () => {
    const result = found(costCell({ ...PLAIN_ITEMS, budget: 900 }, rows));
    expect(result.selection.stations).toEqual([]);
    expect(result.decision).toBe('move the harness');
    expect(result.warnings).toContain(
      'The budget of 900 buys no box that pays. The first that does is on a and takes 1,500 with its installation.',
    );
  });
});

describe('doubt', () => {
  const items = {
    ...PLAIN_ITEMS,
    labour_per_h: [36, 30, 45],
    box_price: [1500, 1300, 2600],
    harness_min_per_connector: [3, 1.5, 5],
  } as const;
  const cell = costCell(items, [changeoverRow('mill', 62)]);
  it('the trials repeat under a seed, move with another, and agree within their own errors', () => {
    const [one, again, other] = [1, 1, 2].map(
      (seed) => found(cell, { trials: 10_000, seed, turns: false }).risk,
    );
    expect(again).toEqual(one);
    expect(other!.npv.mean).not.toBe(one!.npv.mean);
    const error = Math.hypot(one!.npv.meanStandardError, other!.npv.meanStandardError);
    expect(Math.abs(one!.npv.mean - other!.npv.mean)).toBeLessThan(4 * error);
    expect(one!.probabilityStandardError).toBeCloseTo(
      Math.sqrt((one!.probabilityPays * (1 - one!.probabilityPays)) / 10_000),
      12,
    );
    expect(one!.npv.p10).toBeLessThan(one!.npv.p50);
    expect(one!.npv.p50).toBeLessThan(one!.npv.p90);
  });
  it('the share of the quoted prices moves an order that a price break prices; the price of one box alone does not', () => {
    const rows = [changeoverRow('a', 62), changeoverRow('b', 62)];
    const broken = { ...PLAIN_ITEMS, box_price: [1500, 1300, 2600], box_price_breaks: '2:1000' } as const;
    const result = found(costCell({ ...broken, box_price_pct: [100, 90, 120] }, rows));
    const bar = (item: string) => result.tornado.find((one) => one.item === item)!;
    expect(bar('box_price').npvHigh).toBe(bar('box_price').npvLow);
    expect(bar('box_price_pct').npvLow).toBeCloseTo(result.increment.npv + 200, 9);
    expect(bar('box_price_pct').npvHigh).toBeCloseTo(result.increment.npv - 400, 9);
    expect(result.warnings.join(' ')).not.toContain('box_price_pct');
    expect(found(costCell(broken, rows)).warnings.join(' ')).toContain('give box_price_pct a low and a high');
  });
  it('the mean of a value that is linear in one item is that of the item', () => {
    const single = costCell({ ...PLAIN_ITEMS, box_price: [1500, 1300, 2600] }, [changeoverRow('mill', 62)]);
    const result = found(single, { trials: 10_000, turns: false });
    const mean = (1300 + 4 * 1500 + 2600) / 6;
    const expected = result.increment.npv + 1500 - mean;
    expect(Math.abs(result.risk.npv.mean - expected)).toBeLessThan(4 * result.risk.npv.meanStandardError);
    const sd = Math.sqrt(((mean - 1300) * (2600 - mean)) / 7);
    expect(result.risk.npv.sd / sd).toBeCloseTo(1, 1);
  });
  it('an item added to the doubt leaves the draws of the others as they are', () => {
    const one = found(
      costCell({ ...PLAIN_ITEMS, box_price: [1500, 1300, 2600] }, [changeoverRow('mill', 62)]),
    );
    const two = found(
      costCell({ ...PLAIN_ITEMS, box_price: [1500, 1300, 2600], box_salvage: [0, 0, 1e-9] }, [
        changeoverRow('mill', 62),
      ]),
    );
    expect(two.risk.npv.p50).toBeCloseTo(one.risk.npv.p50, 6);
  });
  it('says when the answer is close', () => {
    expect(found(cell, { trials: 2000 }).recommendation).toMatch(
      /the chance that .* is [\d.]+%\. That is close/,
    );
  });
});

describe('input that is wrong or missing', () => {
  const rows = [changeoverRow('mill', 50)];
  const texts = (items: Record<string, ItemValue>) => {
    const outcome = costCase(costCell({ ...PLAIN_ITEMS, ...items }, rows), null);
    if (outcome.status !== 'wrong') throw new Error(outcome.status);
    return outcome.complaints.map((c) => `${c.code} ${c.file} ${c.line} ${c.column}: ${c.text}`);
  };
  it('each fault names its place, what was found and what is allowed', () => {
    expect(texts({ discount_pct: -100 })).toEqual([
      'CASE001 costs.csv 7 value: discount_pct is -100, expected a number of -90 or more, at most 1000 (% a year)',
    ]);
    expect(texts({ horizon_years: 0 })).toEqual([
      'CASE001 costs.csv 6 value: horizon_years is 0, expected a whole number of 1 or more, at most 100 (years)',
    ]);
    expect(texts({ box_price: -5 })).toEqual([
      'CASE001 costs.csv 3 value: box_price is -5, expected a number of 0 or more (money)',
    ]);
    expect(texts({ labour_per_h: [36, 50, 40] })).toEqual([
      'CASE002 costs.csv 2 low: low of labour_per_h is 50, above its high of 40',
    ]);
    expect(texts({ labour_per_h: [36, 40, 50] })).toEqual([
      'CASE003 costs.csv 2 low: labour_per_h is 36, outside its own low and high of 40 to 50',
    ]);
    expect(texts({ box_price: Number.NaN, labour_per_h: Number.POSITIVE_INFINITY }).length).toBe(2);
  });
  it('changeovers out of range', () => {
    const outcome = costCase(costCell(PLAIN_ITEMS, [changeoverRow('mill', -1, { internalPct: 120 })]), null);
    if (outcome.status !== 'wrong') throw new Error(outcome.status);
    expect(outcome.complaints.map((c) => c.text)).toEqual([
      'per_year of mill is -1, expected a number of 0 or more',
      'internal_pct of mill is 120, expected a number from 0 to 100',
    ]);
  });
  it('all missing items come at once, with what they are needed for', () => {
    const outcome = costCase(
      costCell({ box_plug_min: 2, machine_constrained: 'yes' }, [], signalRows('mill', 2, 2)),
      null,
    );
    if (outcome.status !== 'too little data') throw new Error(outcome.status);
    expect(outcome.missing.map((m) => m.item)).toEqual([
      'labour_per_h',
      'box_price',
      'box_inputs',
      'box_outputs',
      'box_amps',
      'harness_connectors',
      'harness_min_per_connector',
      'horizon_years',
      'discount_pct',
      'changeovers.csv',
    ]);
    expect(outcome.missing.every((m) => m.neededFor.length > 0)).toBe(true);
    expect(outcome.recommendation).toContain(
      'discount_pct (for the net present value, the discounted payback',
    );
  });
  it('constrained machines without a contribution', () => {
    const outcome = costCase(costCell({ ...PLAIN_ITEMS, machine_constrained: 'yes' }, rows), null);
    if (outcome.status !== 'too little data') throw new Error(outcome.status);
    expect(outcome.missing.map((m) => m.item)).toEqual(['contribution_per_machine_h']);
  });
  it('misuse by a program throws in plain words', () => {
    const cell = costCell(PLAIN_ITEMS, rows);
    expect(() => costCase(cell, null, { changeovers: -1 })).toThrow('the number of changeovers is -1');
    expect(() => costCase(cell, null, { trials: 0.5 })).toThrow('the number of trials is 0.5');
    expect(() => costCase(cell, null, { seed: Number.NaN })).toThrow('the seed is NaN');
    expect(() => costCase(cell, null, { items: { box_prise: 1 } })).toThrow(
      'no numeric cost item `box_prise`',
    );
  });
  it('an option takes the place of a table value and is traced as such', () => {
    const result = found(costCell(PLAIN_ITEMS, rows), { items: { tax_pct: 21 } });
    expect(result.taxPct).toBe(21);
    const entry = result.audit.find(
      (e) => e.result === 'a box on every machine: cash flow after tax of year 1',
    )!;
    expect(entry.inputs).toContainEqual({
      item: 'tax_pct',
      value: 21,
      place: { file: 'command line', line: 1 },
    });
  });
});
