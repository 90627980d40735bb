// The starter folder: explained, sound, and every command runs on it.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { costItems } from '../../src/core/model/cost-items.js';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { besideFormats, tableFormats } from '../../src/tables/table-formats.js';
import { atSize } from '../support/size.js';
import { freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const read = (file: string): string => readFileSync(join(cwd, 'new/shop', file), 'utf8');

beforeAll(async () => {
  const said = await runIn(cwd, ['init', 'new/shop']);
  expect(said).toMatchObject({ exit: 0, err: '' });
  expect(said.out).toContain(
    `Wrote ${tableFormats.length} tables into \`new/shop\`, with examples of stopwatch readings`,
  );
  expect(said.out).toContain('  roundsman check new/shop\n');
});

test.each([...tableFormats, ...besideFormats].map((format) => [format.file, format] as const))(
  '%s is filled in and explains each column',
  (file, format) => {
    const lines = read(file).split('\n');
    const comments = lines.filter((line) => line.startsWith('#')).join('\n');
    for (const { name } of [...format.columns, ...(format.settings ?? [])])
      expect(comments).toMatch(new RegExp(`^# (setting )?${name}\\b`, 'm'));
    const rows = lines.filter((line) => line !== '' && !line.startsWith('#'));
    expect(rows[0]!.split(',')).toEqual(format.columns.map((column) => column.name));
    expect(rows.length).toBeGreaterThan(1);
  },
);

test('costs.csv explains every item', () => {
  const text = read('costs.csv');
  for (const { name } of costItems) expect(text).toMatch(new RegExp(`^# item ${name}\\b`, 'm'));
});

test.each(['semicolon-comma', 'semicolon-point'])('in the form %s it is the same cell', async (form) => {
  expect(await runIn(cwd, ['init', form, '--csv', form])).toMatchObject({ exit: 0, err: '' });
  const text = readFileSync(join(cwd, form, 'travel.csv'), 'utf8');
  expect(text).toMatch(/^from;to;empty_s;loaded_s$/m);
  expect(text).toMatch(form === 'semicolon-comma' ? /;\d+,\d+;/ : /;\d+\.\d+;/);
  const [plain, formed] = await Promise.all(
    ['new/shop', form].map((name) => readCellFolder(join(cwd, name))),
  );
  expect(formed).toMatchObject({ complaints: [], readAs: [] });
  expect(formed!.cell).toEqual(plain!.cell);
  for (const [command, file] of atSize<readonly (readonly [command: string, file: string])[]>(
    form === 'semicolon-comma' ? [['readings', 'readings.csv']] : [],
    [
      ['readings', 'readings.csv'],
      ['log', 'log.csv'],
    ],
  )) {
    const of = async (folder: string): Promise<unknown> => {
      const said = await runIn(cwd, [command, join(folder, file), '--json']);
      return { ...JSON.parse(said.out), inputs: [] };
    };
    expect(await of(form)).toEqual(await of('new/shop'));
  }
});

test('a workbook has no form of CSV', async () => {
  const said = await runIn(cwd, ['init', 'shop.xlsx', '--csv', 'comma-point']);
  expect(said).toMatchObject({ exit: 2, out: '' });
  expect(said.err).toContain('`--csv` is the form of a folder of tables');
});

test('there is nothing to complain of in it', async () => {
  const said = await runIn(cwd, ['check', 'new/shop', '--json']);
  expect(said).toMatchObject({ exit: 0, err: '' });
  expect(JSON.parse(said.out).complaints).toEqual([]);
});

test('a second run refuses and changes nothing', async () => {
  const before = read('routes.csv');
  expect((await runIn(cwd, ['init', 'new/shop'])).exit).toBe(1);
  expect(read('routes.csv')).toBe(before);
});

test('a folder with a space is quoted in what to run next', async () => {
  expect((await runIn(cwd, ['init', 'my shop'])).out).toContain('roundsman check "my shop"');
});
