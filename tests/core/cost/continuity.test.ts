// No input moves the value by leaps: a small change of any one of them, items, counts, parts or what the models of the
// cell say, moves it by no more than a stated factor times that change of all the money that is in the case.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bestPlan, planValues } from '../../../src/core/cost/alternatives.js';
import { type CaseInputs, withNumbers } from '../../../src/core/cost/case-inputs.js';
import { harnessMinutes } from '../../../src/core/cost/changeover-minutes.js';
import { everywhere, incrementValue } from '../../../src/core/cost/increment-value.js';
import { planFlows } from '../../../src/core/cost/plan-flows.js';
import { readCase } from '../../../src/core/cost/read-case.js';
import type { StandingFacts } from '../../../src/core/cost/standing/standing-facts.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { itemsOf } from '../../../src/core/model/cost-items.js';
import { atSize, cases } from '../../support/size.js';
import {
  COUPLING,
  changeoverRow,
  costCell,
  type ItemValue,
  PLAIN_ITEMS,
  signalRows,
} from './support/cost-cell.js';

/** Each input is moved by this share of itself. */
const STEP = 1e-4;
/**
 * The value moves by no more than this many times the share. What is sold or spent moves with an input at most in
 * proportion, minutes that multiply twice; a rate moves the last of ten years tenfold.
 */
const FACTOR = 12;

const above0 = (max: number) => fc.double({ min: max / 1000, max, noNaN: true });
const itemValues = {
  labour_per_h: above0(90),
  box_price: above0(4000),
  box_price_pct: above0(150),
  box_mount_h: above0(9),
  box_wire_min_per_signal: above0(20),
  box_upkeep_per_year: above0(60),
  box_salvage: above0(90),
  box_fit_stand_h: above0(8),
  cable_set_price: above0(300),
  install_per_h: above0(90),
  engineering_price: above0(2000),
  risk_assessment_price: above0(2000),
  programming_h: above0(9),
  commissioning_h: above0(9),
  contingency_pct: above0(30),
  harness_price: above0(900),
  harness_min_per_connector: above0(9),
  harness_carry_min: above0(20),
  harness_route_min: above0(20),
  harness_elsewhere_per_year: above0(200),
  check_min_per_signal: above0(2),
  fault_chance_harness: above0(0.5),
  fault_chance_box: above0(0.5),
  fault_find_min: above0(90),
  box_plug_min: above0(9),
  box_check_min: above0(9),
  box_move_min: above0(9),
  first_part_harness_min: above0(9),
  first_part_box_min: above0(9),
  identity_check_harness_min: above0(9),
  identity_check_box_min: above0(9),
  labour_burden_pct: above0(40),
  labour_cash_pct: above0(100),
  contribution_pct: above0(120),
  demand_pct: fc.double({ min: 95, max: 105, noNaN: true }),
  cycle_pct: fc.double({ min: 81, max: 129, noNaN: true }),
  changeover_count_pct: above0(150),
  install_learning_pct: fc.double({ min: 51, max: 99, noNaN: true }),
  discount_pct: above0(25),
  inflation_pct: above0(9),
  tax_pct: above0(45),
};

const counts = fc.array(above0(90), { minLength: 3, maxLength: 3 });
/** Asked for, made without moves, of both parts; what an hour of each machine loses of them. */
const floor = fc
  .record({
    askedShare: fc.double({ min: 0.7, max: 1.1, noNaN: true }),
    free: fc.tuple(above0(800), above0(800)),
    perH: fc.array(fc.tuple(above0(60), above0(60)), { minLength: 3, maxLength: 3 }),
  })
  .map(({ askedShare, free, perH }): Floor => ({ asked: [askedShare * free[0], null], free, perH }));
interface Floor {
  readonly asked: readonly (number | null)[];
  readonly free: readonly number[];
  readonly perH: readonly (readonly [number, number])[];
}

const MACHINES = ['a', 'b', 'c'];
const EACH = [3, 7];

function factsOf(cell: Cell, { asked, free, perH }: Floor): StandingFacts {
  const inputs = readCase(cell, null, null);
  const hours = inputs.stations.map((s) => (s.perYear * harnessMinutes(inputs, s)) / 60 / 52);
  const model = (share: number) => ({
    parts: ['p', 'q'].map((part, k) => {
      const lost = hours.reduce((sum, h, m) => sum + h * perH[m]![k]! * share, 0);
      const made = free[k]! * share;
      return { part, each: EACH[k]!, asked: asked[k]!, free: made, moved: Math.max(0, made - lost) };
    }),
    lostPerH: Object.fromEntries(
      MACHINES.map((name, m) => [name, { p: perH[m]![0] * share, q: perH[m]![1] * share }]),
    ),
  });
  return {
    steady: model(1),
    floor: null,
    atCycle: [80, 100, 130].map((cyclePct) => ({ cyclePct, steady: model(100 / cyclePct), floor: null })),
    because: [],
  };
}

/** All the money in the case at present values: what is spent either way, and what the cell sells. */
function allMoney(inputs: CaseInputs, facts: StandingFacts, boxes: ReturnType<typeof everywhere>): number {
  const sold = facts.atCycle.flatMap(({ steady }) =>
    steady.parts.map(({ each, asked, free }) => each * Math.min(asked ?? free, free)),
  );
  const share = (inputs.numbers.contribution_pct ?? 100) / 100;
  const yearly = 52 * share * sold.reduce((sum, money) => sum + money, 0);
  const years = inputs.numbers.horizon_years!;
  const spent = [everywhere(inputs, 'harness'), boxes]
    .flatMap((ways) => planFlows(inputs, ways).flows)
    .reduce((sum, flow) => sum + Math.abs(flow), 0);
  const rise = 1 + (inputs.numbers.inflation_pct ?? 0) / 100;
  return spent + yearly * years * rise ** years;
}

function casesOf(items: Record<string, ItemValue>, perYear: readonly number[], of: Floor) {
  const cell = costCell(
    { ...PLAIN_ITEMS, ...COUPLING, 'coupling.matings': 1e9, horizon_years: 10, ...items },
    MACHINES.map((name, k) => changeoverRow(name, perYear[k]!)),
    signalRows('a', 5, 4),
  );
  const rated = {
    ...cell,
    costs: [...cell.costs, ...costCell({ box_inputs: 8, box_outputs: 8, box_amps: 4 }, []).costs],
  };
  const facts = factsOf(rated, of);
  return { cell: rated, facts, inputs: readCase(rated, facts, null) };
}

it('every item that is no whole number', () => {
  const moved = new Set<string>();
  fc.assert(
    fc.property(fc.record(itemValues), counts, floor, fc.boolean(), (items, perYear, of, isTyped) => {
      const typed: Record<string, ItemValue> = isTyped ? { contribution_per_machine_h: 55 } : {};
      const { cell, facts, inputs } = casesOf({ ...items, ...typed }, perYear, of);
      const plans = [everywhere(inputs, 'own box'), everywhere(inputs, 'connection coupling')];
      for (const ways of plans) {
        const room = FACTOR * STEP * allMoney(inputs, facts, ways);
        const at = (of: CaseInputs) => incrementValue(of, ways, 'after tax');
        const value = at(inputs);
        for (const { name, kind, whole } of itemsOf(cell.costs)) {
          const now = inputs.numbers[name];
          if (kind !== 'number' || whole || !now) continue;
          const change = at(withNumbers(inputs, { [name]: now * (1 + STEP) })) - value;
          if (change !== 0) moved.add(name);
          expect(Math.abs(change), `${name} at ${now}`).toBeLessThanOrEqual(room);
        }
      }
    }),
    { numRuns: atSize(25, 200) },
  );
  // Each of them has a part in some case; sharing boxes and what is cash are other figures.
  const silent = Object.keys(itemValues).filter((item) => !moved.has(item));
  expect(silent).toEqual(['box_move_min', 'labour_cash_pct']);
  expect([...moved].filter((item) => item.startsWith('coupling.')).length).toBeGreaterThan(10);
  expect(moved).toContain('contribution_per_machine_h');
});

it('counts, what is asked for, and what an hour of downtime loses', () => {
  fc.assert(
    fc.property(fc.record(itemValues), counts, floor, fc.nat(8), (items, perYear, of, which) => {
      const { asked, free, perH } = of;
      const up = (value: number) => value * (1 + STEP);
      const changed = {
        perYear: perYear.map((n, k) => (k === which ? up(n) : n)),
        of: {
          asked: asked.map((n, k) => (n !== null && k === which - 3 ? up(n) : n)),
          free: free.map((n, k) => (k === which - 5 ? up(n) : n)),
          perH: perH.map(
            (row, k) => (which === 7 && k === 0 ? [up(row[0]), row[1]] : row) as [number, number],
          ),
        },
      };
      const before = casesOf(items, perYear, of);
      const after = casesOf(items, changed.perYear, changed.of);
      const ways = everywhere(before.inputs, 'own box');
      const change =
        incrementValue(after.inputs, ways, 'after tax') - incrementValue(before.inputs, ways, 'after tax');
      expect(Math.abs(change)).toBeLessThanOrEqual(
        FACTOR * STEP * allMoney(before.inputs, before.facts, ways),
      );
    }),
    { numRuns: cases(400) },
  );
});

it('the value of the best choice, whichever it is, while no budget cuts it off', () => {
  const names = Object.keys(itemValues);
  fc.assert(
    fc.property(
      fc.record(itemValues),
      counts,
      floor,
      fc.nat(names.length - 1),
      (items, perYear, of, which) => {
        const { facts, inputs } = casesOf(items, perYear, of);
        const item = names[which]!;
        const worth = (at: CaseInputs) => planValues(at, [bestPlan(at, 'after tax')], 'after tax')[0]!;
        const changed = withNumbers(inputs, { [item]: inputs.numbers[item]! * (1 + STEP) });
        const room = FACTOR * STEP * allMoney(inputs, facts, everywhere(inputs, 'own box'));
        expect(Math.abs(worth(changed) - worth(inputs)), item).toBeLessThanOrEqual(room);
      },
    ),
    { numRuns: cases(100) },
  );
});
