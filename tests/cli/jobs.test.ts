// The job plan from outside: texts, files, ways of the cost case, and what is wrong with the use.
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readGrids } from '../../src/workbook/read-grids.js';
import { quickShop } from '../support/quick-shop.js';
import { atSize, deepTest } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const shop = data('weekly-jobs');
const flat = (text: string): string => text.replace(/\s+/g, ' ');
/** The example with its lathes and their first jobs alone. */
const few = join(cwd, 'few');
mkdirSync(few);
for (const name of readdirSync(shop)) {
  const lines = readFileSync(join(shop, name), 'utf8').split('\n');
  const kept = lines.filter((line) => !/mill_|bracket|plate|block/.test(line));
  writeFileSync(join(few, name), (name === 'costs.csv' ? lines : kept).join('\n'));
}
const jobRows = (folder: string): string[] =>
  readFileSync(join(folder, 'jobs.csv'), 'utf8')
    .trim()
    .split('\n')
    .filter((line) => !line.startsWith('#'));
const week = atSize(few, few, shop);
const night = ['jobs', week, '--pattern', 'day and night'];

test('the week of the example: in time, proven, with the ways that the cost case decides', async () => {
  const { out, err, exit } = await runIn(cwd, [...night, '--json', '--out', 'plan']);
  expect(err).toBe('');
  expect(exit).toBe(0);
  const { plans, best, written } = JSON.parse(out);
  expect(best).toBe('day and night');
  expect(plans[0]).toMatchObject({ status: 'in time', proven: true, lateParts: 0, notMade: 0 });
  const alone = await runIn(cwd, ['costcase', week, '--json', '--trials', '20']);
  const { alternatives, decision, byStation } = JSON.parse(alone.out);
  const boxed = alternatives.find((a: { name: string }) => a.name === decision).stations;
  expect(boxed.length).toBeGreaterThan(0);
  for (const setup of plans[0].setups) {
    const minutes = byStation.find((s: { station: string }) => s.station === setup.station);
    const isBox = boxed.includes(setup.station);
    expect(setup.way).toBe(isBox ? 'box' : 'harness');
    const job = plans[0].jobs.find((j: { part: string }) => j.part === setup.to);
    const own = { bushing: 30, flange: 40, nipple: 25, bracket: 55, plate: 45, block: 60 }[
      job.part as 'bushing'
    ];
    // The harness is moved to a machine only from another one that it serves.
    const others = byStation.filter(
      ({ station }: { station: string }) => station !== setup.station && !boxed.includes(station),
    );
    const elsewhere = others.reduce(
      (sum: number, s: { changeoversPerYear: number }) => sum + s.changeoversPerYear,
      0,
    );
    const moved = Math.min(1, elsewhere / minutes.changeoversPerYear) * minutes.harnessMin;
    expect(setup.minutes).toBeCloseTo(own + (isBox ? minutes.boxMin : moved), 9);
  }
  expect(written).toEqual(
    [
      'job-hours.csv',
      'job-patterns.csv',
      'jobs-by-shift.csv',
      'jobs-done.csv',
      'jobs.xlsx',
      'machines-by-shift.csv',
      'setups-by-shift.csv',
    ].map((name) => join('plan', name)),
  );
  const { grids, names } = await readGrids(readFileSync(join(cwd, 'plan/jobs.xlsx')), 'xlsx', () => true);
  expect(names).toEqual([
    'answer',
    ...['job-patterns', 'jobs-done', 'job-hours', 'jobs-by-shift', 'machines-by-shift', 'setups-by-shift'],
  ]);
  const rows = readFileSync(join(cwd, 'plan/jobs-by-shift.csv'), 'utf8').trim().split('\n');
  expect(grids[4]!.rows.size).toBe(rows.length);
  expect(rows[0]).toBe('pattern,job,part,day,shift,from,to,good_parts,late');
  const made = rows.slice(1).reduce((sum, row) => sum + Number(row.split(',')[7]), 0);
  const quantities = jobRows(week).slice(1);
  expect(made).toBe(quantities.reduce((sum, row) => sum + Number(row.split(',')[2]), 0));
  expect(made).toBeGreaterThan(900);
});

deepTest('boxes everywhere need fewer set-up minutes than moving the harness everywhere', async () => {
  const minutes = async (way: string): Promise<number> => {
    const args = ['jobs', few, '--pattern', 'day and night', '--connection', way, '--json'];
    const { out } = await runIn(cwd, args);
    return JSON.parse(out).plans[0].setupMin;
  };
  expect(await minutes('box')).toBeLessThan(await minutes('harness'));
});

test('a job that cannot be in time is told with the reason, and the text shows the week', async () => {
  const folder = join(cwd, 'late');
  quickShop(folder);
  writeFileSync(join(folder, 'jobs.csv'), 'job,part,quantity,due\nrush,cap,900,Mon\n');
  const { out, exit } = await runIn(cwd, ['jobs', folder, '--pattern', 'day']);
  expect(exit).toBe(0);
  expect(flat(out)).toMatch(/0 of 1 jobs on time, .* Late: \d+ of 900 of job rush/);
  expect(flat(out)).toContain('even as the only job');
  expect(flat(out)).toMatch(/mill_1 Mon 06:\d\d to \d\d:\d\d \d+, (box|harness moved) cap \d+ /);
});

test('without jobs or shifts there is nothing to plan', async () => {
  const { err, exit } = await runIn(cwd, ['jobs', data('wash-line')]);
  expect(exit).toBe(3);
  expect(flat(err)).toContain(
    'There is nothing to plan: the folder has no jobs.csv, and the folder has no shifts.csv.',
  );
});

test('a table that is empty is not called missing', async () => {
  const folder = join(cwd, 'empty-tables');
  cpSync(data('wash-line'), folder, { recursive: true });
  writeFileSync(join(folder, 'jobs.csv'), 'job,part,quantity\n');
  const { err } = await runIn(cwd, ['jobs', folder]);
  expect(flat(err)).toContain(
    'There is nothing to plan: jobs.csv has no job, and the folder has no shifts.csv.',
  );
  writeFileSync(join(folder, 'setups.csv'), 'station,from,to,minutes\n');
  const setups = await runIn(cwd, ['setups', folder]);
  expect([setups.exit, flat(setups.err)]).toEqual([3, expect.stringContaining('setups.csv has no row')]);
  const missing = await runIn(cwd, ['setups', data('wash-line')]);
  expect([missing.exit, flat(missing.err)]).toEqual([
    3,
    expect.stringContaining('The folder has no setups.csv'),
  ]);
});

describe('wrong uses', () => {
  test.each<[string[], string]>([
    [
      ['--pattern', 'day and nigt'],
      '`day and nigt` is no shift pattern of shifts.csv. Did you mean `day and night`?',
    ],
    [['--connection', 'cable'], 'expected `case`, `harness` or `box`'],
    [['--connection', 'lathe_9=box'], '`lathe_9` is no machine of stations.csv.'],
    [['--now', 'lathe_1=bracket'], '`bracket` is no part that a route makes on lathe_1.'],
    [['--now', 'lathe_1'], 'expected a machine and a part, such as `mill_1=cap`'],
    [['--hours-pct', '0'], 'expected per cent above 0 and up to 100'],
  ])('%j', async (more, said) => {
    const { err, out, exit } = await runIn(cwd, ['jobs', week, ...more]);
    expect(exit).toBe(2);
    expect(out).toBe('');
    expect(flat(err)).toContain(said);
  });

  test('a way is asked for where there is no cost case', async () => {
    const folder = join(cwd, 'no-costs');
    cpSync(few, folder, { recursive: true });
    writeFileSync(join(folder, 'costs.csv'), 'item,value\ncurrency,EUR\n');
    const said = await runIn(cwd, ['jobs', folder, '--connection', 'box']);
    expect(said.exit).toBe(2);
    expect(flat(said.err)).toContain(
      '`--connection` needs the minutes of the cost case. Too little data to say.',
    );
  });
});

test('a time limit that ends the work: exit status 4, with the best plan until then, and that is said', async () => {
  const args = ['jobs', week, '--time-limit', '0.001'];
  const said = await runIn(cwd, args);
  expect(said.exit).toBe(4);
  expect(said.err).toBe('');
  expect(flat(said.out)).toContain('The time limit came before the plan of "day and night".');
  const { out, exit } = await runIn(cwd, [...args, '--pattern', 'one shift', '--json']);
  expect(exit).toBe(4);
  const { plans, timeUp, warnings } = JSON.parse(out);
  expect(timeUp).toBe(true);
  expect(plans).toMatchObject([{ pattern: 'one shift', proven: false, timeUp: true }]);
  expect(plans[0].jobs.some((job: { inTime: number }) => job.inTime > 0)).toBe(true);
  expect(warnings[0]).toBe('The time limit ended the work on "one shift": a better plan may exist.');
});
