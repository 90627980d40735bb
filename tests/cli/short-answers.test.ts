// A short answer stays short: it counts its lines, keeps within the terminal, and begins with the answer. For a small
// cell with every table, in the long run for the cells of data/.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { KEY_ASSUMPTIONS } from '../../src/cli/deliver.js';
import { jsonOf } from '../relations/json-of.js';
import { quickShop } from '../support/quick-shop.js';
import { shopJson } from '../support/shop-answers.js';
import { atSize, isDeep, isLong } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const folder = freshFolder();
const cwd = atSize(folder, folder, data(''));
quickShop(join(folder, 'shop'));
const demo = atSize('shop', 'shop', 'demo');
const other = atSize(collarShop(), 'collars', 'starter');
const week = atSize('shop', 'shop', 'weekly-jobs');

/** The small cell with another name for its part. */
function collarShop(): string {
  const collars = quickShop(join(folder, 'collars'));
  for (const name of readdirSync(collars)) {
    const text = readFileSync(join(collars, name), 'utf8');
    writeFileSync(join(collars, name), text.replace(/\bcap\b/g, 'collar'));
  }
  return 'collars';
}

/** Few runs: the length does not depend on them. */
const FEW = ['--replications', '2'];

const answers: readonly (readonly [args: readonly string[], lines: number, first: RegExp])[] = [
  [['schedule', demo], 45, /^Output [\d.]+ parts\/h/],
  [['shifts', demo], 30, /^Best by parts\b/],
  [['costcase', demo, '--trials', '200'], 40, /^(Warning: |Put boxes on )/],
  [['simulate', demo, ...FEW], 40, /^The cell makes [\d.]+ good parts a shift/],
  [['compare', demo, other, ...FEW], 25, /^(Warning: |Highest margin )/],
  [['size', demo, '--no-simulation'], 25, /^(Warning: With .*|\d machines: )/],
  [['size', demo, ...FEW], 25, /^(Warning: With .*|\d machines: )/],
  [['jobs', week], 60, /^Best pattern: /],
  [['mix', demo], 35, /^Upper limit: /],
  [
    ['sweep', demo, '--sweep', 'stations.mill_1.ready_s=0:20:10', '--workers', '1'],
    12,
    /^Parts per hour: highest /,
  ],
];

/** Tables of figures may not be broken; everything else keeps within the terminal. */
const widest = (text: string): number => Math.max(...text.split('\n').map((line) => line.length));

/** Those that simulate take longest. */
const asked = answers.filter(([args]) => isDeep || !args.includes(FEW[0]!));
const named = asked.map(([args, lines, first]) => [args[0]!, lines, args, first] as const);

test.each(named)('%s in at most %i lines', async (_, lines, args, first) => {
  const { out, err, exit } = await runIn(cwd, args);
  expect(exit, err).toBe(0);
  expect(out.trimEnd().split('\n').length).toBeLessThanOrEqual(lines);
  expect(out).toMatch(first);
  // The jobs of a week name day, shift and hours in one row.
  if (args[0] !== 'jobs') expect(widest(out)).toBeLessThanOrEqual(80);
});

test('wide terminals need no more lines, and no line runs over', async () => {
  for (const columns of atSize([120], [80, 120])) {
    const { out } = await runIn(cwd, ['shifts', demo], { columns });
    expect(out.trimEnd().split('\n').length).toBeLessThanOrEqual(30);
    expect(widest(out)).toBeLessThanOrEqual(columns);
  }
});

test('io: the count in ten lines, then its cautions in full', async () => {
  const { out } = await runIn(cwd, ['io', demo]);
  const [count, cautions] = out.split('\nCautions\n');
  expect(count!.trimEnd().split('\n').length).toBeLessThanOrEqual(10);
  expect(cautions).toContain('ISO 13849-1:2023');
});

test('--full, --assumptions and `cautions` print what a short answer leaves out', async () => {
  const short = await runIn(cwd, ['mix', demo]);
  expect(short.out).toMatch(
    /\nMore: --full \(tables, \d assumptions\)\. 4 cautions: roundsman cautions mix\n$/,
  );
  const full = await runIn(cwd, ['mix', demo, '--full']);
  expect(full.out).toContain('Where they are made');
  expect(full.out).toContain('Cautions\n- ');
  const assumed = await runIn(cwd, ['mix', demo, '--assumptions']);
  expect(assumed.out).toContain('Good parts are valued by their contribution.');
  expect(assumed.out).not.toContain('Where they are made');
  const said = await runIn(cwd, ['cautions', 'mix']);
  for (const line of said.out.trimEnd().split('\n')) expect(full.out).toContain(line);
  expect((await runIn(cwd, ['cautions', 'mixe'])).err).toContain('Did you mean `mix`?');
});

test('a change made for the run is shown in the short answer', async () => {
  const time = `routes.${atSize('cap', 'cap', 'bushing')}.2.cycle_s`;
  const { out } = await runIn(cwd, ['mix', demo, '--set', `${time}=150`]);
  expect(out).toContain(time);
});

test.each(['mix', 'shifts', 'costcase'])(
  'each key assumption of %s is one that it makes',
  async (command) => {
    const { assumptions } = (isLong ? await jsonOf(cwd, command, demo) : await shopJson(command)) as {
      assumptions: string[];
    };
    for (const key of KEY_ASSUMPTIONS[command]!)
      expect(assumptions.some((text) => key.test(text))).toBe(true);
  },
);
