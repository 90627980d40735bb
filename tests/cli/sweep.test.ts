// Sweeps: each point is the schedule of the changed cell; threads and shards change nothing; shards of other sweeps are refused.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const cell = data('wash-line');
const AXIS = 'routes.sleeve.2.cycle_s=60:100:4';
const sweep = (...more: string[]) => runIn(cwd, ['sweep', cell, '--sweep', AXIS, ...more]);
const file = (name: string): string => readFileSync(join(cwd, name), 'utf8');

test('each point has the figures of `schedule` with that value set', async () => {
  const { out, err, exit } = await sweep('--json', '--workers', '1');
  expect(err).toBe('');
  expect(exit).toBe(0);
  const result = JSON.parse(out);
  expect(result.rows).toHaveLength(11);
  for (const row of result.rows.slice(0, 3)) {
    const alone = await runIn(cwd, [
      'schedule',
      cell,
      '--set',
      `routes.sleeve.2.cycle_s=${row.values[0]}`,
      '--json',
    ]);
    const { partsPerH, periodS, gapPct, robot } = JSON.parse(alone.out);
    expect(row.figures).toEqual([partsPerH.total, periodS, gapPct, robot.utilizationPct]);
  }
});

test('threads and shards change nothing', async () => {
  await sweep('--workers', '1', '--out', 'one.csv');
  await sweep('--workers', '3', '--out', 'three.csv');
  expect(file('three.csv')).toBe(file('one.csv'));
  for (const i of [1, 2, 3])
    expect((await sweep('--shard', `${i}/3`, '--workers', '1', '--out', `s${i}.csv`)).exit).toBe(0);
  const merged = await runIn(cwd, ['sweep', '--merge', 's3.csv', 's1.csv', 's2.csv', '--out', 'all.csv']);
  expect(merged).toMatchObject({ exit: 0, err: '' });
  expect(file('all.csv')).toBe(file('one.csv'));
  expect(file('one.csv').split('\n')).toHaveLength(1 + 1 + 11 + 1);
});

describe('shards that do not fit are refused', () => {
  const merge = (...files: string[]) => runIn(cwd, ['sweep', '--merge', ...files, '--out', 'x.csv']);
  test('one is missing', async () => {
    const said = await merge('s1.csv', 's3.csv');
    expect(said.exit).toBe(2);
    expect(said.err).toContain(
      '4 of 11 points are missing (2, 5, 8, 11); a shard is not given or did not end.',
    );
  });
  test('one is given twice', async () => {
    expect((await merge('s1.csv', 's1.csv')).err).toContain('Point 1 is in `s1.csv` and in another file too');
  });
  test('one is of another sweep', async () => {
    await runIn(cwd, [
      'sweep',
      cell,
      '--sweep',
      AXIS,
      '--set',
      'robot.cost_per_h=1',
      '--shard',
      '2/3',
      '--workers',
      '1',
      '--out',
      'other.csv',
    ]);
    expect((await merge('s1.csv', 'other.csv', 's3.csv')).err).toContain(
      '`other.csv` is of another sweep than `s1.csv`',
    );
  });
  test('one was cut off', async () => {
    const text = file('s2.csv');
    writeFileSync(join(cwd, 'cut.csv'), text.slice(0, text.length - 30));
    expect((await merge('s1.csv', 'cut.csv', 's3.csv')).err).toContain('no point of its sweep');
  });
  test('one is no sweep at all, or is not there', async () => {
    writeFileSync(join(cwd, 'plain.csv'), 'a,b\n1,2\n');
    expect((await merge('plain.csv')).err).toContain('its first line does not mark a sweep');
    expect((await merge('none.csv')).err).toContain('`none.csv` cannot be read: it is not there.');
  });
});

test('two inputs make a grid, and any result can be asked', async () => {
  const args = [
    'sweep',
    cell,
    '--sweep',
    'routes.sleeve.2.cycle_s=60,90',
    '--sweep',
    'stations.lathe.close_s=2:4:1',
  ];
  const { out } = await runIn(cwd, [
    ...args,
    '--figure',
    'schedule.stations.lathe.processingS',
    '--workers',
    '1',
  ]);
  const lines = out.split('\n').map((l) => l.trim().split(/\s+/).join(' '));
  expect(lines).toEqual(expect.arrayContaining(['2 3 4', '60 60 60 60', '90 90 90 90']));
});

test('points without a sequence are told, not left out', async () => {
  const args = ['sweep', data('no-schedule'), '--workers', '1', '--nodes', '400000', '--json'];
  const routes = readFileSync(join(data('no-schedule'), 'routes.csv'), 'utf8');
  const [part, step] = routes
    .split('\n')
    .find((l) => /^[a-z]+,2,/.test(l))!
    .split(',');
  const { out } = await runIn(cwd, [
    ...args,
    '--sweep',
    `routes.${part}.${step}.load_s=4,5`,
    '--figure',
    'schedule.periodS',
  ]);
  expect(
    JSON.parse(out).rows.map((r: { status: string; figures: unknown[] }) => [r.status, ...r.figures]),
  ).toEqual([
    ['infeasible', null],
    ['infeasible', null],
  ]);
});

describe('wrong uses', () => {
  test.each<[string[], number, string]>([
    [['--figure', 'schedule.period'], 2, 'There is no `period` in `schedule`. Did you mean `periodS`?'],
    [['--figure', 'schedule.robot'], 2, '`schedule.robot` is not one figure; go on with one of: handlingS'],
    [['--figure', 'schedule.searched.seconds'], 2, 'is no figure that can be swept'],
    [['--shard', '5/4'], 2, 'expected a part and their number, such as `1/4` to `4/4`'],
    [['--sweep', AXIS], 2, 'is given twice'],
    [['--sweep', 'a.b=1', '--sweep', 'a.c=1'], 2, 'One or two inputs can be swept at once, 3 are given.'],
    [['--merge', 's1.csv'], 2, '`--merge` takes the files of shards'],
    [['--sweep', 'robot.hnds=1,2'], 1, 'Did you mean `hands`?'],
    [['--sweep', 'robot.hands=1:3:1'], 1, 'For hands found `3`, expected 1 or 2.'],
  ])('%j', async (more, exit, text) => {
    const said = await sweep('--workers', '1', ...more);
    expect(said.exit).toBe(exit);
    expect(said.out).toBe('');
    expect(said.err.replace(/\s+/g, ' ')).toContain(text);
  });

  test('a value in the middle that a column refuses ends the sweep with its complaint', async () => {
    const said = await runIn(cwd, ['sweep', cell, '--sweep', 'robot.hands=1:2:0.5', '--workers', '1']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('For hands found `1.5`, expected 1 or 2.');
  });
});
