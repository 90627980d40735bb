// `readings` from outside: text, JSON, files, faults.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const WATCH = 'my-cell/readings.csv';
/** One of its elements, for what is asked with several options. */
const LOADS = 'loads.csv';

beforeAll(async () => {
  expect((await runIn(cwd, ['init', 'my-cell'])).exit).toBe(0);
  const lines = readFileSync(join(cwd, WATCH), 'utf8').split('\n');
  writeFileSync(join(cwd, LOADS), lines.filter((line) => /^(element|mill_1 load),/.test(line)).join('\n'));
});

test('--json has the contract’s fields', async () => {
  const said = await runIn(cwd, ['readings', WATCH, '--json']);
  expect(said).toMatchObject({ exit: 0, err: '' });
  const result = JSON.parse(said.out);
  expect(result).toMatchObject({
    program: 'roundsman',
    command: 'readings',
    accuracyPct: 5,
    confidencePct: 95,
  });
  expect(result.inputs.map((i: { file: string }) => i.file)).toEqual(['readings.csv']);
  const load = result.elements.find((e: { element: string }) => e.element === 'mill_1 load');
  for (const field of ['n', 'mean', 'sd', 'ciLow', 'ciHigh', 'cvPct', 'neededN'])
    expect(load[field], field).toBeGreaterThan(0);
  expect(load.outliers).toEqual([{ seconds: 18.4, line: expect.any(Number), note: 'chip under the jaw' }]);
  expect(load.foreign).toMatchObject({ count: 2, oneIn: 12 });
  expect(load.fit).toMatchObject({ distribution: 'readings' });
  const spread = (1.959963984540054 * load.sd) / (0.05 * load.mean);
  expect(load.neededN).toBe(Math.ceil(spread * spread));
});

describe('with the folder of the cell', () => {
  test('names and times are held against it', async () => {
    const { out, exit } = await runIn(cwd, ['readings', WATCH, 'my-cell', '--full']);
    expect(exit).toBe(0);
    expect(out).toContain('mill_1 cycle: the tables have 240.0 s; measured it is');
    expect(out).toContain('cap,2,mill_1|mill_2,');
    expect(out).toContain('mill_2 was not timed and takes');
  });

  test('--set changes what they are held against', async () => {
    const lines = readFileSync(join(cwd, WATCH), 'utf8').split('\n');
    const cycles = lines.filter((line) => /^(element|mill_1 cycle),/.test(line)).join('\n');
    writeFileSync(join(cwd, 'cycles.csv'), cycles);
    const of = async (cycleS: number): Promise<string> => {
      const set = ['--set', `routes.cap.2.cycle_s=${cycleS}`];
      return (await runIn(cwd, ['readings', 'cycles.csv', 'my-cell', '--full', ...set])).out;
    };
    expect(await of(240)).toContain('mill_1 cycle: the tables have');
    expect(await of(243)).not.toContain('mill_1 cycle: the tables have');
    const alone = await runIn(cwd, ['readings', WATCH, '--set', 'routes.cap.2.cycle_s=243']);
    expect(alone.exit).toBe(2);
    expect(alone.err).toContain('name the folder too');
  });

  test('--out makes a variant that is sound and runs', async () => {
    const { out, exit } = await runIn(cwd, ['readings', WATCH, 'my-cell', '--out', 'measured']);
    expect(exit).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('Compare with `roundsman schedule measured`.');
    const check = await runIn(cwd, ['check', 'measured', '--json']);
    expect(check).toMatchObject({ exit: 0, err: '' });
    expect(JSON.parse(check.out).complaints).toEqual([]);
    const [own, base] = await Promise.all(
      ['measured', 'my-cell'].map(async (folder) =>
        JSON.parse((await runIn(cwd, ['schedule', folder, '--json'])).out),
      ),
    );
    expect(own.periodS).toBeGreaterThan(base.periodS);
    const again = await runIn(cwd, ['readings', WATCH, 'my-cell', '--out', 'measured']);
    expect(again.exit).toBe(0);
    expect(readFileSync(join(cwd, 'measured/base.csv'), 'utf8')).toContain('\nfolder\n../my-cell\n');
    expect(readFileSync(join(cwd, 'measured/readings-figures.csv'), 'utf8').split('\n')[2]).toMatch(
      /^rack unload,24,4\.39/,
    );
  });

  test('--out touches no tables of somebody’s own', async () => {
    const before = readFileSync(join(cwd, 'my-cell/routes.csv'), 'utf8');
    const said = await runIn(cwd, ['readings', WATCH, 'my-cell', '--out', 'my-cell']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('The folder `my-cell` holds tables of its own');
    expect(readFileSync(join(cwd, 'my-cell/routes.csv'), 'utf8')).toBe(before);
    expect(existsSync(join(cwd, 'my-cell/readings-figures.csv'))).toBe(false);
  });

  test('a name that it does not have is told with the nearest one', async () => {
    writeFileSync(
      join(cwd, 'typo.csv'),
      'element,seconds\nmil_1 cycle,240\nmill_1 cycle cup,240\ndeburr,9\n',
    );
    const { out, exit } = await runIn(cwd, ['readings', 'typo.csv', 'my-cell', '--full']);
    expect(exit).toBe(0);
    const said = out.replace(/\s+/g, ' ');
    expect(said).toContain(
      'mil_1 cycle: there is no station `mil_1` in stations.csv, so it gives no row. Did you mean `mill_1`?',
    );
    expect(said).toContain(
      'mill_1 cycle cup: there is no part `cup` in routes.csv, so it gives no row. Did you mean `cap`?',
    );
    expect(said).toContain('deburr: the name gives no row for a table: expected a station and cycle, load,');
  });
});

describe('options', () => {
  const elements = async (...more: string[]) =>
    JSON.parse((await runIn(cwd, ['readings', LOADS, '--json', ...more])).out).elements as Record<
      string,
      number
    >[];
  let usual: Record<string, number>[];
  beforeAll(async () => {
    usual = await elements();
  });

  test('accuracy and confidence set how many readings are needed', async () => {
    const [finer, surer] = await Promise.all([
      elements('--accuracy-pct', '2.5'),
      elements('--confidence-pct', '99'),
    ]);
    for (const [i, e] of usual.entries()) {
      expect(Math.abs(finer[i]!.neededN! - 4 * e.neededN!)).toBeLessThanOrEqual(4);
      expect(surer[i]!.neededN).toBeGreaterThanOrEqual(e.neededN!);
      expect(surer[i]!.ciHigh).toBeGreaterThan(e.ciHigh!);
    }
  });

  test('an allowance on the work or the day', async () => {
    const [work, day] = await Promise.all([
      elements('--allowance-pct', '10'),
      elements('--allowance-pct', '10', '--allowance-of', 'day'),
    ]);
    expect(work[0]!.standardS).toBeCloseTo(1.1 * work[0]!.mean!, 10);
    expect(day[0]!.standardS).toBeCloseTo(day[0]!.mean! / 0.9, 10);
  });

  test('outliers left out, by either rule', async () => {
    const load = (list: Record<string, number>[]) =>
      list.find((e) => (e.element as unknown) === 'mill_1 load')!;
    const kept = usual;
    const [dropped, fences] = await Promise.all([
      elements('--drop-outliers'),
      elements('--drop-outliers', '--outliers', 'fences'),
    ]);
    expect(load(dropped).n).toBe(load(kept).n! - 1);
    expect(load(dropped).mean).toBeLessThan(load(kept).mean!);
    expect(load(fences).n).toBeLessThan(load(kept).n!);
  });

  test('one cell of several', async () => {
    writeFileSync(join(cwd, 'two.csv'), 'element,seconds,cell\nmill_1 load,10,north\nmill_1 load,12,south\n');
    const { out } = await runIn(cwd, ['readings', 'two.csv', '--cell', 'north', '--json']);
    expect(JSON.parse(out).elements[0]).toMatchObject({ n: 1, mean: 10 });
    const wrong = await runIn(cwd, ['readings', 'two.csv', '--cell', 'nort']);
    expect(wrong.exit).toBe(2);
    expect(wrong.err).toContain('No reading is of a cell `nort`. Did you mean `north`?');
  });
});

describe('what is wrong', () => {
  test('in both inputs is told in one run', async () => {
    mkdirSync(join(cwd, 'broken'));
    writeFileSync(join(cwd, 'broken/stations.csv'), 'station,kind\nrack,infied\n');
    writeFileSync(join(cwd, 'bad.csv'), 'element,seconds\nmill_1 load,x\nmill_1 load,-3\n');
    const said = await runIn(cwd, ['readings', 'bad.csv', 'broken']);
    expect(said.exit).toBe(1);
    expect(said.out).toBe('');
    expect(said.err.match(/^bad\.csv, line \d, column seconds {2}error/gm)).toHaveLength(2);
    expect(said.err).toContain('stations.csv, line 2, column kind  error');
    expect(said.err).toContain('routes.csv  error TAB01');
  });

  test('a file that is not there', async () => {
    const said = await runIn(cwd, ['readings', 'nothing.csv']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('nothing.csv  error FIL07');
    expect((await runIn(cwd, ['readings'])).exit).toBe(2);
  });

  test('foreign occurrences alone give no time, and no fault', async () => {
    writeFileSync(join(cwd, 'foreign.csv'), 'element,seconds,foreign\ndoor jammed,30,yes\n');
    const said = await runIn(cwd, ['readings', 'foreign.csv']);
    expect(said).toMatchObject({ exit: 0, err: '' });
    expect(said.out).toContain('0 readings of 0 elements');
    expect(said.out).toContain('There is no time to show.');
  });
});
