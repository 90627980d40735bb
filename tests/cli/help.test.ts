// `help`: of a command, of the tables, and of one table.
import { describe, expect, test } from 'vitest';
import { STATION_KINDS } from '../../src/core/model/cell.js';
import { costItems } from '../../src/core/model/cost-items.js';
import { besideFormats, tableFormats } from '../../src/tables/table-formats.js';
import { freshFolder, runIn } from './run-in.js';

const run = (...args: string[]) => runIn(freshFolder(), args);

describe('help', () => {
  test('of the tables names each with what it holds', async () => {
    const said = await run('help', 'tables');
    expect(said).toMatchObject({ exit: 0, err: '' });
    for (const { file } of [...tableFormats, ...besideFormats]) expect(said.out).toContain(`\n${file} `);
  });

  test.each([...tableFormats, ...besideFormats].map((f) => [f.file, f] as const))(
    'of %s names its columns',
    async (file, format) => {
      const said = await run('help', file);
      expect(said.exit).toBe(0);
      for (const { name } of [...format.columns, ...(format.settings ?? [])])
        expect(said.out).toMatch(new RegExp(`^${name} `, 'm'));
      for (const line of said.out.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
      expect(said.out).not.toMatch(/undefined|NaN|\[object/);
    },
  );

  test('of stations explains every kind, of costs every item, of variation the order of three points', async () => {
    const { out } = await run('help', 'stations');
    for (const kind of STATION_KINDS) expect(out).toMatch(new RegExp(`^${kind} +\\w`, 'm'));
    const costs = await run('help', 'costs');
    for (const { name } of costItems) expect(costs.out).toMatch(new RegExp(`^${name} `, 'm'));
    expect((await run('help', 'variation')).out).toMatch(/^triangular +low, likely, high$/m);
  });

  test('of a command is its own help; where a table has that name too, it says how to see it', async () => {
    expect((await run('help', 'schedule')).out).toBe((await run('schedule', '--help')).out);
    const jobs = await run('help', 'jobs');
    expect(jobs.out).toContain((await run('jobs', '--help')).out);
    expect(jobs.out).toContain('The columns of jobs.csv: roundsman help jobs.csv\n');
  });

  test('of something else is a wrong use, with the nearest name', async () => {
    const said = await run('help', 'station');
    expect(said).toMatchObject({ exit: 2, out: '' });
    expect(said.err).toContain('There is no command and no table `station`. The nearest known: `stations`.');
    expect(said.err).toMatch(/^There is .* the tables\.\nOptions|^There is .* the tables\.\n$/);
  });
});
