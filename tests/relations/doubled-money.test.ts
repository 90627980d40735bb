// Twice the money in every table: the same sequence, choice and break-even, and every sum twice as large. On the small cell,
// and in the larger runs on the folders of data/ that have a cost case.
import { beforeAll, describe, expect, test } from 'vitest';
import { costCase } from '../../src/core/cost/cost-case.js';
import type { CostCaseFound } from '../../src/core/cost/result.js';
import { productMix } from '../../src/core/mix/product-mix.js';
import type { Cell } from '../../src/core/model/cell.js';
import { costItemFormat } from '../../src/core/model/cost-items.js';
import { priceBreaksOf } from '../../src/core/model/price-breaks.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { standingHours } from '../../src/core/standing/standing-hours.js';
import { highsSolver } from '../../src/solver/highs-solver.js';
import type { Tables } from '../../src/tables/inspect-tables.js';
import { readCell } from '../../src/tables/read-cell.js';
import { data } from '../cli/run-in.js';
import { quickTables } from '../support/quick-shop.js';
import { atSize } from '../support/size.js';
import { folders, tablesOf } from './folders.js';

const { 'log.csv': _, 'readings.csv': __, ...shop } = quickTables();
const cells: readonly [string, Tables][] = [
  ['shop', shop],
  ...atSize([], folders)
    .map((name): [string, Tables] => [`data/${name}`, tablesOf(data(name))])
    .filter(([, tables]) => tables['costs.csv'] !== undefined),
];
const solve = await highsSolver();

const twice = <T extends number | null | undefined>(value: T): T =>
  typeof value === 'number' ? ((2 * value) as T) : value;

/** @example dearerBreaks('1:900;4:820') // '1:1800;4:1640' */
const dearerBreaks = (text: string): string =>
  priceBreaksOf(text)
    .map(({ from, each }) => `${from}:${2 * each}`)
    .join(';');

/** Every price, wage, contribution and cost of an hour. */
function rich(cell: Cell): Cell {
  return {
    ...cell,
    robot: { ...cell.robot, costPerH: 2 * cell.robot.costPerH },
    stations: cell.stations.map((s) => ({ ...s, costPerH: 2 * s.costPerH })),
    parts: cell.parts.map((p) => ({ ...p, contribution: twice(p.contribution) })),
    shifts: cell.shifts.map((s) => ({ ...s, labourPerH: 2 * s.labourPerH })),
    costs: cell.costs.map((row) => {
      const { kind, unit } = costItemFormat(row.item)!;
      if (kind === 'price breaks') return { ...row, value: dearerBreaks(String(row.value)) };
      if (!/^money\b/.test(unit)) return row;
      const value = typeof row.value === 'number' ? 2 * row.value : row.value;
      return { ...row, value, low: twice(row.low), high: twice(row.high) };
    }),
  };
}

interface Worked {
  readonly schedule: ScheduleFound;
  readonly money: CostCaseFound;
  readonly valuesPerWeek: readonly number[];
}

function worked(cell: Cell): Worked {
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) throw new Error(schedule.reason);
  const money = costCase(cell, standingHours(cell, schedule), { trials: 100, turns: false });
  if (money.status !== 'found') throw new Error(money.recommendation);
  return { schedule, money, valuesPerWeek: productMix(cell, solve).patterns.map((p) => p.valuePerWeek) };
}

describe.each(cells)('%s', (_name, tables) => {
  let [one, two]: Worked[] = [];
  beforeAll(() => {
    const cell = readCell(tables);
    [one, two] = [worked(cell), worked(rich(cell))];
  });

  test('the sequence stays as it is', () => {
    expect(two!.schedule.periodS).toBe(one!.schedule.periodS);
    expect(two!.schedule.events).toEqual(one!.schedule.events);
  });

  test('the mix of a week is worth twice as much', () => {
    expect(one!.valuesPerWeek.length).toBeGreaterThan(0);
    for (const [k, value] of one!.valuesPerWeek.entries())
      expect(two!.valuesPerWeek[k]! / value).toBeCloseTo(2, 6);
  });

  test('every alternative is worth twice as much, and the choice, its yield and its risk are the same', () => {
    const [a, b] = [one!.money, two!.money];
    expect(Math.abs(a.increment.npv)).toBeGreaterThan(1);
    expect(b.increment.npv / a.increment.npv).toBeCloseTo(2, 9);
    for (const [k, cost] of a.alternatives.entries()) {
      expect(b.alternatives[k]!.npvCost / cost.npvCost || 2).toBeCloseTo(2, 9);
      for (const [year, flow] of cost.cashFlow.entries())
        expect(b.alternatives[k]!.cashFlow[year]!).toBeCloseTo(2 * flow, 6);
    }
    expect(b.decision).toBe(a.decision);
    expect(b.selection.stations).toEqual(a.selection.stations);
    for (const [k, rate] of a.increment.irrAll.entries()) expect(b.increment.irrAll[k]!).toBeCloseTo(rate, 6);
    if (a.breakEvenChangeovers.total !== null)
      expect(b.breakEvenChangeovers.total! / a.breakEvenChangeovers.total).toBeCloseTo(1, 6);
  });
});
