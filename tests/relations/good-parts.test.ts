// Good parts a shift: what two commands print is one number, or has another name: at constant times, or with downtime and
// variation.
import { basename, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { numberText } from '../../src/render/numbers.js';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize, deepTest } from '../support/size.js';
import { type Json, jsonOf } from './json-of.js';

const cwd = freshFolder();
const runs = ['--replications', '3', '--workers', '1'];
const folders = [
  quickShop(join(cwd, 'shop')),
  ...atSize(
    [],
    ['starter', 'demo', 'weekly-jobs', 'six-machines'].map((name) => data(name)),
  ),
];

describe.each(folders.map((folder) => [basename(folder), folder]))('%s', (_, folder) => {
  const said = async (...words: string[]): Promise<string> =>
    (await runIn(cwd, words)).out.replace(/\s+/g, ' ');
  let shifts: Json;
  let simulated: Json;

  beforeAll(async () => {
    shifts = await jsonOf(cwd, 'shifts', folder, '--simulate', ...runs);
    simulated = await jsonOf(cwd, 'simulate', folder, ...runs);
  });

  test('at constant times: shifts, the short answer, size and compare', async () => {
    const best = shifts.patterns.find((p: Json) => p.pattern === shifts.best.byContribution);
    const made = numberText(best.partsPerShift.total, 1);
    expect(await said('shifts', folder, '--full')).toContain(
      `${best.pattern}: ${made} good parts a shift at constant times`,
    );
    expect(await said('brief', folder)).toContain(`${made} good parts a shift at constant times`);
    const [first] = shifts.patterns;
    const size = await jsonOf(cwd, 'size', folder, '--no-simulation');
    const asItIs = size.rows.find((row: Json) => row.machines === size.owned);
    expect(asItIs.partsPerShift).toBeCloseTo(first.partsPerShift.total, 6);
    const compared = await jsonOf(cwd, 'compare', folder, '--dispatch', `${first.program},first`, ...runs);
    expect(compared.cells[0].shifts.patterns[0].partsPerShift.total).toBe(first.partsPerShift.total);
  });

  deepTest(
    'with downtime and variation: simulate, its losses, shifts --simulate, size and compare',
    async () => {
      const mean = simulated.partsPerShift.total.mean;
      const made = numberText(mean, 1);
      const text = await said('simulate', folder, ...runs);
      expect(text).toContain(`${made} good parts a shift with downtime and variation`);
      expect(text).toContain(` good parts ${made} `);
      const lost = simulated.losses.reduce((sum: number, loss: Json) => sum + loss.partsPerShift, 0);
      expect(simulated.ceilingPerShift - lost).toBeCloseTo(mean, 9);
      expect(shifts.simulated.patterns[0].partsPerShift.mean).toBe(mean);
      const size = await jsonOf(cwd, 'size', folder, ...runs);
      const asItIs = size.rows.find((row: Json) => row.machines === size.owned);
      const same = simulated.rules.find((rule: Json) => rule.dispatch === size.simulation.program);
      expect(asItIs.simulated.partsPerShift.mean).toBeCloseTo(same.partsPerShift.mean, 9);
      const compared = await jsonOf(
        ...[cwd, 'compare', folder, '--dispatch', `${simulated.dispatch},nearest`, ...runs],
      );
      expect(compared.cells[0].simulated.partsPerShift.total.mean).toBe(mean);
    },
  );

  test('by shift: the names of shifts.csv, whose means are the mean of all', () => {
    for (const p of shifts.simulated.patterns) {
      const week = shifts.patterns.find((w: Json) => w.pattern === p.pattern);
      expect(p.byShift.map((s: Json) => s.shift)).toEqual(week.byShift.map((s: Json) => s.shift));
      for (const { p10, p50, p90 } of [
        ...p.byShift.map((s: Json) => s.partsPerShift.total),
        ...week.byShift,
      ]) {
        expect(p10).toBeLessThanOrEqual(p50);
        expect(p50).toBeLessThanOrEqual(p90);
      }
    }
    if (simulated.byShift.length === 1)
      expect(simulated.byShift[0].partsPerShift).toEqual(simulated.partsPerShift);
  });
});
