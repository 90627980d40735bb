// `report` from outside: what it writes, that any number of threads writes the same, and that nothing is written where it cannot.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { sharedShop, shopJson, shopReport } from '../support/shop-answers.js';
import { deepTest, isDeep } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const texts = (folder: string): Record<string, string> =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]));

describe('a cell with every table', () => {
  // biome-ignore lint/suspicious/noExplicitAny: a JSON result
  let result: any;
  let folder: string;

  beforeAll(async () => {
    ({ result, folder } = await shopReport());
  });

  test('its answer names the files that are there, and the page has what it rests on', () => {
    expect(result).toMatchObject({ command: 'report', schedule: { partSet: { proven: true } } });
    expect(result.costcase.status).toBe('found');
    expect(result.shifts.patterns.length).toBeGreaterThan(1);
    expect(result.written).toContain('report/report.html');
    const names = result.written.map((path: string) => basename(path));
    expect([...names, 'written-by-roundsman.json'].sort()).toEqual(readdirSync(folder).sort());
    expect(result.assumptions.length).toBeGreaterThan(5);
    const page = readFileSync(join(folder, 'report.html'), 'utf8');
    const words = page.replaceAll(/<\/?span[^>]*>/g, '');
    for (const { text } of result.cautions.slice(0, 3)) expect(words).toContain(text);
    for (const { sha256 } of result.inputs) expect(page).toContain(sha256);
    expect(page.length).toBeLessThan(1_500_000);
  });

  deepTest('on several threads the files are the same, to the letter', async () => {
    expect((await runIn(cwd, ['report', sharedShop, '--out', 'threads', '--workers', '3'])).exit).toBe(0);
    expect(texts(join(cwd, 'threads'))).toEqual(texts(folder));
  });

  // For schedule, shifts and the cost case tests/relations/one-figure.test.ts does the same through every output.
  test('its figures are those of the commands', async () => {
    expect(result.schedule.whatIf).toEqual((await shopJson('schedule')).whatIf);
    const { plans, best } = await shopJson('jobs');
    expect(result.jobs.plans).toEqual(plans);
    expect(result.jobs.best).toBe(best);
    if (!isDeep) return;
    expect(result.size.rows).toEqual((await shopJson('size')).rows);
    expect(result.simulate.partsPerShift).toEqual((await shopJson('simulate')).partsPerShift);
  });
});

test('ends with the answer on screen and its files in reports/, and tells a change of the cell', async () => {
  // Long times: a week of few parts, and few machines that its robot could tend.
  const dual = firstCell({ cyclesS: [300], loadS: 60, unloadS: 40 });
  mkdirSync(join(cwd, 'dual'));
  for (const [file, text] of Object.entries(dual))
    writeFileSync(join(cwd, 'dual', file), text.replace('hands,1', 'hands,2'));
  const said = await runIn(cwd, ['report', 'dual', '--set', 'robot.hands=1']);
  expect(said).toMatchObject({ exit: 0, err: '' });
  expect(said.out).toMatch(/^The cell makes [\d.]+ parts an hour/m);
  expect(said.out.trimEnd().split('\n').length).toBeLessThanOrEqual(16);
  const names = readdirSync(join(cwd, 'reports'));
  expect(names).toContain('report.html');
  const tables = names.filter((name) => name.endsWith('.csv')).length;
  expect(said.out.replace(/\s+/g, ' ')).toMatch(
    new RegExp(`Open reports/report\\.html\\. Beside it: .*report\\.xlsx.* and ${tables} CSV tables\\.`),
  );
  expect(names.filter((name) => name.endsWith('.tmp'))).toEqual([]);
  const page = texts(join(cwd, 'reports'))['report.html']!;
  expect(page).toContain('A robot with a single gripper');
  expect(page).toContain('robot.hands is 1, as the command line says');
});

deepTest('further folders are compared with the first', async () => {
  mkdirSync(join(cwd, 'slow'));
  writeFileSync(join(cwd, 'slow', 'base.csv'), `folder\n${data('two-hands')}\n`);
  writeFileSync(join(cwd, 'slow', 'robot.csv'), 'setting,value\nhands,1\n');
  const said = await runIn(cwd, ['report', data('two-hands'), 'slow', '--out', 'two', '--json']);
  expect(said.err).toBe('');
  const { compare } = JSON.parse(said.out);
  expect(compare.cells).toHaveLength(2);
  const page = texts(join(cwd, 'two'))['report.html']!;
  expect(page).toContain('>Which layout?<');
  expect(page).toContain('robot.csv: robot.hands: 2, then 1');
  expect(texts(join(cwd, 'two'))).toHaveProperty(['compare.csv']);
});

describe('nothing is written', () => {
  test('where there is no sequence', async () => {
    const said = await runIn(cwd, ['report', data('no-schedule'), '--out', 'none']);
    expect(said.exit).toBe(3);
    expect(said.out).toBe('');
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('where a table is wrong: all complaints of all folders', async () => {
    const said = await runIn(cwd, ['report', sharedShop, '/no/such/folder', '--out', 'none']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('There is no folder `/no/such/folder`.');
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('where a cost item is out of its range', async () => {
    const said = await runIn(cwd, [
      'report',
      sharedShop,
      '--out',
      'none',
      '--set',
      'costs.discount_pct=-100',
    ]);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('discount_pct');
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('where a folder is given twice', async () => {
    const said = await runIn(cwd, ['report', sharedShop, sharedShop]);
    expect(said.exit).toBe(2);
    expect(said.err).toContain('is given twice');
  });

  test('where the folder to write into is a file', async () => {
    writeFileSync(join(cwd, 'taken'), '');
    const said = await runIn(cwd, ['report', data('two-hands'), '--out', 'taken']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('taken');
    expect(said.err).not.toContain('    at ');
  });
});
