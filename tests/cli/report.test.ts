// `report` from outside: what it writes, that any number of threads writes the same, and that nothing is written where it cannot.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { quickShop } from '../support/quick-shop.js';
import { isDeep } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const shop = quickShop(join(cwd, 'shop'));
const texts = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(cwd, folder)).map((name) => [name, readFileSync(join(cwd, folder, name), 'utf8')]),
  );

describe('a cell with every table', () => {
  // biome-ignore lint/suspicious/noExplicitAny: a JSON result
  let result: any;

  test('ends with the answer on screen and its files in reports/', async () => {
    const said = await runIn(cwd, ['report', shop]);
    expect(said.err).toBe('');
    expect(said.exit).toBe(0);
    expect(said.out).toMatch(/^The cell makes [\d.]+ parts an hour/m);
    expect(said.out.trimEnd().split('\n').length).toBeLessThanOrEqual(16);
    const names = Object.keys(texts('reports'));
    expect(names).toContain('report.html');
    const tables = names.filter((name) => name.endsWith('.csv')).length;
    expect(said.out.replace(/\s+/g, ' ')).toMatch(
      new RegExp(`Open reports/report\\.html\\. Beside it: .*report\\.xlsx.* and ${tables} CSV tables\\.`),
    );
    expect(names.filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  test('on one thread the files are the same, to the letter', async () => {
    const said = await runIn(cwd, ['report', shop, '--out', 'one', '--workers', '1', '--json']);
    expect(said.exit).toBe(0);
    expect(texts('one')).toEqual(texts('reports'));
    result = JSON.parse(said.out);
    expect(result).toMatchObject({ command: 'report', schedule: { partSet: { proven: true } } });
    expect(result.costcase.status).toBe('found');
    expect(result.shifts.patterns.length).toBeGreaterThan(1);
    expect(result.written).toContain('one/report.html');
    expect(result.assumptions.length).toBeGreaterThan(5);
    const page = texts('one')['report.html']!;
    for (const { text } of result.cautions.slice(0, 3)) expect(page).toContain(text);
    for (const { sha256 } of result.inputs) expect(page).toContain(sha256);
    expect(page.length).toBeLessThan(1_500_000);
  });

  // For schedule, shifts and the cost case tests/relations/one-figure.test.ts does the same through every output.
  test('its figures are those of the commands', async () => {
    const json = async (args: readonly string[]) => JSON.parse((await runIn(cwd, [...args, '--json'])).out);
    expect(result.schedule.whatIf).toEqual((await json(['schedule', shop])).whatIf);
    const { plans, best } = await json(['jobs', shop]);
    expect(result.jobs.plans).toEqual(plans);
    expect(result.jobs.best).toBe(best);
    if (!isDeep) return;
    expect(result.size.rows).toEqual((await json(['size', shop])).rows);
    const simulated = await json(['simulate', shop]);
    expect(result.simulate.partsPerShift).toEqual(simulated.partsPerShift);
  });
});

test('a change of one cell is told on the page', async () => {
  const { out } = await runIn(cwd, [
    ...['report', data('two-hands'), '--out', 'changed', '--set', 'robot.hands=1', '--json'],
  ]);
  expect(JSON.parse(out).assumptions[0]).toContain('robot.hands is 1, as the command line says');
  expect(texts('changed')['report.html']).toContain('A robot with a single gripper');
  expect(texts('changed')['report.html']).toContain('robot.hands is 1, as the command line says');
});

test('further folders are compared with the first', async () => {
  mkdirSync(join(cwd, 'slow'));
  writeFileSync(join(cwd, 'slow', 'base.csv'), `folder\n${data('two-hands')}\n`);
  writeFileSync(join(cwd, 'slow', 'robot.csv'), 'setting,value\nhands,1\n');
  const said = await runIn(cwd, ['report', data('two-hands'), 'slow', '--out', 'two', '--json']);
  expect(said.err).toBe('');
  const { compare } = JSON.parse(said.out);
  expect(compare.cells).toHaveLength(2);
  const page = texts('two')['report.html']!;
  expect(page).toContain('>Which layout?<');
  expect(page).toContain('robot.csv: robot.hands: 2, then 1');
  expect(texts('two')).toHaveProperty(['compare.csv']);
});

describe('nothing is written', () => {
  test('where there is no sequence', async () => {
    const said = await runIn(cwd, ['report', data('no-schedule'), '--out', 'none']);
    expect(said.exit).toBe(3);
    expect(said.out).toBe('');
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('where a table is wrong: all complaints of all folders', async () => {
    const said = await runIn(cwd, ['report', shop, '/no/such/folder', '--out', 'none']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('There is no folder `/no/such/folder`.');
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('where a cost item is out of its range', async () => {
    const said = await runIn(cwd, ['report', shop, '--out', 'none', '--set', 'costs.discount_pct=-100']);
    expect(said.exit).toBe(1);
    expect(said.err).toContain('discount_pct');
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('where a folder is given twice', async () => {
    const said = await runIn(cwd, ['report', shop, shop]);
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
