/** Choice under a budget: published programs with known optima, a second engine on random ones, and properties. */
import fc from 'fast-check';
import * as highsModule from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { bestZeroOne, type ZeroOneRow } from '../../../src/core/cost/best-zero-one.js';
import { boxOrderPrice } from '../../../src/core/cost/box-order-price.js';
import type { CaseInputs } from '../../../src/core/cost/case-inputs.js';
import { incrementValue } from '../../../src/core/cost/increment-value.js';
import { planFlows, type Way } from '../../../src/core/cost/plan-flows.js';
import { readCase } from '../../../src/core/cost/read-case.js';
import { selectStations } from '../../../src/core/cost/select-stations.js';
import { solveLinearProgram } from '../../../src/core/lp/solve-linear-program.js';
import { referenceChecks } from '../../support/reference.js';
import { cases } from '../../support/size.js';
import { changeoverRow, costCell, type ItemValue, PLAIN_ITEMS } from './support/cost-cell.js';

interface Check {
  readonly id: string;
  readonly inputs: Record<string, unknown>;
  readonly expected: number | readonly [number, readonly number[]] | readonly number[];
}
const checks = referenceChecks<Check>('selection');
const check = (id: string): Check => {
  const found = checks.find((c) => c.id === id);
  if (!found) throw new Error(`no published check ${id}`);
  return found;
};

function solve(values: readonly number[], rows: readonly ZeroOneRow[]) {
  const found = bestZeroOne({ values, rows });
  if (!found) throw new Error('no choice keeps the rows');
  expect(found.proven).toBe(true);
  return { value: found.value, chosen: found.chosen.map(Number) };
}

/** Linear relaxation, every choice between 0 and 1. */
function relaxed(values: readonly number[], rows: readonly ZeroOneRow[]) {
  const terms = (numbers: readonly number[]) => Object.fromEntries(numbers.map((n, j) => [`x${j}`, n]));
  const answer = solveLinearProgram({
    sense: 'most',
    objective: terms(values),
    rows: [
      ...rows.map((row, i) => ({ name: `r${i}`, terms: terms(row.weights), most: row.limit })),
      ...values.map((_, j) => ({ name: `x${j}`, terms: { [`x${j}`]: 1 }, most: 1 })),
    ],
  });
  if (answer.status !== 'optimal') throw new Error(answer.status);
  return { value: answer.value, at: values.map((_, j) => answer.at[`x${j}`]!) };
}

describe('published capital budgeting', () => {
  const stock = check('mip.four').inputs as { npv_k: number[]; outflow_k: number[]; budget_k: number };
  const stockRow = { weights: stock.outflow_k, limit: stock.budget_k };
  const sides: Record<string, ZeroOneRow> = {
    at_most_two: { weights: [1, 1, 1, 1], limit: 2 },
    '2_implies_1': { weights: [-1, 1, 0, 0], limit: 0 },
    '2_excludes_4': { weights: [0, 1, 0, 1], limit: 1 },
  };
  it('mip.four with its relaxation', () => {
    const [value, chosen] = check('mip.four').expected as [number, number[]];
    expect(solve(stock.npv_k, [stockRow])).toEqual({ value, chosen });
    expect(relaxed(stock.npv_k, [stockRow]).value).toBeCloseTo(check('mip.four.lp').expected as number, 6);
  });
  it.each(Object.keys(sides))('mip.four.%s', (rule) => {
    const [value, chosen] = check(`mip.four.${rule}`).expected as [number, number[]];
    const found = solve(stock.npv_k, [stockRow, sides[rule]!]);
    expect(found.value).toBe(value);
    // The optimum may be reached by more than one choice: the published one must keep the rows and be worth as much.
    const worth = chosen.reduce((sum, x, j) => sum + x * stock.npv_k[j]!, 0);
    expect(worth).toBe(found.value);
  });
  it('mip.calmfg with its relaxation', () => {
    const { npv, capital, budget } = check('mip.calmfg').inputs as {
      npv: number[];
      capital: number[];
      budget: number;
    };
    const rows = [
      { weights: capital, limit: budget },
      { weights: [0, 0, 1, 1], limit: 1 },
      { weights: [-1, 0, 1, 0], limit: 0 },
      { weights: [0, -1, 0, 1], limit: 0 },
    ];
    const [value, chosen] = check('mip.calmfg').expected as [number, number[]];
    expect(solve(npv, rows)).toEqual({ value, chosen });
    const [lp, ...point] = check('mip.calmfg.lp').expected as number[];
    const found = relaxed(npv, rows);
    expect(found.value).toBeCloseTo(lp!, 6);
    point.forEach((x, j) => {
      expect(found.at[j]).toBeCloseTo(x, 6);
    });
  });
  it('mip.loriesavage over two periods, with its relaxation', () => {
    const { npv, outlay1, outlay2, budgets } = check('mip.loriesavage.ip').inputs as Record<string, number[]>;
    const rows = [
      { weights: outlay1!, limit: budgets![0]! },
      { weights: outlay2!, limit: budgets![1]! },
    ];
    const [value, chosen] = check('mip.loriesavage.ip').expected as [number, number[]];
    expect(solve(npv!, rows)).toEqual({ value, chosen });
    const found = relaxed(npv!, rows);
    expect(found.value).toBeCloseTo(check('mip.loriesavage.lp').expected as number, 2);
    (check('mip.loriesavage.lpx').expected as number[]).forEach((x, j) => {
      expect(Math.abs(found.at[j]! - x)).toBeLessThan(0.005);
    });
  });
  it.each(checks.filter((c) => c.id.startsWith('mip.fsu')).map((c) => [c.id, c] as const))('%s', (_id, c) => {
    const { capacity, weights, profits } = c.inputs as {
      capacity: number;
      weights: number[];
      profits: number[];
    };
    expect(solve(profits, [{ weights, limit: capacity }]).value).toBe(c.expected);
  });
  it('rows that nothing keeps give no choice; numbers that are none are refused', () => {
    expect(bestZeroOne({ values: [1, 2], rows: [{ weights: [0, 0], limit: -1 }] })).toBeNull();
    expect(() => bestZeroOne({ values: [Number.NaN], rows: [] })).toThrow(
      'every value must be a finite number',
    );
    expect(() => bestZeroOne({ values: [1], rows: [{ weights: [], limit: 1 }] })).toThrow(
      '0 weights for 1 things',
    );
  });
  it('a stopped search keeps an honest bound', () => {
    const { capacity, weights, profits } = check('mip.fsu.p07').inputs as {
      capacity: number;
      weights: number[];
      profits: number[];
    };
    const stopped = bestZeroOne({ values: profits, rows: [{ weights, limit: capacity }], nodeLimit: 30 })!;
    expect(stopped.proven).toBe(false);
    expect(stopped.value).toBeLessThanOrEqual(1458);
    expect(stopped.bound).toBeGreaterThanOrEqual(1458);
  });
});

/** A repeatable generator: Lehmer's, modulus 2^31 - 1. */
function randomNumbers(seed: number): (low: number, high: number) => number {
  let state = seed;
  return (low, high) => {
    state = (state * 48271) % 2147483647;
    return low + (state % (high - low + 1));
  };
}

describe('a second engine', () => {
  interface Highs {
    solve(text: string, options?: Record<string, unknown>): { Status: string; ObjectiveValue: number };
  }
  let highs: Highs;
  beforeAll(async () => {
    const load = (highsModule as unknown as { default: () => Promise<Highs> }).default;
    highs = await load();
  });
  const sum = (numbers: readonly number[], name: string) =>
    numbers.map((n, j) => `${n < 0 ? '-' : '+'} ${Math.abs(n)} ${name}${j}`).join(' ');

  it('agrees on random programs with budgets, groups and conditions', () => {
    for (let seed = 1; seed <= cases(200); seed++) {
      const pick = randomNumbers(seed * 104729);
      const n = pick(3, 18);
      const list = (low: number, high: number) => Array.from({ length: n }, () => pick(low, high));
      const values = list(-20, 100);
      const rows: ZeroOneRow[] = Array.from({ length: pick(1, 3) }, () => ({
        weights: list(0, 60),
        limit: pick(40, 300),
      }));
      const group = values.map((_, j) => (j % 3 === 0 ? 1 : 0));
      rows.push({ weights: group, limit: 1 });
      rows.push({ weights: values.map((_, j) => (j === 0 ? -1 : j === 1 ? 1 : 0)), limit: 0 });
      const text = [
        'Maximize',
        ` obj: ${sum(values, 'x')}`,
        'Subject To',
        ...rows.map((row, i) => ` r${i}: ${sum(row.weights, 'x')} <= ${row.limit}`),
        'Binary',
        ` ${values.map((_, j) => `x${j}`).join(' ')}`,
        'End',
      ].join('\n');
      expect(solve(values, rows).value, `seed ${seed}`).toBeCloseTo(
        highs.solve(text, { mip_rel_gap: 0 }).ObjectiveValue,
        6,
      );
    }
  });

  it('agrees on random selections of machines with price breaks, budgets and an avoided harness', () => {
    for (let seed = 1; seed <= cases(200); seed++) {
      const { inputs, budget } = randomCase(seed);
      const ours = selectStations(inputs, budget, 'before tax');
      expect(ours.proven).toBe(true);
      const theirs = highs.solve(selectionText(inputs, budget), {
        mip_rel_gap: 0,
        mip_feasibility_tolerance: 1e-9,
      });
      expect(theirs.Status).toBe('Optimal');
      expect(Math.abs(ours.npv - theirs.ObjectiveValue), `seed ${seed}`).toBeLessThan(1e-4);
    }
  });

  function randomCase(seed: number): { inputs: CaseInputs; budget: number | null } {
    const pick = randomNumbers(seed * 7907);
    const items: Record<string, ItemValue> = {
      ...PLAIN_ITEMS,
      box_price: pick(500, 2500),
      harness_price: pick(0, 1) * pick(100, 2000),
      box_upkeep_per_year: pick(0, 60),
      box_salvage: pick(0, 200),
      box_mount_h: pick(0, 4),
      horizon_years: pick(1, 8),
      boxes_per_machine: pick(1, 3),
      ...(pick(0, 1) ? { box_price_breaks: `4:${pick(400, 700)};9:${pick(200, 399)}` } : {}),
    };
    const rows = Array.from({ length: pick(1, 9) }, (_, k) =>
      changeoverRow(`m${k}`, pick(0, 120), { people: pick(1, 2) }),
    );
    const inputs = readCase(costCell(items, rows), null, null);
    return { inputs, budget: pick(0, 3) === 0 ? null : pick(500, 15_000) };
  }

  /** The 0-1 program with order tiers; values by plain discounting of each machine's own flows. */
  function selectionText(inputs: CaseInputs, budget: number | null): string {
    const n = (item: string) => inputs.numbers[item]!;
    const years = n('horizon_years');
    const level = Array.from({ length: years }, (_, k) => 1.08 ** -(k + 1)).reduce((a, b) => a + b, 0);
    const boxes = n('boxes_per_machine');
    const install = boxes * n('box_mount_h') * n('install_per_h');
    const value = inputs.stations.map((s) => {
      const saved = s.perYear * (12 - 2 * boxes - 1) * (36 / 60) * s.people;
      const yearly = saved - boxes * n('box_upkeep_per_year');
      return yearly * level + boxes * n('box_salvage') * 1.08 ** -years - install;
    });
    const tiers = [{ from: 0, each: n('box_price') }, ...inputs.priceBreaks];
    const m = inputs.stations.length;
    const x = inputs.stations.map((_, k) => `x${k}`);
    const money = `${sum(
      inputs.stations.map(() => install),
      'x',
    )} ${sum(
      tiers.map((t) => t.each),
      'o',
    )}`;
    return [
      'Maximize',
      ` obj: ${sum(value, 'x')} ${sum(
        tiers.map((t) => -t.each),
        'o',
      )} + ${n('harness_price')} z`,
      'Subject To',
      ` need: ${sum(
        tiers.map(() => 1),
        'o',
      )} ${sum(
        inputs.stations.map(() => -boxes),
        'x',
      )} >= 0`,
      ` one: ${sum(
        tiers.map(() => 1),
        't',
      )} <= 1`,
      ...tiers.flatMap((tier, t) => [
        ` low${t}: o${t} - ${tier.from} t${t} >= 0`,
        ` high${t}: o${t} - ${Math.max(m * boxes, 9)} t${t} <= 0`,
      ]),
      ` all: ${sum(
        inputs.stations.map(() => 1),
        'x',
      )} - ${m} z >= 0`,
      ...(budget === null ? [] : [` budget: ${money} <= ${budget}`]),
      'Binary',
      ` ${[...x, ...tiers.map((_, t) => `t${t}`), 'z'].join(' ')}`,
      'End',
    ].join('\n');
  }
});

describe('selection of machines', () => {
  const items = fc.record({
    box_price: fc.integer({ min: 200, max: 3000 }),
    box_price_pct: fc.constantFrom(100, 100, 60, 140),
    harness_price: fc.constantFrom(0, 0, 900),
    connector_price: fc.constantFrom(0, 150, 800),
    connector_matings: fc.constantFrom(20, 100),
    box_plug_price: fc.constantFrom(0, 60),
    box_plug_matings: fc.constantFrom(30, 200),
    inflation_pct: fc.constantFrom(0, 3, 12),
    tax_pct: fc.constantFrom(0, 25),
    install_learning_pct: fc.constantFrom(100, 80),
    box_mount_h: fc.constantFrom(0, 3),
    harness_elsewhere_per_year: fc.constantFrom(0, 0, 20, 1e6),
    engineering_price: fc.constantFrom(0, 0, 500),
    contingency_pct: fc.constantFrom(0, 10),
  });
  const counts = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 1, maxLength: 6 });
  const budgets = fc.option(fc.integer({ min: 100, max: 12_000 }));
  const caseOf = (values: Record<string, number>, perYear: readonly number[]): CaseInputs =>
    readCase(
      costCell(
        { ...PLAIN_ITEMS, ...values, depreciation: 'macrs-5', box_price_breaks: '3:900;5:150' },
        perYear.map((count, k) => changeoverRow(`m${k}`, count)),
      ),
      null,
      null,
    );

  it('is the best of all subsets, with wear, tax, inflation, practice and price breaks', () => {
    fc.assert(
      fc.property(items, counts, budgets, (values, perYear, budget) => {
        const inputs = caseOf(values, perYear);
        const basis = values.tax_pct > 0 ? 'after tax' : 'before tax';
        const found = selectStations(inputs, budget, basis);
        let best = 0;
        for (let set = 0; set < 1 << perYear.length; set++) {
          const ways = perYear.map((_, k): Way => (set & (1 << k) ? 'own box' : 'harness'));
          const harness = ways.includes('harness') ? values.harness_price : 0;
          const spent = planFlows(inputs, ways).capital - harness;
          if (set > 0 && budget !== null && spent > budget) continue;
          best = Math.max(best, incrementValue(inputs, ways, basis));
        }
        expect(found.proven).toBe(true);
        expect(found.npv).toBeCloseTo(best, 6);
        expect(found.capital).toBeLessThanOrEqual((budget ?? Number.POSITIVE_INFINITY) + 1e-6);
      }),
      { numRuns: cases(150) },
    );
  });

  it('a longer list of machines or a larger budget never worsens the choice', () => {
    fc.assert(
      fc.property(
        items,
        counts,
        fc.integer({ min: 0, max: 80 }),
        budgets,
        (values, perYear, more, budget) => {
          const basis = 'before tax';
          // The harness is owned and its connectors last, so that a further machine changes nothing for the others.
          const plain = {
            ...values,
            harness_price: 0,
            connector_price: 0,
            box_plug_price: 0,
            harness_elsewhere_per_year: 1e6,
          };
          const before = selectStations(caseOf(plain, perYear), budget, basis);
          const after = selectStations(caseOf(plain, [...perYear, more]), budget, basis);
          expect(after.npv).toBeGreaterThanOrEqual(before.npv - 1e-6);
          const richer = selectStations(
            caseOf(values, perYear),
            budget === null ? null : budget * 1.5,
            basis,
          );
          const poorer = selectStations(caseOf(values, perYear), budget, basis);
          expect(richer.npv).toBeGreaterThanOrEqual(poorer.npv - 1e-6);
        },
      ),
      { numRuns: cases(80) },
    );
  });

  it('a further option in a 0-1 program never worsens the choice', () => {
    const value = fc.integer({ min: -50, max: 50 });
    const weight = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(value, weight), { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 0, max: 200 }),
        (options, limit) => {
          const best = (list: readonly (readonly [number, number])[]) =>
            solve(
              list.map(([v]) => v),
              [{ weights: list.map(([, w]) => w), limit }],
            ).value;
          expect(best(options)).toBeGreaterThanOrEqual(best(options.slice(0, -1)));
        },
      ),
      { numRuns: cases(150) },
    );
  });
});

describe('price of an order', () => {
  it('takes the price of its number, or the next break where that is cheaper', () => {
    const breaks = [
      { from: 4, each: 80 },
      { from: 10, each: 50 },
    ];
    expect(boxOrderPrice(0, 100, breaks)).toEqual({ price: 0, ordered: 0 });
    expect(boxOrderPrice(2, 100, breaks)).toEqual({ price: 200, ordered: 2 });
    expect(boxOrderPrice(3, 110, breaks)).toEqual({ price: 320, ordered: 4 });
    expect(boxOrderPrice(5, 100, breaks)).toEqual({ price: 400, ordered: 5 });
    expect(boxOrderPrice(7, 100, breaks)).toEqual({ price: 500, ordered: 10 });
    expect(boxOrderPrice(12, 100, breaks)).toEqual({ price: 600, ordered: 12 });
  });
});
