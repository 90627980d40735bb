// A folder as a spreadsheet saves it where the comma is the decimal mark: what is written beside it opens there too.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { readGrids } from '../../src/workbook/read-grids.js';
import { deepTest } from '../support/size.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();

/** The starter with semicolons and decimal commas. */
function semicolons(): void {
  mkdirSync(join(cwd, 'cell'));
  for (const file of readdirSync(data('starter'))) {
    const lines = readFileSync(join(data('starter'), file), 'utf8').split('\n');
    const turned = lines.map((line) => {
      if (line === '' || line.startsWith('#')) return line;
      const [cells = []] = parse(line, { relax_quotes: true }) as string[][];
      return cells
        .map((cell) => (/^-?\d+\.\d+$/.test(cell) ? cell.replace('.', ',') : `"${cell}"`))
        .join(';');
    });
    writeFileSync(join(cwd, 'cell', file), turned.join('\n'));
  }
}

deepTest('tables, logs and sweeps take the form of the tables read, and are read back', async () => {
  semicolons();
  const run = async (...args: string[]) => {
    const said = await runIn(cwd, args);
    expect(said.err).toBe('');
    return said.out;
  };
  const log = ['simulate', 'cell', '--replications', '1', '--hours', '1', '--dispatch', 'first', '--log'];
  await run(...log, 'run.csv');
  expect(readFileSync(join(cwd, 'run.csv'), 'utf8')).toMatch(
    /^time;station;signal;part\n\d+,\d{3};rack;pick;cap\n/,
  );
  await run(...log, 'plain.csv', '--csv', 'comma-point');
  const figuresOf = async (file: string): Promise<unknown> => {
    const { stations, robot } = JSON.parse(await run('log', file, 'cell', '--json', '--out', `of-${file}.d`));
    return { stations, robot };
  };
  expect(await figuresOf('run.csv')).toEqual(await figuresOf('plain.csv'));
  expect(readFileSync(join(cwd, 'of-plain.csv.d/log-figures.csv'), 'utf8')).toMatch(
    /\n\w+;;;unload;\d+;\d+,\d+;/,
  );
  await run('readings', 'cell/readings.csv', 'cell', '--out', 'measured');
  expect(readFileSync(join(cwd, 'measured/travel.csv'), 'utf8')).toContain('rack;mill_1;2,421;2,5667\n');
  expect(JSON.parse(await run('check', 'measured', '--json')).assumptions.join()).toContain(
    'builds on ../cell',
  );
  const sweep = ['sweep', 'cell', '--sweep', 'stations.mill_1.ready_s=0,1.5', '--figure', 'schedule.boundS'];
  await run(...sweep, '--nodes', '10', '--part', '1/2', '--out', 'one.csv');
  await run(...sweep, '--nodes', '10', '--part', '2/2', '--out', 'two.csv');
  await run('sweep', '--merge', 'two.csv', 'one.csv', '--out', 'both.csv');
  expect(readFileSync(join(cwd, 'both.csv'), 'utf8')).toMatch(/\n1;0;[a-z ]+;[\d,]+\n2;1,5;/);
  await run(...sweep, '--nodes', '10', '--out', 'both.ods');
  const { names, grids } = await readGrids(readFileSync(join(cwd, 'both.ods')), 'ods', () => true);
  expect(names).toEqual(['answer', 'points']);
  expect(grids[1]!.rows.size).toBe(3);
});

test('a form that is none is refused with those that there are', async () => {
  const said = await runIn(cwd, ['jobs', data('starter'), '--csv', 'tabs']);
  expect(said.exit).toBe(2);
  expect(said.err).toMatch(/comma-point, semicolon-comma, semicolon-point/);
});
