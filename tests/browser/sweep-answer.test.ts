// A figure drawn against one number: each point is that of the command `sweep`, and every number of the tables can be slid.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sweepAnswer } from '../../src/browser/engine/sweep-answer.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { numbersOf, slideValues } from '../../src/browser/state/slide.js';
import type { Tables } from '../../src/tables/inspect-tables.js';
import { applySettings } from '../../src/tables/overrides/apply-settings.js';
import { plainLayer } from '../../src/tables/overrides/layered-tables.js';
import { data, freshFolder, runIn } from '../cli/run-in.js';
import { atSize } from '../support/size.js';

const tablesOf = (name: string): Tables =>
  Object.fromEntries(
    readdirSync(data(name))
      .filter((file) => file.endsWith('.csv'))
      .map((file) => [file, readFileSync(`${data(name)}/${file}`, 'utf8')]),
  );

const cwd = freshFolder();
const small = firstCell({ cyclesS: [90], loadS: 5, unloadS: 4 });

const POINTS: readonly [Tables, string, readonly string[], string][] = [
  [small, 'routes.part.2.cycle_s', ['60', '90'], 'schedule.periodS'],
  ...atSize<[Tables, string, string[], string][]>(
    [],
    [[tablesOf('two-hands'), 'robot.index_s', ['1', '3.5'], 'schedule.partsPerH.total']],
  ),
];

test.each(POINTS)('$1: the points of the command', async (tables, path, values, figure) => {
  for (const [file, text] of Object.entries(tables)) writeFileSync(join(cwd, file), text);
  const number = numbersOf(tables).find((of) => of.path === path);
  expect(number, path).toBeDefined();
  const { value: now, unit } = number!;
  const done: number[] = [];
  const { result, blocks } = await sweepAnswer({ tables, path, values, figure, unit, now }, null, (k) =>
    done.push(k),
  );
  const said = await runIn(cwd, [
    'sweep',
    '.',
    '--sweep',
    `${path}=${values.join(',')}`,
    '--figure',
    figure,
    '--workers',
    '1',
    '--json',
  ]);
  const { sweeps, figures, points, rows } = JSON.parse(said.out);
  expect(result.fields).toEqual({ sweeps, figures, points, rows });
  expect(blocks.map(({ kind }) => kind)).toEqual(['chart']);
  expect(done).toEqual(values.map((_, k) => k + 1));
});

test('a value that the tables refuse is a gap, with the reader’s own words', async () => {
  const wanted = {
    tables: tablesOf('two-hands'),
    path: 'robot.hands',
    unit: '',
    now: 2,
    figure: 'schedule.periodS',
  };
  const { blocks, result } = await sweepAnswer({ ...wanted, values: ['1', '2', '3'] }, null, () => undefined);
  expect((result.fields.rows as { figures: unknown[] }[]).map(({ figures }) => figures.length)).toEqual([
    1, 1, 0,
  ]);
  expect(blocks.map(({ kind }) => kind)).toEqual(['chart', 'paragraph']);
  expect(JSON.stringify(blocks[1])).toContain('No figure at 3: ');
});

test.each(['two-hands', 'starter', 'demo'])(
  '%s: every number is found by the path that changes it',
  (name) => {
    const tables = tablesOf(name);
    for (const { path, value } of numbersOf(tables)) {
      const { complaints } = applySettings(plainLayer(tables), [`${path}=${value}`]);
      expect(complaints, path).toEqual([]);
    }
    expect(numbersOf(tables).length).toBeGreaterThan(10);
  },
);

test('the slider runs from half to one and a half times the value, or between given ends, each value once', () => {
  expect(slideValues(100, { from: null, to: null })).toEqual(
    Array.from({ length: 21 }, (_, k) => String(50 + 5 * k)),
  );
  expect(slideValues(2, { from: 1, to: 2 })).toEqual(['1', '2']);
  expect(slideValues(0, { from: null, to: null }).at(-1)).toBe('10');
  expect(slideValues(0.5, { from: 0.1, to: 0.3 })).toHaveLength(21);
});
