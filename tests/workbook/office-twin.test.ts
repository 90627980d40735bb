// Workbooks that an office program wrote give what their CSV twin gives, to the letter, in every command that takes a folder.
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { freshFolder, root, runIn } from '../cli/run-in.js';
import { atSize, deepTest } from '../support/size.js';

const made = join(root, 'tests/support/workbooks');
const top = freshFolder();

beforeAll(() => {
  cpSync(join(made, 'office'), join(top, 'cell'), { recursive: true });
  for (const kind of ['xlsx', 'ods']) cpSync(join(made, `office.${kind}`), join(top, `cell.${kind}`));
});

test('the cell is the same from all three', async () => {
  const [csv, xlsx, ods] = await Promise.all(
    ['cell', 'cell.xlsx', 'cell.ods'].map(async (name) => (await readCellFolder(join(top, name))).cell),
  );
  expect(csv).not.toBeNull();
  expect(xlsx).toEqual(csv);
  expect(ods).toEqual(csv);
});

/** What a command says, without the files that it read, its time, and the name that the cell was given by. */
async function said(words: readonly string[]): Promise<unknown> {
  const { exit, out, err } = await runIn(top, words);
  if (!words.includes('--json')) return { exit, out: lines(out), err: lines(err) };
  const { inputs: _, ...result } = JSON.parse(out) as Record<string, unknown>;
  return { exit, err, result: JSON.parse(plain(JSON.stringify(result))) };
}

/** A longer name breaks its lines elsewhere. */
const lines = (text: string): string => plain(text).replace(/\s+/g, ' ');

function plain(text: string): string {
  return (
    text
      .replace(/cell\.(xlsx|ods)/g, 'cell')
      .replace(/"(seconds|eventsPerSecond)":[\d.]+/g, '"$1":0')
      .replace(/"readAs":\[[^\]]*\]/g, '"readAs":[]')
      // The mark of a sweep is made of the files that were read.
      .replace(/"mark":"[0-9a-f]+"/g, '"mark":""')
  );
}

/** The cell is the same from all three, so that a few that work out little show how a command comes by it. */
const quick = ['check --json', 'io --json', 'setups', 'mix --json'];
const more = [
  'schedule --json',
  'simulate --json --hours 40 --replications 2 --workers 1',
  'schedule --set routes.cap.2.cycle_s=200 --json',
  'setups --json',
  'shifts --json',
  'costcase --json --trials 200',
];
const all = [
  'size --json --max 3 --no-simulation',
  'jobs --json',
  'schedule',
  'sweep --sweep robot.hands=1,2 --json --workers 1',
  'brief',
];

describe.each(atSize(quick, [...quick, ...more], [...quick, ...more, ...all]))('%s', (line) => {
  const [command, ...more] = line.split(' ') as [string, ...string[]];
  test('is the same from .xlsx and .ods', async () => {
    const [csv, xlsx, ods] = await Promise.all(
      ['cell', 'cell.xlsx', 'cell.ods'].map((name) => said([command, name, ...more])),
    );
    expect((csv as { exit: number }).exit).toBe(0);
    expect(xlsx).toEqual(csv);
    expect(ods).toEqual(csv);
  });
});

/** The CSV files that a command writes from a cell, by name. */
async function filesOf(words: (cell: string) => string, cell: string): Promise<Record<string, string>> {
  const out = `${words('')}-${cell}`.replace(/\W+/g, '-');
  const { exit, err } = await runIn(top, [...words(cell).split(' '), '--out', out]);
  expect({ exit, err }).toEqual({ exit: 0, err: '' });
  const names = readdirSync(join(top, out)).filter((name) => name.endsWith('.csv') && name !== 'base.csv');
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(top, out, name), 'utf8')]));
}

const writers = [
  (cell: string) => `mix ${cell}`,
  (cell: string) => `readings cell/readings.csv ${cell}`,
  (cell: string) => `report ${cell} --workers 1`,
  (cell: string) => `log log.csv ${cell} --against`,
  (cell: string) => `invest ${cell} dearer --replications 2 --workers 1`,
];

const asked = atSize(
  writers.slice(0, 1),
  writers.filter((words) => !words('').startsWith('report')),
  writers,
);

describe.each(asked.map((words) => [words('cell'), words] as const))('%s', (_, words) => {
  test('writes the same files from all three', async () => {
    cpSync(join(root, 'data/starter/log.csv'), join(top, 'log.csv'));
    mkdirSync(join(top, 'dearer'), { recursive: true });
    writeFileSync(join(top, 'dearer/base.csv'), 'folder\n../cell.ods\n');
    writeFileSync(join(top, 'dearer/costs.csv'), 'item,value\ninvest_price,9000\n');
    const csv = await filesOf(words, 'cell');
    expect(Object.keys(csv).length).toBeGreaterThan(0);
    const named = (files: Record<string, string>) => JSON.parse(plain(JSON.stringify(files)));
    for (const book of ['cell.xlsx', 'cell.ods'])
      expect(named(await filesOf(words, book)), book).toEqual(named(csv));
  });
});

deepTest('compare takes workbooks and folders side by side, and finds no change between twins', async () => {
  const words = [
    'compare',
    'cell',
    'cell.xlsx',
    'cell.ods',
    '--json',
    '--replications',
    '2',
    '--workers',
    '1',
  ];
  const { exit, out } = await runIn(top, words);
  expect(exit).toBe(0);
  const { differences, inputs } = JSON.parse(out) as {
    differences: { changes?: unknown[]; partsPerShift: { mean: number } }[];
    inputs: { file: string }[];
  };
  expect(differences.map((d) => d.partsPerShift.mean)).toEqual([0, 0, 0]);
  expect(inputs.map((i) => i.file).slice(-2)).toEqual(['cell.xlsx', 'cell.ods']);
});

test('a folder builds on a workbook, and a workbook on a folder', async () => {
  const folder = join(top, 'variant');
  cpSync(join(made, 'office.xlsx'), join(top, 'base.xlsx'));
  cpSync(join(top, 'cell'), folder, { recursive: true, filter: (path) => !path.endsWith('.csv') });
  writeFileSync(join(folder, 'base.csv'), 'folder\n../base.xlsx\n');
  writeFileSync(join(folder, 'routes.csv'), 'part,step,cycle_s\ncap,2,180\n');
  const { out } = await runIn(top, ['schedule', 'variant', '--json']);
  const plainly = await runIn(top, ['schedule', 'cell', '--set', 'routes.cap.2.cycle_s=180', '--json']);
  const periodOf = (text: string): number => (JSON.parse(text) as { periodS: number }).periodS;
  expect(periodOf(out)).toBe(periodOf(plainly.out));
  expect((JSON.parse(out) as { inputs: { file: string }[] }).inputs.map((i) => i.file)).toContain(
    '../base.xlsx',
  );
});

test('readings are read from a sheet', async () => {
  const of = async (file: string): Promise<unknown> => {
    const { inputs: _, ...rest } = JSON.parse((await runIn(top, ['readings', file, '--json'])).out);
    return JSON.parse(JSON.stringify(rest).replaceAll(file, 'file'));
  };
  expect(await of('cell.ods')).toEqual(await of('cell/readings.csv'));
});

test('nothing of the workbook itself is changed', () => {
  for (const file of readdirSync(made).filter((name) => /\.(xlsx|ods)$/.test(name)))
    expect(
      readFileSync(join(top, file.replace('office', 'cell'))).equals(readFileSync(join(made, file))),
    ).toBe(true);
});
