// Each exit status, with the whole of what is said.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { data, freshFolder, run, runIn } from './run-in.js';

const cwd = freshFolder();

describe('2: wrong use of the command', () => {
  const said: readonly (readonly [args: string, text: string])[] = [
    [
      'schedul x',
      'There is no command `schedul`. The nearest known: `schedule`.\nOptions: `roundsman --help`\n',
    ],
    [
      'schedule x --hand 2',
      'There is no option `--hand` here. The nearest known: `--hands`.\nOptions: `roundsman schedule --help`\n',
    ],
    ['points x', 'There is no command `points`. It is called `io` now.\nOptions: `roundsman --help`\n'],
    [
      'shifts x --way box',
      'There is no option `--way` here. It is called `--connection` now.\nOptions: `roundsman shifts --help`\n',
    ],
    ['schedule', 'The command needs a folder; none is given.\nOptions: `roundsman schedule --help`\n'],
    [
      'schedule a b',
      'There are more arguments than the command takes.\nOptions: `roundsman schedule --help`\n',
    ],
    [
      'schedule x --hands',
      'The option `--hands` needs a value; none is given.\nOptions: `roundsman schedule --help`\n',
    ],
    [
      'schedule x --hands 3',
      'For the option `--hands`: found `3`, expected a whole number of hands from 1 to 2.\nOptions: `roundsman schedule --help`\n',
    ],
    [
      'schedule x --time-limit 12abc',
      'For the option `--time-limit`: found `12abc`, expected seconds above 0 and up to 86400. Write the number alone, `12`, without a unit.\nOptions: `roundsman schedule --help`\n',
    ],
    [
      'size --cycle 240 --load 12',
      'Without a folder, `--unload`, `--travel` are needed too. An example: `roundsman size --cycle 240 --load 12 --unload 10 --travel 4 --max 8`.\n',
    ],
    [
      'size x --cycle 240',
      'The figure `--cycle` cannot be given together with a folder, whose tables hold it.\n',
    ],
  ];
  test.each(said)('%s', async (args, text) => {
    expect(await run(args.split(' '))).toEqual({ exit: 2, out: '', err: text });
  });

  test.each(['0x10', '1e9999', ' ', '', 'NaN', 'Infinity', '1,5', '-1', '1_000'])(
    'a number is not `%s`',
    async (value) => {
      const said = await run(['costcase', 'x', '--trials', value]);
      expect(said.exit).toBe(2);
      expect(said.err).toMatch(/^For the option `--trials`: found `.*`, expected|needs a value/);
    },
  );

  test('signs that would steer a terminal are shown, not sent', async () => {
    const said = await run(['schedule', 'x', '--hands', '\u001b[2J']);
    expect(said.err).toContain('␛[2J');
    expect(said.err).not.toContain('\u001b');
  });
});

describe('1: the input is wrong', () => {
  test('all complaints come in one run, and nothing is computed', async () => {
    const folder = join(cwd, 'broken');
    mkdirSync(folder);
    writeFileSync(join(folder, 'stations.csv'), 'station,kind\nrack,infeed\nmill,machin\nout,outfeed\n');
    writeFileSync(
      join(folder, 'routes.csv'),
      'part,step,stations,cycle_s\ncap,1,rack,\ncap,2,mill,-4\ncap,3,out,\n',
    );
    writeFileSync(join(folder, 'robot.csv'), 'setting,value\ntravel_s,3\n');
    const said = await runIn(cwd, ['schedule', 'broken']);
    expect(said.exit).toBe(1);
    expect(said.out).toBe('');
    expect(said.err).toContain('stations.csv, line 3, column kind');
    expect(said.err).toContain('routes.csv, line 3, column cycle_s');
    expect(said.err).toMatch(/2 errors in 2 files\. No results\.\n$/);
  });

  test('init overwrites nothing and names what is there', async () => {
    const folder = join(cwd, 'mine');
    mkdirSync(folder);
    writeFileSync(join(folder, 'parts.csv'), 'mine');
    const said = await runIn(cwd, ['init', 'mine']);
    expect(said.exit).toBe(1);
    expect(said.err.replace(/\s+/g, ' ')).toBe(
      'The folder `mine` already holds `parts.csv`. Nothing was written, so that nothing is lost. Name another folder, or move this file away first. ',
    );
  });

  test('init where a file stands in place of the folder', async () => {
    writeFileSync(join(cwd, 'a-file'), 'x');
    const said = await runIn(cwd, ['init', 'a-file']);
    expect(said.exit).toBe(1);
    expect(said.out).toBe('');
    expect(said.err).toContain('cannot be written: ');
  });

  test('a fault of the program ends in a sentence with how to report it, never a trace', async () => {
    const said = await run(['check', data('starter')], {
      stdout: () => {
        throw new TypeError('cannot read properties of undefined');
      },
    });
    expect(said.exit).toBe(1);
    expect(said.err).toMatch(/^The program met a fault of its own and stopped: cannot read properties/);
    expect(said.err).toContain('Please report this sentence');
    expect(said.err).not.toMatch(/\n\s+at /);
  });
});

test('3: no feasible answer exists, with the reason and the chain that contradicts', async () => {
  const said = await run(['schedule', data('no-schedule')]);
  expect(said.exit).toBe(3);
  expect(said.out).toBe('');
  expect(said.err).toContain('No feasible repeating sequence.');
  expect(said.err.replace(/\s+/g, ' ')).toMatch(/hub at furnace \(6 s/);
  expect(said.err).toContain('conflicting times');
  const json = await run(['shifts', data('no-schedule'), '--json']);
  expect(json.exit).toBe(3);
  expect(JSON.parse(json.out)).toMatchObject({ command: 'shifts', status: 'infeasible' });
});

test('4: a stated limit ended the work before an answer', async () => {
  const said = await run(['schedule', data('wash-line'), '--max-visits', '2']);
  expect(said.exit).toBe(4);
  expect(said.err).toContain('No sequence found.');
});

test('4: a time limit ended the work: the best so far is the answer', async () => {
  const args = ['schedule', data('six-machines'), '--time-limit', '0.001'];
  const said = await run(args);
  expect(said.exit).toBe(4);
  expect(said.err).toBe('');
  expect(said.out).toContain('The search for the robot sequence stopped at its limit');
  expect(said.out).toMatch(/Output \d/);
  const json = await run([...args, '--json']);
  expect(json.exit).toBe(4);
  expect(json.err).toBe('');
  expect(JSON.parse(json.out)).toMatchObject({ status: 'best found', searched: { complete: false } });
});

test('0: every cell in data that can be run is run', async () => {
  for (const name of ['starter', 'wash-line', 'two-hands']) {
    const said = await run(['schedule', data(name)]);
    expect(said.exit, name).toBe(0);
    expect(said.err, name).toBe('');
  }
});

test('check knows what the cost case will ask for', async () => {
  const folder = join(cwd, 'lacking');
  mkdirSync(folder);
  const tables: Record<string, string> = {
    'stations.csv': 'station,kind\nin,infeed\nm1,machine\nm2,machine\nout,outfeed\n',
    'routes.csv':
      'part,step,stations,cycle_s,load_s,unload_s\na,1,in,,,2\na,2,m1,60,2,2\na,3,m2,60,2,2\na,4,out,,2,\n',
    'robot.csv': 'setting,value\nhands,1\ntravel_s,3\n',
    'changeovers.csv': 'station,per_year,minutes_other\nm1,10,20\nm2,10,20\n',
    'costs.csv': 'item,value\nbox_price,900\n',
  };
  for (const [file, text] of Object.entries(tables)) writeFileSync(join(folder, file), text);
  const { out, err, exit } = await runIn(cwd, ['check', 'lacking']);
  expect(exit).toBe(0);
  expect(`${out}${err}`).toMatch(/costs\.csv +warning COS10/);
  expect(`${out}${err}`).toContain(
    'Found no row for `labour_per_h`, which costcase needs for the cost of a minute',
  );
  expect(`${out}${err}`).toContain('Add a row for labour_per_h.');
});
