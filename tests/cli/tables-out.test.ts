// Every command that answers with tables writes them in one way: CSV files and a workbook in a folder, or a workbook alone.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, test } from 'vitest';
import { allCommands, loadCommand } from '../../src/cli/all-commands.js';
import type { Grid } from '../../src/workbook/grid.js';
import { readGrids } from '../../src/workbook/read-grids.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize } from '../support/size.js';
import { freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();

beforeAll(() => {
  quickShop(join(cwd, 'cell'));
  cpSync(join(cwd, 'cell'), join(cwd, 'dearer'), { recursive: true });
  const costs = join(cwd, 'dearer/costs.csv');
  writeFileSync(costs, `${readFileSync(costs, 'utf8').trimEnd()}\ninvest_price,9000,,,,\n`);
});

const runs: Readonly<Record<string, string>> = {
  schedule: 'cell',
  size: 'cell --max 2 --no-simulation',
  simulate: 'cell --hours 8 --replications 2 --workers 1 --dispatch first',
  shifts: 'cell',
  compare: 'cell dearer --replications 2 --hours 8 --workers 1',
  mix: 'cell',
  jobs: 'cell --pattern day --nodes 50',
  invest: 'cell dearer --replications 2 --workers 1',
  io: 'cell',
  setups: 'cell',
};

test('these are the commands that do', async () => {
  const specs = await Promise.all(allCommands.map(loadCommand));
  expect(specs.flatMap(({ name, tables }) => (tables === undefined ? [] : [name])).sort()).toEqual(
    Object.keys(runs).sort(),
  );
});

const rowsOf = ({ rows }: Grid): string[][] =>
  [...rows.values()].map((row) => {
    const width = Math.max(...row.keys()) + 1;
    return Array.from({ length: width }, (_, c) => {
      const cell = row.get(c);
      if (cell?.kind === 'number') return String(Number(cell.value.toFixed(4)) + 0);
      return cell?.kind === 'text' ? cell.text : '';
    });
  });

/** The tables of the others are held against their results in tests/render/report-page. */
const quick = ['schedule', 'mix', 'jobs', 'io', 'setups'];
const tried = Object.entries(runs).filter(([name]) => atSize(quick, Object.keys(runs)).includes(name));

describe.each(tried)('%s', (command, words) => {
  test('writes what it answers as CSV and as sheets, with the same figures', async () => {
    const out = `of-${command}`;
    const { exit, err, out: said } = await runIn(cwd, [command, ...words.split(' '), '--json', '--out', out]);
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    const names = readdirSync(join(cwd, out)).filter((name) => name.endsWith('.csv'));
    const { written } = JSON.parse(said) as { written: string[] };
    const spec = await loadCommand(allCommands.find(({ name }) => name === command)!);
    const more = [`${command}.xlsx`, ...(spec.page === true ? [`${command}.html`] : [])];
    expect([...written].sort()).toEqual([...names, ...more].map((name) => join(out, name)).sort());
    expect(spec.tables).toEqual(expect.arrayContaining(names));
    const { grids } = await readGrids(readFileSync(join(cwd, out, `${command}.xlsx`)), 'xlsx', () => true);
    expect(
      grids
        .map((grid) => grid.name)
        .slice(1)
        .sort(),
    ).toEqual(names.map((name) => name.replace('.csv', '')).sort());
    for (const grid of grids.slice(1)) {
      const csv: string[][] = parse(readFileSync(join(cwd, out, `${grid.name}.csv`), 'utf8'));
      const cut = (row: string[]) => row.join('\t').trimEnd();
      expect(rowsOf(grid).map(cut), grid.name).toEqual(csv.map(cut));
    }
  });
});

test('a name of a workbook gets the workbook alone, in its kind', async () => {
  for (const kind of ['xlsx', 'ods'] as const) {
    const { out, exit } = await runIn(cwd, ['setups', 'cell', '--out', `alone.${kind}`]);
    expect(exit).toBe(0);
    expect(out).toContain(`Written: alone.${kind}.`);
    const { names } = await readGrids(readFileSync(join(cwd, `alone.${kind}`)), kind, () => true);
    expect(names).toEqual(['answer', 'setup-minutes', 'setup-order']);
  }
});

test('the answer goes with its warnings, assumptions and cautions', async () => {
  await runIn(cwd, ['schedule', 'cell', '--out', 'told.xlsx']);
  const { grids } = await readGrids(readFileSync(join(cwd, 'told.xlsx')), 'xlsx', () => true);
  const lines = rowsOf(grids[0]!).map(([text]) => text!);
  expect(lines[0]).toBe('schedule cell');
  expect(lines[1]).toMatch(/^Output [\d.]+ parts\/h/);
  expect(lines).toEqual(expect.arrayContaining(['Assumptions:', 'Cautions:']));
});

test('CSV has the form that is asked for', async () => {
  await runIn(cwd, ['mix', 'cell', '--out', 'formed', '--csv', 'semicolon-comma']);
  expect(readFileSync(join(cwd, 'formed/mix-hours.csv'), 'utf8')).toMatch(
    /^pattern;.*\n[^;]+;[^;]+;\d+,\d+;/,
  );
});

test('nothing is written over what is not its own, and that is said before the work', async () => {
  mkdirSync(join(cwd, 'mine'));
  writeFileSync(join(cwd, 'mine/mix.csv'), 'my own\n');
  writeFileSync(join(cwd, 'mine.xlsx'), 'my own\n');
  for (const out of ['mine', 'mine.xlsx', 'cell']) {
    const said = await runIn(cwd, ['mix', 'cell', '--out', out]);
    expect(said.exit).toBe(1);
    expect(said.err.replace(/\s+/g, ' ')).toContain('Nothing was written, so that nothing is lost.');
  }
  expect(readdirSync(join(cwd, 'mine'))).toEqual(['mix.csv']);
  expect(readFileSync(join(cwd, 'mine.xlsx'), 'utf8')).toBe('my own\n');
});

test('a workbook that is read is not written over', async () => {
  await runIn(cwd, ['setups', 'cell', '--out', 'seal.xlsx']);
  await runIn(cwd, ['init', 'shop.xlsx']);
  const before = readFileSync(join(cwd, 'shop.xlsx'));
  const { exit, err } = await runIn(cwd, ['setups', 'shop.xlsx', '--out', 'shop.xlsx']);
  expect({ exit, err: err.replace(/\s+/g, ' ') }).toMatchObject({
    exit: 1,
    err: expect.stringContaining('Nothing was written'),
  });
  expect(readFileSync(join(cwd, 'shop.xlsx')).equals(before)).toBe(true);
});

test('where there are no tables, nothing is written and that is said', async () => {
  mkdirSync(join(cwd, 'bare'));
  for (const name of ['stations.csv', 'routes.csv', 'robot.csv'])
    cpSync(join(cwd, 'cell', name), join(cwd, 'bare', name));
  const said = await runIn(cwd, ['io', 'bare', '--out', 'none']);
  expect(said.exit).toBe(3);
  expect(said.err).toContain('Nothing was written, since there are no tables.');
  expect(existsSync(join(cwd, 'none'))).toBe(false);
});

test.each([
  [['mix', 'cell', '--csv', 'comma-point'], 'is the form of what `--out` writes; name a place with it too.'],
  [['mix', 'cell', '--out', 'one.xlsx', '--csv', 'comma-point'], 'a workbook has none.'],
  [['simulate', 'cell', '--csv', 'comma-point'], 'what `--log` or `--out` writes'],
])('a form of CSV where none is written is not passed over: %s', async (args, words) => {
  const { exit, err } = await runIn(cwd, args);
  expect(exit).toBe(2);
  expect(err.replace(/\s+/g, ' ')).toContain(words);
  expect(existsSync(join(cwd, 'one.xlsx'))).toBe(false);
});
