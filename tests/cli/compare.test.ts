// Folders side by side on the command line.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { deepTest } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const few = ['--replications', '4', '--hours', '8', '--workers', '1'];
const compare = (...args: string[]) => runIn(cwd, ['compare', ...args, ...few]);

/** One machine that is busy all the time. */
const plain = join(cwd, 'plain');
const PLAIN: Readonly<Record<string, string>> = {
  'stations.csv': 'station,kind\nin,infeed\nlathe,machine\nout,outfeed\n',
  'robot.csv': 'setting,value\ntravel_s,2\n',
  'routes.csv':
    'part,step,stations,cycle_s,load_s,unload_s\nsleeve,1,in,,,3\nsleeve,2,lathe,96,5,4\nsleeve,3,out,,3,\n',
};

beforeAll(() => {
  mkdirSync(plain);
  for (const [file, text] of Object.entries(PLAIN)) writeFileSync(join(plain, file), text);
  mkdirSync(join(cwd, 'fast'));
  writeFileSync(join(cwd, 'fast', 'base.csv'), `folder\n${plain}\n`);
  writeFileSync(join(cwd, 'fast', 'routes.csv'), 'part,step,cycle_s\nsleeve,2,80\n');
});

test('what differs is listed by table and cell, and the clear winner is named', async () => {
  const { out, err, exit } = await compare(plain, 'fast', '--json');
  expect(err).toBe('');
  expect(exit).toBe(0);
  const result = JSON.parse(out);
  expect(result.changes).toEqual([
    {
      a: 'plain',
      b: 'fast',
      changes: [{ table: 'routes.csv', path: 'routes.sleeve.2.cycle_s', a: '96', b: '80' }],
    },
  ]);
  expect(result.cells.map((c: { folder: string }) => c.folder)).toEqual(['plain', 'fast']);
  expect(result.cells[0].schedule.periodS - result.cells[1].schedule.periodS).toBeCloseTo(16, 9);
  expect(result.best).toEqual({ bySimulatedParts: 'fast', byPartsPerH: 'fast', byContribution: null });
  expect(result.clear).toBe(true);
  expect(result.inputs.map((i: { file: string }) => i.file)).toContain('fast/base.csv');
});

test('a cell against itself under another name has no clear difference', async () => {
  const { out } = await compare(plain, `${plain}/`);
  expect(out.replace(/\s+/g, ' ')).toMatch(
    /No clear difference in good parts a shift: \S*plain makes the same as /,
  );
  expect(out).toContain('Nothing: the tables say the same.');
});

test('rules of dispatch can be compared in one folder', async () => {
  const { out } = await compare(plain, '--dispatch', 'first,order', '--json');
  const result = JSON.parse(out);
  expect(result.cells.map((c: { folder: string; dispatch: string }) => [c.folder, c.dispatch])).toEqual([
    ['first', 'first'],
    ['order', 'order'],
  ]);
  expect(result.changes).toEqual([]);
});

deepTest('the same figures on any number of threads', async () => {
  const args = ['compare', plain, 'fast', '--replications', '4', '--hours', '8', '--json', '--workers'];
  const figures = async (workers: string) => {
    const result = JSON.parse((await runIn(cwd, [...args, workers])).out);
    return [
      result.differences,
      result.cells.map((c: { simulated: { partsPerShift: unknown } }) => c.simulated.partsPerShift),
    ];
  };
  expect(await figures('2')).toEqual(await figures('1'));
});

test.each<[string[], number, string]>([
  [[plain], 2, 'A comparison needs two folders or more'],
  [[plain, plain], 2, 'is given twice'],
  [[plain, '--dispatch', 'frist,order'], 2, 'found `frist`, expected order, strict, first, nearest, longest'],
  [
    [data('wash-line'), data('starter'), '--pattern', 'late'],
    2,
    'Not all cells have the pattern late; they share none.',
  ],
  [[plain, 'nowhere'], 1, 'There is no folder'],
])('%j', async (args, exit, text) => {
  const said = await compare(...args);
  expect(said).toMatchObject({ exit, out: '' });
  expect(said.err.replace(/\s+/g, ' ')).toContain(text);
});

test('a fault of the command line is told once, a folder that is not there by its name', async () => {
  const setting = await compare(plain, 'fast', '--set', 'robot.hands=3');
  expect(setting.exit).toBe(1);
  expect(setting.err.match(/For hands found `3`/g)).toHaveLength(1);
  expect(setting.err).toContain('1 error in 1 file.');
  const lost = await compare(plain, 'nowhere');
  expect(lost.err).toMatch(/^nowhere {2}error FIL01\n/);
});

test('which folder builds on which is told by name, down to the base of a base', async () => {
  mkdirSync(join(cwd, 'faster'));
  writeFileSync(join(cwd, 'faster', 'base.csv'), 'folder\n../fast\n');
  writeFileSync(join(cwd, 'faster', 'robot.csv'), 'setting,value\ncost_per_h,9\n');
  const { out } = await compare('fast', 'faster', '--json');
  const { assumptions } = JSON.parse(out);
  expect(assumptions).toEqual(
    expect.arrayContaining([
      `fast builds on ${plain}: routes.csv changes 1 row; all else is as there.`,
      `../fast builds on ${plain}: routes.csv changes 1 row; all else is as there.`,
      'faster builds on ../fast: robot.csv adds 1 row; all else is as there.',
    ]),
  );
});

test('`--out` draws each layout, and rings the station that is placed elsewhere', async () => {
  const layout = (name: string, machineX: number, part = 'a'): string => {
    const rows = ['station,kind,x_m,y_m', 'in,infeed,0,0', `m,machine,${machineX},1`, 'out,outfeed,2,0'];
    mkdirSync(join(cwd, name));
    writeFileSync(join(cwd, name, 'stations.csv'), `${rows.join('\n')}\n`);
    writeFileSync(join(cwd, name, 'robot.csv'), 'setting,value\nspeed_m_s,1\n');
    writeFileSync(
      join(cwd, name, 'routes.csv'),
      `part,step,stations,cycle_s,load_s,unload_s\n${part},1,in,,,40\n${part},2,m,300,50,50\n${part},3,out,,40,\n`,
    );
    return name;
  };
  const { out, exit } = await compare(layout('near', 1), layout('far', 3), '--out', 'drawn');
  expect(exit).toBe(0);
  const said = out.replace(/\s+/g, ' ');
  expect(said).toContain('Placed elsewhere or not in every cell: m (--out)');
  expect(said).toContain(join('drawn', 'compare.html'));
  const page = readFileSync(join(cwd, 'drawn', 'compare.html'), 'utf8');
  const [near = '', far = ''] = page
    .split('<figure')
    .filter((piece) => piece.includes('To scale, seen from above'));
  for (const plan of [near, far]) expect(plan).toContain('not at this place in every cell: m.');
  expect(near).toContain('near. ');
  expect(far).toContain('far. ');
  for (const title of ['Assumptions', 'Cautions']) expect(page).toMatch(new RegExp(`<h2[^>]*>${title}`));
  expect(page).toContain('difference, good parts a shift');
  const other = await compare('near', layout('other', 3, 'b'), '--out', 'apart', '--full');
  expect(other.out.replace(/\s+/g, ' ')).toContain('Good parts are not compared.');
  expect(other.out).not.toContain('Differences in simulated good parts');
  expect(readFileSync(join(cwd, 'apart', 'compare.html'), 'utf8')).not.toContain('good parts a shift than');
});
