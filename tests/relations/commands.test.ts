// What one command says, another says too: on the folders of data/.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { readCell } from '../../src/tables/read-cell.js';
import { data, freshFolder } from '../cli/run-in.js';
import { quickShop } from '../support/quick-shop.js';
import { deepTest, isDeep } from '../support/size.js';
import { folders, tablesOf, withoutChance } from './folders.js';
import { type Json, jsonOf } from './json-of.js';

const cwd = freshFolder();
const shop = quickShop(join(cwd, 'shop'));
const few = ['--replications', '3', '--workers', '1'];

describe.each(folders)('data/%s', (name) => {
  const still = `${name}-still`;
  const scrapped = `${name}-with-scrap`;

  beforeAll(async () => {
    const tables = tablesOf(data(name));
    const calm = withoutChance(tables);
    // Good parts are what the sequence is chosen for, so scrap counts.
    const { 'parts.csv': parts = '' } = tables;
    for (const [folder, texts] of [
      [still, calm],
      [scrapped, parts === '' ? calm : { ...calm, 'parts.csv': parts }],
    ] as const) {
      mkdirSync(join(cwd, folder));
      for (const [file, text] of Object.entries(texts)) writeFileSync(join(cwd, folder, file), text!);
    }
  });

  test('the schedule does not look at stops, variation, racks and shifts', async () => {
    const [whole, alone] = [
      await jsonOf(cwd, 'schedule', data(name)),
      await jsonOf(cwd, 'schedule', scrapped),
    ];
    expect(alone.periodS).toBe(whole.periodS);
    expect(alone.events).toEqual(whole.events);
  });

  test('the sequence simulated without chance makes what the schedule says', async () => {
    const schedule = await jsonOf(cwd, 'schedule', still);
    const hours = String(Math.max(40, Math.ceil((500 * schedule.periodS) / 3600)));
    const once = ['--dispatch', 'order', '--replications', '1', '--workers', '1', '--hours', hours];
    const result = await jsonOf(cwd, 'simulate', still, ...once);
    expect(result.periodS.mean).toBeCloseTo(schedule.periodS, 6);
    for (const [part, { mean }] of Object.entries<Json>(result.partsPerShift)) {
      const perH = (mean * result.shifts) / result.horizonH;
      // A cycle may be cut at either end of the hours.
      expect(Math.abs(perH / schedule.partsPerH[part] - 1), part).toBeLessThan(0.005);
    }
  });

  deepTest('a point of a sweep is the schedule with that value set', async () => {
    const figures = ['schedule.periodS', 'schedule.partsPerH.total', 'schedule.rateBoundPerH.total'];
    const asked = figures.flatMap((path) => ['--figure', path]);
    const words = ['sweep', data(name), '--sweep', 'robot.index_s=0,2', '--workers', '1', ...asked];
    const { rows } = await jsonOf(cwd, ...words);
    expect(rows).toHaveLength(2);
    for (const { values, figures: found } of rows) {
      const alone = await jsonOf(cwd, 'schedule', data(name), '--set', `robot.index_s=${values[0]}`);
      expect(found).toEqual([alone.periodS, alone.partsPerH.total, alone.rateBoundPerH.total]);
    }
  });

  deepTest('a comparison has the figures of two simulations', async () => {
    mkdirSync(join(cwd, `${name}-slow`));
    writeFileSync(join(cwd, `${name}-slow`, 'base.csv'), `folder\n${data(name)}\n`);
    writeFileSync(join(cwd, `${name}-slow`, 'robot.csv'), 'setting,value\nindex_s,20\n');
    const rule = ['--dispatch', 'first', '--hours', '16', ...few];
    const pair = [data(name), `${name}-slow`];
    const compared = await jsonOf(cwd, 'compare', ...pair, ...rule);
    const alone = [
      await jsonOf(cwd, 'simulate', pair[0]!, ...rule),
      await jsonOf(cwd, 'simulate', pair[1]!, ...rule),
    ];
    const means = alone.map((run) => run.partsPerShift.total.mean);
    expect(compared.cells.map((c: Json) => c.simulated.partsPerShift.total.mean)).toEqual(means);
    expect(compared.differences[0].partsPerShift.mean).toBeCloseTo(means[0] - means[1], 9);
  });
});

// In the quick run random-cells.test.ts says so of small cells.
describe.each(folders.filter((name) => isDeep && 'shifts.csv' in tablesOf(data(name))))(
  'the week of data/%s',
  (name) => {
    const calm = `${name}-calm`;
    let shifts: Json;
    beforeAll(async () => {
      mkdirSync(join(cwd, calm));
      const tables = {
        ...withoutChance(tablesOf(data(name))),
        'shifts.csv': tablesOf(data(name))['shifts.csv']!,
      };
      for (const [file, text] of Object.entries(tables)) writeFileSync(join(cwd, calm, file), text);
      shifts = await jsonOf(cwd, 'shifts', calm, '--dispatch', 'strict');
    });

    test('without chance is one run of the floor: simulated, it makes the same', async () => {
      for (const p of shifts.patterns) {
        const once = ['--dispatch', 'strict', '--replications', '1', '--workers', '1'];
        const hours = String(10 * p.hoursPerWeek);
        const run = await jsonOf(cwd, 'simulate', calm, '--pattern', p.pattern, ...once, '--hours', hours);
        // Ten weeks hold a part or two more or less than ten times the week.
        const off = run.partsPerShift.total.mean - p.partsPerShift.total;
        expect(Math.abs(off) * p.shiftsPerWeek, p.pattern).toBeLessThanOrEqual(
          2 + 0.002 * p.partsPerWeek.total,
        );
      }
    });

    test('makes no more than the mix says is possible', async () => {
      const mix = await jsonOf(cwd, 'mix', calm);
      const { parts, stations } = readCell(tablesOf(data(name)));
      const priceOf = (part: string): number => parts.find((p) => p.part === part)?.contribution ?? 0;
      const dearest = Math.max(...parts.map((p) => p.contribution ?? 0));
      for (const p of shifts.patterns) {
        const made = Object.entries<number>(p.partsPerWeek).filter(([part]) => part !== 'total');
        const worth = made.reduce((sum, [part, count]) => sum + count * priceOf(part), 0);
        const most = mix.patterns.find((m: Json) => m.pattern === p.pattern);
        // What is in a machine when a shift ends is finished after it; the hours of the mix end with the shift.
        const runOn = p.shiftsPerWeek * stations.length * dearest;
        expect(worth, p.pattern).toBeLessThanOrEqual(most.valuePerWeek + runOn);
      }
    });
  },
);

describe('a week', () => {
  let shifts: Json;
  beforeAll(async () => {
    shifts = await jsonOf(cwd, 'shifts', shop);
  });

  test('never makes more than the steady rate in its hours', async () => {
    const { partsPerH } = await jsonOf(cwd, 'schedule', shop);
    expect(shifts.patterns.length).toBe(2);
    for (const p of shifts.patterns) {
      expect(p.ceilingPerWeek.total).toBeCloseTo(partsPerH.total * p.hoursPerWeek, 6);
      expect(p.partsPerWeek.total).toBeLessThan(p.ceilingPerWeek.total);
      const lost = p.losses.reduce((sum: number, loss: Json) => sum + loss.partsPerWeek, 0);
      expect(p.ceilingPerWeek.total - lost).toBeCloseTo(p.partsPerWeek.total, 6);
    }
  });

  test('never makes more than the mix says is possible', async () => {
    const mix = await jsonOf(cwd, 'mix', shop);
    const machines = 2;
    for (const p of shifts.patterns) {
      const most = mix.patterns.find((m: Json) => m.pattern === p.pattern);
      // What is in a machine when a shift ends is finished after it; the hours of the mix end with the shift.
      const runOn = p.shiftsPerWeek * machines;
      expect(most.parts[0].goodPerWeek + runOn).toBeGreaterThan(p.partsPerWeek.cap);
      // An upper limit that is far off would say nothing.
      expect(most.parts[0].goodPerWeek).toBeLessThan(1.25 * p.partsPerWeek.cap);
    }
  });
});

test('a comparison has the figures of two simulations, and their difference', async () => {
  mkdirSync(join(cwd, 'slow'));
  writeFileSync(join(cwd, 'slow', 'base.csv'), 'folder\n../shop\n');
  writeFileSync(join(cwd, 'slow', 'routes.csv'), 'part,step,cycle_s\ncap,2,900\n');
  const rule = ['--dispatch', 'first', '--hours', '8', ...few];
  const compared = await jsonOf(cwd, 'compare', 'shop', 'slow', ...rule);
  const alone = [
    await jsonOf(cwd, 'simulate', 'shop', ...rule),
    await jsonOf(cwd, 'simulate', 'slow', ...rule),
  ];
  const means = alone.map((run) => run.partsPerShift.total.mean);
  expect(compared.cells.map((c: Json) => c.simulated.partsPerShift.total.mean)).toEqual(means);
  expect(Math.abs(compared.differences[0].partsPerShift.mean)).toBeCloseTo(means[0] - means[1], 9);
  expect(compared.best.bySimulatedParts).toBe('shop');
});

test('a point of a sweep has the figures of the commands with that value set', async () => {
  const figures = [
    'mix.patterns.day.valuePerWeek',
    'io.stations.mill_1.inputs',
    'io.stations.mill_2.voltageDropPct',
    'schedule.periodS',
    ...(isDeep ? ['costcase.increment.npv'] : []),
  ];
  const asked = figures.flatMap((path) => ['--figure', path]);
  const { rows } = await jsonOf(
    cwd,
    'sweep',
    shop,
    '--sweep',
    'parts.cap.contribution=3,6',
    '--workers',
    '1',
    ...asked,
  );
  for (const { values, figures: found } of rows) {
    const set = ['--set', `parts.cap.contribution=${values[0]}`];
    const mix = await jsonOf(cwd, 'mix', shop, ...set);
    const io = await jsonOf(cwd, 'io', shop, ...set);
    const { periodS } = await jsonOf(cwd, 'schedule', shop, ...set);
    const npv = isDeep ? [(await jsonOf(cwd, 'costcase', shop, ...set)).increment.npv] : [];
    const at = (station: string): Json => io.stations.find((s: Json) => s.station === station);
    expect(found).toEqual([
      mix.patterns[0].valuePerWeek,
      at('mill_1').inputs,
      at('mill_2').voltageDropPct,
      periodS,
      ...npv,
    ]);
  }
  expect(rows[1].figures[0]).toBeCloseTo(2 * rows[0].figures[0], 6);
});
