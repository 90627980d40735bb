// The command `log` from outside: a simulated log read, held against its own cell and against a wrong one, and the
// measured rows put back.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { deepTest, isDeep } from '../support/size.js';
import { freshFolder, runIn, type Said } from './run-in.js';

const cwd = freshFolder();
const START = '2026-10-19T00:00:00+02:00';

interface Compared {
  readonly element: string;
  readonly path: string;
  readonly estimate: number | null;
  readonly measured: number;
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
  readonly offPct: number | null;
  readonly isOff: boolean;
}

async function json(args: readonly string[]): Promise<Record<string, never> & Record<string, unknown>> {
  const said = await runIn(cwd, [...args, '--json']);
  expect(said.err).toBe('');
  expect(said.exit).toBe(0);
  return JSON.parse(said.out);
}

const run = (...args: string[]): Promise<Said> => runIn(cwd, args);

beforeAll(async () => {
  expect((await run('init', 'my-cell')).exit).toBe(0);
  const simulate = [
    'simulate',
    'my-cell',
    '--replications',
    '1',
    '--dispatch',
    'order',
    '--hours',
    '200',
    '--seed',
    '4',
  ];
  // The scatter of unloading the rack has another mean than routes.csv says; that is taken out, so that all agrees.
  const sound = [
    '--set',
    'variation.rack.unload.a=3',
    '--set',
    'variation.rack.unload.b=3',
    '--set',
    'variation.rack.unload.c=6',
  ];
  const said = await run(...simulate, ...sound, '--log', 'run.csv', '--log-start', START);
  expect(said.err).toBe('');
  expect(said.out).toContain('Written: run.csv, ');
});

describe('log', () => {
  test('tells cycles, waits, parts by shift and the robot’s time', async () => {
    const result = await json(['log', 'run.csv', 'my-cell']);
    const { stations, shifts, shiftMeans, robot, parts } = result as never as {
      stations: { station: string; times: { cycle: { mean: number; n: number } } }[];
      shifts: { shift: string; date: string; isWhole: boolean; parts: number }[];
      shiftMeans: { shift: string; n: number; mean: number }[];
      robot: { busyPct: number };
      parts: Record<string, number>;
    };
    expect(stations.map((s) => s.station).sort()).toEqual(['done', 'mill_1', 'mill_2', 'rack', 'wash']);
    expect(stations.find((s) => s.station === 'mill_2')!.times.cycle.mean).toBeCloseTo(240, 3);
    expect(shifts).toHaveLength(25);
    expect(shifts[0]).toMatchObject({ shift: 'early', date: '2026-10-19', isWhole: true });
    expect(shifts.reduce((sum, s) => sum + s.parts, 0)).toBe(parts.total);
    expect(shiftMeans).toMatchObject([{ shift: 'early', n: 25 }]);
    expect(robot.busyPct).toBeGreaterThan(20);
    expect(result.inputs).toContainEqual({ file: 'run.csv', sha256: expect.stringMatching(/^[\da-f]{64}$/) });
  });

  test('says it in words, and writes all times as CSV', async () => {
    const said = await run('log', 'run.csv', '--out', 'times');
    expect(said.err).toBe('');
    expect(said.out).toContain('The log holds ');
    expect(said.out).toContain('Written: times/log-figures.csv, times/log-figures.xlsx, times/log.txt.');
    const [mark, header, ...rows] = readFileSync(join(cwd, 'times/log-figures.csv'), 'utf8')
      .trimEnd()
      .split('\n');
    expect(mark).toBe('# Written by `roundsman log` from run.csv.');
    expect(header).toBe(
      'station,to,part,element,n,mean_s,sd_s,ci_low_s,ci_high_s,min_s,p10_s,p50_s,p90_s,max_s,total_s',
    );
    expect(rows.some((row) => row.startsWith('mill_2,,cap,cycle,'))).toBe(true);
    expect(rows.some((row) => /^rack,mill_1,,travel loaded,/.test(row))).toBe(true);
  });

  test('reads seconds with a start, and other names', async () => {
    writeFileSync(join(cwd, 'plain.csv'), 'time,station,signal\n21600,M1,ON\n21840,M1,OFF\n');
    const names = ['--rename', 'M1=mill_1', '--rename', 'ON=start', '--rename', 'OFF=finish'];
    const result = await json(['log', 'plain.csv', 'my-cell', '--start', START, ...names]);
    expect(result.first).toBe('21600 s');
    expect((result.stations as { times: { cycle: { mean: number } } }[])[0]!.times.cycle.mean).toBe(240);
  });
});

test('a log in Latin-1 is read as it is, and the result says so', async () => {
  const rows = ['0,Fräse,start', '50,Fräse,finish'].join('\n');
  writeFileSync(join(cwd, 'latin.csv'), Buffer.from(`time,station,signal\n${rows}\n`, 'latin1'));
  const result = await json(['log', 'latin.csv']);
  expect(result.stations).toMatchObject([{ station: 'Fräse' }]);
  expect(result.assumptions).toContainEqual(expect.stringContaining('it was read as Windows-1252'));
});

test('control characters of a log and of an option are shown, not sent', async () => {
  const esc = '\u001b';
  const rows = Array.from({ length: 20 }, (_, k) => `${60 * k},m,start\n${60 * k + 30},m,finish`).join('\n');
  const text = `time,station,signal\n${rows}\n1300,m,st${esc}[31mart\n`;
  writeFileSync(join(cwd, 'control.csv'), text);
  const said = await run('log', 'control.csv');
  expect(said.exit).toBe(0);
  expect(said.out).toContain('st␛[31mart');
  const wrong = await run('log', 'control.csv', '--rename', `a${esc}[31m`);
  expect(wrong.exit).toBe(2);
  expect(wrong.err).toContain('a␛[31m');
  expect(`${said.out}${wrong.err}`).not.toContain(esc);
});

describe('log --against', () => {
  deepTest('finds nothing off in the cell that was simulated', async () => {
    const { against } = await json(['log', 'run.csv', 'my-cell', '--against']);
    const { elements, settings, jointConfidencePct } = against as never as {
      elements: Compared[];
      settings: string[];
      jointConfidencePct: number;
    };
    expect(elements.length).toBeGreaterThan(20);
    expect(elements.filter((e) => e.isOff)).toEqual([]);
    expect(settings).toEqual([]);
    expect(jointConfidencePct).toBeCloseTo(100 - 5 / elements.length, 9);
  });

  test('finds what is off in a cell that was estimated wrong, and its rows mend it', async () => {
    const wrong = {
      'routes.cap.2.cycle_s': 210,
      'routes.cap.3.load_s': 6,
      'stations.mill_1.ready_s': 5,
      'travel.wash.done.loaded_s': 1.5,
    };
    const changed = Object.entries(wrong).flatMap(([path, value]) => ['--set', `${path}=${value}`]);
    const { against } = await json([
      'log',
      'run.csv',
      'my-cell',
      '--against',
      ...changed,
      '--out',
      'measured',
    ]);
    const { elements, estimate, withMeasured } = against as never as {
      elements: Compared[];
      estimate: { partsPerH: number };
      withMeasured: { partsPerH: number };
    };
    expect(
      elements
        .filter((e) => e.isOff)
        .map((e) => e.path)
        .sort(),
    ).toEqual(Object.keys(wrong).sort());
    const cycle = elements.find((e) => e.path === 'routes.cap.2.cycle_s')!;
    expect(cycle.offPct).toBeCloseTo(100 * (cycle.measured / 210 - 1), 9);
    expect(cycle.ciLow!).toBeLessThan(240);
    expect(cycle.ciHigh!).toBeGreaterThan(240);
    const truth = await json(['schedule', 'my-cell']);
    expect(estimate.partsPerH).toBeGreaterThan(withMeasured.partsPerH * 1.03);
    expect(withMeasured.partsPerH).toBeCloseTo((truth.partsPerH as Record<string, number>).total!, 1);
    // The folder that was written is a cell as it stands, with the measured values in it.
    const again = await json(['schedule', 'measured']);
    expect((again.partsPerH as Record<string, number>).total).toBeCloseTo(withMeasured.partsPerH, 9);
    if (!isDeep) return;
    const after = (await json(['log', 'run.csv', 'measured', '--against'])).against as never as {
      elements: Compared[];
    };
    expect(after.elements.filter((e) => e.isOff)).toEqual([]);
  });

  deepTest('its rows stand in the tables’ own form', async () => {
    const said = await run('log', 'run.csv', 'my-cell', '--against', '--set', 'routes.cap.2.cycle_s=210');
    expect(said.out).toMatch(
      /Rows for routes\.csv\npart,step,stations,cycle_s,load_s,unload_s,max_wait_s,parts_per_cycle,every\ncap,2,mill_1\|mill_2,2(39|40)[\d.]*,12,10,,,\n/,
    );
    expect(said.out).toMatch(/Rows for variation\.csv\nstation,element,distribution,a,b,c\n/);
    expect(said.out).toMatch(/\nmill_1,cycle,\w+,2(39|40)[\d.]*,/);
    expect(said.out.replaceAll('\n', ' ')).toContain('cycle of cap at mill_1 or mill_2 (+14.');
  });
});

describe('wrong use and wrong input', () => {
  test.each([
    [['log', 'run.csv', '--against'], 2, '`--against` needs the folder of the cell'],
    [['log', 'run.csv', '--pattern', 'day'], 2, '`--pattern` needs the folder of the cell'],
    [['log', 'run.csv', 'my-cell', '--pattern', 'daay'], 2, 'Did you mean `day`?'],
    [['log', 'run.csv', 'my-cell', '--against', '--out', 'my-cell'], 1, 'holds tables of its own'],
    [['log', 'run.csv', '--zone', 'Europe/Nowhere'], 2, 'expected the name of a time zone'],
    [['log', 'run.csv', '--rename', 'CYC'], 2, 'expected their name, `=` and ours'],
    [['log', 'run.csv', '--start', '2026-10-19'], 2, 'expected a date and time with its zone'],
    [['log', 'run.csv', '--gap-min', '0.01'], 2, '`--gap-min` must be longer than'],
    [['log', 'nowhere.csv'], 1, 'FIL01'],
    [['log', 'my-cell'], 1, 'FIL06'],
    [['simulate', 'my-cell', '--log-start', START], 2, 'name the file with `--log` too'],
    [
      ['simulate', 'my-cell', '--log', 'x.csv', '--log-start', '2026-10-20T00:00:00Z'],
      2,
      'begins on a Monday at 00:00',
    ],
  ] as const)('%j', async (args, exit, words) => {
    const said = await runIn(cwd, args);
    expect(said.err).toContain(words);
    expect(said.exit).toBe(exit);
    expect(said.out).toBe('');
  });
});
