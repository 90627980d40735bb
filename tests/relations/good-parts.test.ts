// Good parts a shift: what two commands print is one number, or has another name: at constant times, or with downtime and
// variation.
import { basename, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { standingHours } from '../../src/core/standing/standing-hours.js';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { numberText } from '../../src/render/numbers.js';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { ownShop } from '../support/own-shops.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize, isDeep } from '../support/size.js';
import { type Json, jsonOf } from './json-of.js';

const cwd = freshFolder();
const runs = ['--replications', '3', '--workers', '1'];
const folders = [
  quickShop(join(cwd, 'shop')),
  ownShop('night line', join(cwd, 'night line')),
  ...atSize(
    [],
    [
      ownShop('pair', join(cwd, 'pair')),
      ...atSize([], [], ['starter', 'demo', 'weekly-jobs', 'six-machines']).map((name) => data(name)),
    ],
  ),
];

// In the quick run one-figure.test.ts holds the same figure in fewer answers.
describe.runIf(isDeep).each(folders.map((folder) => [basename(folder), folder]))('%s', (_, folder) => {
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
    const programs = `${first.program},${first.program === 'first' ? 'nearest' : 'first'}`;
    const compared = await jsonOf(cwd, 'compare', folder, '--dispatch', programs, ...runs);
    expect(compared.cells[0].shifts.patterns[0].partsPerShift.total).toBe(first.partsPerShift.total);
  });

  test('with downtime and variation: simulate, its losses, shifts --simulate, size and compare', async () => {
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
    // Where nothing is random, the sizing has no such figure and says why.
    if (asItIs.simulated === undefined)
      expect(size.simulation.reason).toContain('nothing in these rows is random');
    else {
      const same = simulated.rules.find((rule: Json) => rule.dispatch === size.simulation.program);
      expect(asItIs.simulated.partsPerShift.mean).toBeCloseTo(same.partsPerShift.mean, 9);
    }
    const compared = await jsonOf(
      ...[cwd, 'compare', folder, '--dispatch', `${simulated.dispatch},nearest`, ...runs],
    );
    expect(compared.cells[0].simulated.partsPerShift.total.mean).toBe(mean);
  });

  test('mix: an upper limit of the parts of a week, by name and by size', async () => {
    const mix = await jsonOf(cwd, 'mix', folder, '--demand', 'least');
    for (const p of shifts.patterns) {
      const limit = mix.patterns.find((m: Json) => m.pattern === p.pattern);
      // What is in the cell when a shift ends is finished after it; the hours of the mix end with the shift.
      const runOn = p.shiftsPerWeek * 8;
      if (mix.valued === 'parts')
        expect(p.partsPerWeek.total).toBeLessThanOrEqual(
          limit.parts.reduce((sum: number, part: Json) => sum + part.goodPerWeek, runOn),
        );
      else
        expect(p.contributionPerWeek).toBeLessThanOrEqual(
          limit.earnedPerWeek + (runOn * limit.valuePerWeek) / p.partsPerWeek.total,
        );
    }
    expect(await said('mix', folder)).toMatch(/Upper limit/);
  });

  test('mix, jobs, cost case and schedule have no other number under the name of good parts a shift', async () => {
    for (const command of ['schedule', 'mix', 'jobs', 'costcase']) {
      // 3: nothing to plan or to weigh in this cell.
      const { out, exit } = await runIn(cwd, [command, folder, '--full']);
      expect([0, 3]).toContain(exit);
      const text = out.replace(/\s+/g, ' ');
      const named = [...text.matchAll(/([\d.,]+) good parts a shift/g)].map(([, figure]) => figure);
      const known = shifts.patterns.map((p: Json) => numberText(p.partsPerShift.total, 1));
      for (const figure of named) expect(known, `${command}: ${text}`).toContain(figure);
    }
  });

  test('the week of the floor behind the cost case is that of `shifts`', async () => {
    const { cell } = await readCellFolder(folder, []);
    const found = bestSchedule(cell!, { improvements: false });
    if (!('order' in found)) throw new Error(found.status);
    const { floor } = standingHours(cell!, found);
    const [first] = shifts.patterns;
    for (const { part, moved } of floor?.parts ?? [])
      expect(moved, part).toBeCloseTo(first.partsPerWeek[part], 6);
  });

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
