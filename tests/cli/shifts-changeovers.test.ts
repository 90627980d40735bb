// `shifts` lists the changeovers of the fullest week, and shows the week with boxes in place of the harness.

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { quickShop } from '../support/quick-shop.js';
import { atSize, deepTest } from '../support/size.js';
import { data, freshFolder, run } from './run-in.js';

const small = quickShop(join(freshFolder(), 'shop'));
const weeks = readFileSync(join(small, 'shifts.csv'), 'utf8');
writeFileSync(join(small, 'shifts.csv'), weeks.replace(/^day and evening,.*\n/gm, ''));
const shop = atSize(small, small, data('starter'));

interface Pattern {
  readonly pattern: string;
  readonly partsPerWeek: { readonly total: number };
  readonly changeovers: readonly { readonly station: string; readonly way: string; readonly from: string }[];
  readonly changeoverYear: { readonly perYear: number; readonly notDonePerYear: number };
}

const patterns = async (...args: string[]): Promise<Pattern[]> => {
  const { out, err, exit } = await run(['shifts', shop, '--json', ...args]);
  expect([exit, err]).toEqual([0, '']);
  return JSON.parse(out).patterns;
};

test('the harness is moved unless a box is asked for, for all machines or for one', async () => {
  const [plain] = await patterns();
  expect(plain!.changeoverYear).toMatchObject({ perYear: 64, notDonePerYear: 0 });
  expect(
    plain!.changeovers.every((c) => c.way === 'harness' && /^[A-Z][a-z]{2} \d\d:\d\d$/.test(c.from)),
  ).toBe(true);
  const [boxed] = await patterns('--connection', 'box');
  expect(boxed!.changeovers.every((c) => c.way === 'box')).toBe(true);
  expect(boxed!.partsPerWeek.total).toBeGreaterThan(plain!.partsPerWeek.total);
  const [mixed] = await patterns('--connection', 'mill_1=box');
  for (const { station, way } of mixed!.changeovers)
    expect(way).toBe(station === 'mill_1' ? 'box' : 'harness');
});

test('the text has the table with day and time', async () => {
  const { out } = await run(['shifts', shop, '--full']);
  expect(out).toMatch(/Changeovers in the busiest week \(week \d+ of a 13-week pattern\): day\n/);
  expect(out).toMatch(/\n(Mon|Tue|Wed|Thu|Fri) \d\d:\d\d {2}\w{3} \d\d:\d\d +mill_1 +\d+\.\d {2}/);
});

test('a machine that is not there, and a way that is none', async () => {
  const unknown = await run(['shifts', shop, '--connection', 'mill_9=box']);
  expect(unknown).toMatchObject({ exit: 2, out: '' });
  expect(unknown.err).toContain('`mill_9` is no machine of stations.csv.');
  const none = await run(['shifts', shop, '--connection', 'tube']);
  expect(none.exit).toBe(2);
  expect(none.err).toContain('expected `case`, `harness` or `box`');
});

deepTest('the cell run empty before it closes', async () => {
  const { out } = await run(['shifts', data('starter'), '--run-out']);
  expect(out).toContain('run-out and start-up of each working span');
});
