// A named way of connecting beside harness and boxes: worked by hand, and against every set of machines.
import { describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import { incrementValue } from '../../../src/core/cost/increment-value.js';
import type { Way } from '../../../src/core/cost/plan-flows.js';
import { readCase } from '../../../src/core/cost/read-case.js';
import type { CostCaseFound } from '../../../src/core/cost/result.js';
import { connectionPlanName, planInWords } from '../../../src/core/model/plan-words.js';
import { inspectTables } from '../../../src/tables/inspect-tables.js';
import {
  COUPLING,
  changeoverRow,
  costCell,
  type ItemValue,
  PLAIN_ITEMS,
  signalRows,
} from './support/cost-cell.js';

function found(
  items: Record<string, ItemValue>,
  counts: readonly number[],
  options = { turns: false },
): CostCaseFound {
  const rows = counts.map((count, k) => changeoverRow(`m${k + 1}`, count));
  const cell = costCell({ ...PLAIN_ITEMS, ...items }, rows, signalRows('m1', 6, 4));
  const outcome = costCase(cell, null, { trials: 20, ...options });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}
const rated = { box_inputs: 16, box_outputs: 16, box_amps: 4 };

describe('a coupling by hand', () => {
  const result = found(
    { ...rated, ...COUPLING, fault_find_min: 30, harness_carry_min: 30, box_price: 2500 },
    [50],
    { turns: true },
  );
  const option = result.alternatives.find(({ name }) => name === 'coupling on every machine')!;

  it('capital, yearly cost with what wears, resale', () => {
    // 450 + 700 once + (1.5 h + 10 signals x 1 min) x 36.
    expect(option.capital).toBeCloseTo(450 + 700 + (1.5 + 10 / 60) * 36, 9);
    // 1.2 + 1 + 10 x 0.1 + 0.4 + 2 + 0.01 x 30 = 5.9 min at 0.60; 50 times a year; the count passes 100 in years 3 and 5.
    const year = 50 * 5.9 * 0.6 + 9;
    const flows = [-option.capital, -year, -year, -year - 60, -year, -year - 60 + 40];
    flows.forEach((flow, y) => {
      expect(option.cashFlow[y]).toBeCloseTo(flow, 9);
    });
    expect(option.boxes).toBe(0);
  });

  it('stands beside the others, challenger against defender, and its inputs are varied', () => {
    expect(result.alternatives.map(({ name }) => name)).toEqual([
      'move the harness',
      'a box on every machine',
      'coupling on every machine',
    ]);
    expect(result.decision).toBe('coupling on every machine');
    expect(result.recommendation).toMatch(/^Put coupling on every machine: over 5 years/);
    expect(result.comparison.challenges.map(({ challenger }) => challenger).sort()).toEqual([
      'a box on every machine',
      'coupling on every machine',
    ]);
    expect(result.tornado.map(({ item }) => item)).toContain('coupling.price');
    expect(result.turns.map(({ item }) => item)).toContain('coupling.price');
    expect(result.costItems.find(({ item }) => item === 'coupling.plug_min')?.value).toBe(1.2);
  });
});

it('of four machines it goes where it is worth most, of all sets tried', () => {
  const counts = [60, 30, 8, 2];
  const items = { ...COUPLING, harness_elsewhere_per_year: 10, budget: 2500 };
  const result = found({ ...rated, ...items }, counts);
  const some = result.alternatives.find(({ name }) => name === connectionPlanName('coupling', false))!;
  const rows = counts.map((count, k) => changeoverRow(`m${k + 1}`, count));
  const cell = costCell({ ...PLAIN_ITEMS, ...rated, ...items }, rows, signalRows('m1', 6, 4));
  const inputs = readCase(cell, null, null);
  const values = Array.from({ length: 16 }, (_, bits) => {
    const ways = rows.map((_row, k): Way => (bits & (1 << k) ? 'connection coupling' : 'harness'));
    return incrementValue(inputs, ways, 'before tax');
  });
  expect(some.increment!.npv).toBeCloseTo(Math.max(...values), 9);
  expect(planInWords(some)).toBe(`coupling on ${some.stations.join(', ')}`);
});

it('costs.csv takes it by its name and a point; a mistyped item is told with its near ones', () => {
  const table = (item: string) =>
    inspectTables({
      'stations.csv': 'station,kind\nin,infeed\nm,machine\nout,outfeed\n',
      'robot.csv': 'setting,value\ntravel_s,4\n',
      'routes.csv': 'part,step,stations,cycle_s\na,1,in,\na,2,m,60\na,3,out,\n',
      'costs.csv': `item,value,low,high\n${item},1.2,1,2\n`,
    });
  const { cell, complaints } = table('quick plug.plug_min');
  expect(complaints).toEqual([]);
  expect(cell!.costs[0]).toMatchObject({ item: 'quick plug.plug_min', value: 1.2, low: 1, high: 2 });
  const [wrong] = table('quick plug.plug_mins').complaints;
  expect(wrong!.help).toContain('quick plug.plug_min');
});
