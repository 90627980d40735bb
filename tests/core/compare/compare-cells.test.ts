/** Cells side by side: same cells cannot be told apart, a faster one is found so, and intervals hold what they say. */
import { describe, expect, test } from 'vitest';
import { compareCells } from '../../../src/core/compare/compare-cells.js';
import type { Cell, Shift, Variation } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { likeMachines } from '../simulate/cells.js';

const scatter: Variation[] = [
  { station: '*', element: 'cycle', distribution: 'exponential', parameters: [60] },
];
const cell = (count: number, cycleS: number, more: Partial<Cell> = {}): Cell =>
  likeMachines(count, cycleS, 8, more);
const first = (name: string, of: Cell) => ({ name, cell: of, dispatch: 'first' as const });
const few = { hours: 8, replications: 8, seed: 5 };

test('a cell beside itself: the difference is exactly 0 in every run, and nothing is recommended', async () => {
  const c = cell(2, 60, { variation: scatter });
  const result = await compareCells([first('a', c), first('b', { ...c })], few);
  expect(result.differences).toEqual([
    { a: 'a', b: 'b', partsPerShift: { mean: 0, ciLow: 0, ciHigh: 0 }, clear: false, openPerShift: 0 },
  ]);
  expect(result.clear).toBe(false);
  expect(result.recommendation).toBe(
    'No clear difference in good parts a shift: a makes the same as b in every run. Choose by cost or effort, or look where they differ.',
  );
});

describe('what the simulated pattern does not show', () => {
  const row = (pattern: string, startMin: number, endMin: number, attended: boolean): Shift => ({
    ...{ pattern, shift: pattern, days: ['Mon', 'Tue'] as const, startMin, endMin, breaks: [] },
    ...{ attended, operators: attended ? 1 : 0, labourPerH: 0 },
  });
  // By night nobody refills the rack, so what it holds is what is made.
  const shifts = [row('day', 360, 840, true), row('all', 360, 840, true), row('all', 840, 1800, false)];
  const rack = (capacityParts: number): Cell => {
    const plain = cell(1, 92, { shifts });
    const stations = plain.stations.map((s) => (s.kind === 'infeed' ? { ...s, capacityParts } : s));
    return { ...plain, stations };
  };

  test('a pattern in which they differ without chance is told', async () => {
    const { recommendation, pattern } = await compareCells(
      [first('large', rack(300)), first('small', rack(20))],
      few,
    );
    expect(pattern).toBe('day');
    expect(recommendation).toContain('No clear difference in good parts a shift: large makes ');
    expect(recommendation).toMatch(
      /In the pattern all, at constant times, large makes [\d.]+% more good parts a week than small; `compare --pattern` simulates that one\.$/,
    );
  });

  test('nor is it told where it only says the same again', async () => {
    const slower = { ...rack(20), routes: cell(1, 142).routes };
    const { clear, recommendation } = await compareCells(
      [first('large', rack(300)), first('slow', slower)],
      few,
    );
    expect(clear).toBe(true);
    expect(recommendation).toMatch(/^large makes the most good parts a shift: /);
    expect(recommendation).not.toContain('In the pattern');
  });

  test('where they are alike in every pattern, nothing is told', async () => {
    const { recommendation } = await compareCells([first('a', rack(300)), first('b', rack(301))], few);
    expect(recommendation).not.toContain('without chance');
  });

  test('two cells that earn the same are not said to differ in contribution', async () => {
    const earning = (cycleS: number): Cell => ({
      ...rack(300),
      routes: cell(1, cycleS).routes,
      parts: cell(1, cycleS).routes.map(({ part }) => ({
        ...{ part, contribution: 1, perShift: null, ratio: null, yieldPct: 100 },
      })),
    });
    const two = [
      { ...first('calls', earning(92)), dispatch: 'first' as const },
      { ...first('round', earning(92)), dispatch: 'order' as const },
    ];
    const { recommendation } = await compareCells(two, few);
    expect(recommendation).not.toContain('By contribution');
  });
});

test('without chance the difference is that of the two rates, with no width', async () => {
  const result = await compareCells([first('slow', cell(1, 92)), first('fast', cell(1, 42))], few);
  // One machine: its cycle and 8 s of robot a part, so 100 s against 50 s.
  const [pair] = result.differences;
  expect(pair!.partsPerShift.ciLow).toBe(pair!.partsPerShift.ciHigh);
  const rate = (name: string): number => {
    const { schedule } = result.cells.find((c) => c.name === name)!;
    return 'order' in schedule ? schedule.partsPerH.total! : 0;
  };
  expect(-pair!.partsPerShift.mean).toBeCloseTo(8 * (rate('fast') - rate('slow')), -0.5);
  expect(result).toMatchObject({ clear: true, best: { bySimulatedParts: 'fast', byPartsPerH: 'fast' } });
  expect(result.recommendation).toMatch(/^fast makes the most good parts a shift: \d+\.\d more than slow \(/);
});

test('a pair is the mirror of the pair the other way round', async () => {
  const a = first('a', cell(2, 60, { variation: scatter }));
  const b = first('b', cell(2, 63, { variation: [{ ...scatter[0]!, parameters: [63] }] }));
  const one = (await compareCells([a, b], few)).differences[0]!.partsPerShift;
  const two = (await compareCells([b, a], few)).differences[0]!.partsPerShift;
  expect(two.mean).toBeCloseTo(-one.mean, 9);
  expect(two.ciLow).toBeCloseTo(-one.ciHigh!, 9);
});

test('the same luck narrows the interval: paired runs are far closer than runs with luck of their own', async () => {
  const a = cell(2, 60, { variation: scatter });
  const b = cell(2, 60, { variation: scatter, robot: { ...a.robot, costPerH: 1 } });
  const [pair] = (await compareCells([first('a', a), first('b', b)], few)).differences;
  expect(pair!.partsPerShift.ciHigh! - pair!.partsPerShift.ciLow!).toBe(0);
  const alone = (await compareCells([first('a', a), first('b', b)], few)).cells[0]!.simulated!.partsPerShift
    .total!;
  expect(alone.ciHigh! - alone.ciLow!).toBeGreaterThan(1);
});

test('one run gives a difference without an interval, which is never clear', async () => {
  const result = await compareCells([first('a', cell(1, 92)), first('b', cell(1, 42))], {
    ...few,
    replications: 1,
  });
  expect(result.differences[0]).toMatchObject({ clear: false, partsPerShift: { ciLow: null, ciHigh: null } });
  expect(result.recommendation).toContain('one run only, so no interval');
});

describe('cells that cannot be run', () => {
  const lost = { status: 'infeasible' as const, reason: 'no', chain: [], searched: { nodes: 0, seconds: 0 } };
  test('are left out of the simulation and named', async () => {
    const { bestSchedule } = await import('../../../src/core/schedule/best-schedule.js');
    const bad = cell(1, 50);
    const result = await compareCells([first('bad', bad), first('good', cell(1, 60))], few, {}, (c) =>
      c === bad ? lost : bestSchedule(c, { improvements: false }),
    );
    expect(result.differences).toEqual([]);
    expect(result.recommendation).toBe('Only good can be run. There is no sequence for bad.');
    expect(result.cells[0]).toMatchObject({ schedule: lost, shifts: null, simulated: null });
  });
  test('all of them: that is the answer', async () => {
    const two = [first('a', cell(1, 50)), first('b', cell(1, 60))];
    const result = await compareCells(two, few, {}, () => lost);
    expect(result.recommendation).toBe('None of the cells has a sequence.');
  });
});

test('a pattern that not all cells have is refused', async () => {
  const two = [first('a', cell(1, 50)), first('b', cell(1, 60))];
  await expect(compareCells(two, { pattern: 'late' })).rejects.toThrow(
    'not all cells have the pattern late; they share none',
  );
});

describe('what makes counts mean different things comes first, and then none is first by them', () => {
  const plain = cell(1, 92);
  const priced = (of: Cell, contribution: number): Cell => ({
    ...of,
    parts: of.routes.map(({ part }) => ({
      ...{ part, contribution, perShift: null, ratio: null, yieldPct: 100 },
    })),
  });
  const shift = (endMin: number): Shift => ({
    ...{ pattern: 'day', shift: 'day', days: ['Mon'] as const, startMin: 360, endMin, breaks: [] },
    ...{ attended: true, operators: 1, labourPerH: 0 },
  });

  test('other parts', async () => {
    const pins: Cell = { ...cell(1, 42), routes: cell(1, 42).routes.map((r) => ({ ...r, part: 'pin' })) };
    const [part] = plain.routes.map((r) => r.part);
    const result = await compareCells([first('a', plain), first('b', pins)], few);
    expect(result.recommendation).toBe(
      `Parts that not every cell makes: ${part} (a); pin (b). Good parts are not compared. To compare by money, give every part a contribution, every cell its shifts and all the same currency.`,
    );
    expect(result).toMatchObject({ clear: false, differences: [] });
    expect(result.best).toMatchObject({ bySimulatedParts: null, byPartsPerH: null });
  });

  test('other hours in the pattern; money still says which earns more', async () => {
    const [short, long] = [540, 840].map((endMin) => priced({ ...plain, shifts: [shift(endMin)] }, 2));
    const result = await compareCells([first('short', short!), first('long', long!)], few);
    expect(result.recommendation).toBe(
      'Highest margin a week at constant times: long (576, day), then short (216, day). Other hours in the pattern day than short: long. Good parts are not compared.',
    );
    expect(result.incomparable.length).toBe(1);
    expect(result.differences).toEqual([]);
  });

  test('the same parts worth more in one cell: said from half a per cent on', async () => {
    const worth = (contribution: number): Cell => priced({ ...plain, shifts: [shift(840)] }, contribution);
    const text = async (more: number): Promise<string> =>
      (await compareCells([first('a', worth(2)), first('b', worth(more))], few)).recommendation;
    expect(await text(2.02)).toMatch(/Highest margin a week at constant times: b .*; weigh both\.$/);
    expect(await text(2.008)).not.toContain('margin');
  });

  test('unlike currencies: none earns most', async () => {
    const [euro, dollar] = ['EUR', 'USD'].map((value) => ({
      ...priced({ ...plain, shifts: [shift(540)] }, 2),
      costs: [{ item: 'currency', value, low: null, high: null, unit: '', source: '' }],
    }));
    const { best } = await compareCells([first('a', euro!), first('b', dollar!)], few);
    expect(best.byContribution).toBeNull();
    const alike = await compareCells([first('a', euro!), first('b', euro!)], few);
    expect(alike.best.byContribution).toBe('a');
  });
});

test('a difference that a better sequence could make up is not clear', async () => {
  const solve = (open: number) => (of: Cell) => {
    const found = bestSchedule(of, { improvements: false });
    if (!('order' in found)) throw new Error('no sequence');
    return { ...found, proven: false, boundS: found.periodS * (1 - open), gapPct: 100 * open };
  };
  const two = [
    { name: 'slow', cell: cell(1, 92), dispatch: 'best' as const },
    { name: 'fast', cell: cell(1, 82), dispatch: 'best' as const },
  ];
  // 10 % apart: the first leaves 5 % open, the second 20 %.
  const near = await compareCells(two, few, {}, solve(0.05));
  expect(near.clear).toBe(true);
  const open = await compareCells(two, few, {}, solve(0.2));
  expect(open.clear).toBe(false);
  expect(open.recommendation).toMatch(/a better sequence, not found, could add up to [\d.]+ to the other/);
  expect(open.differences[0]!.openPerShift).toBeGreaterThan(
    Math.abs(open.differences[0]!.partsPerShift.mean),
  );
});
