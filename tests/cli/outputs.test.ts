// What `--out` and `--log` may not write over, from outside: every command, with the cell as it was before.
import { cpSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { REPORT_FILES } from '../../src/render/report-page/report-files.js';
import { besideFiles, tableFiles } from '../../src/tables/table-formats.js';
import { data, freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
for (const [from, name] of [
  ['two-hands', 'cell'],
  ['wash-line', 'other'],
] as const)
  cpSync(data(from), join(cwd, name), { recursive: true });

function content(folder: string): Record<string, string> {
  const names = readdirSync(folder).sort();
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
}

const SWEEP = ['sweep', '.', '--sweep', 'robot.cost_per_h=1,2', '--workers', '1'];

describe.each([
  [['report', '.', '--out', '.'], 1, 'holds tables of its own'],
  [['report', '.', '--out', '../other'], 1, 'holds tables of its own'],
  [['report', '.', '--out', ''], 2, '`--out` needs the name of a folder; the one given is empty.'],
  [['costcase', '.', '--out', '.'], 1, 'holds tables of its own'],
  [['jobs', '.', '--out', '../other'], 1, 'holds tables of its own'],
  [['log', '../run.csv', '.', '--out', '.'], 1, 'holds tables of its own'],
  [['readings', '../watch.csv', '.', '--out', '.'], 1, 'holds tables of its own'],
  [[...SWEEP, '--out', 'stations.csv'], 1, 'has the name of a table of a cell'],
  [[...SWEEP, '--out', 'stops.csv'], 1, 'has the name of a table of a cell'],
  [[...SWEEP, '--out', ' '], 2, '`--out` needs the name of a file'],
  [['simulate', '.', '--log', 'stations.csv'], 1, 'has the name of a table of a cell'],
  [['simulate', '.', '--log', '../other/routes.csv'], 1, 'has the name of a table of a cell'],
  [['init', ''], 2, 'The name of a file or folder is empty.'],
  [['report', '.', '--out', '/proc/none/x/y'], 1, '`/proc/none/x/y` cannot be written'],
  [[...SWEEP, '--out', '/proc/none/x.csv'], 1, '`/proc/none` cannot be written'],
] as const)('%j', (args, exit, words) => {
  test('is refused before the work, and nothing changes', async () => {
    const before = [content(join(cwd, 'cell')), content(join(cwd, 'other'))];
    const said = await runIn(join(cwd, 'cell'), args);
    expect(said.err.replace(/\s+/g, ' ')).toContain(words);
    expect(said.out).toBe('');
    expect(said.exit).toBe(exit);
    expect([content(join(cwd, 'cell')), content(join(cwd, 'other'))]).toEqual(before);
  });
});

test('a refusal is told as JSON too', async () => {
  const said = await runIn(join(cwd, 'cell'), ['report', '.', '--out', '.', '--json']);
  expect(said.exit).toBe(1);
  expect(JSON.parse(said.out)).toMatchObject({ status: 'refused', reason: expect.stringContaining('`.`') });
});

test('no file of a report has the name of a table', () => {
  for (const name of REPORT_FILES) expect([...tableFiles, ...besideFiles, 'base.csv']).not.toContain(name);
});

test('a sweep writes over its own file, and over no other', async () => {
  const sweep = (values: string) =>
    runIn(cwd, [
      'sweep',
      'cell',
      '--sweep',
      `robot.cost_per_h=${values}`,
      '--workers',
      '1',
      '--out',
      's.csv',
    ]);
  expect(await sweep('1,2')).toMatchObject({ exit: 0, err: '' });
  expect(await sweep('3,4')).toMatchObject({ exit: 0, err: '' });
  expect(readFileSync(join(cwd, 's.csv'), 'utf8')).toContain('\n2,4,');
});

test('the parts of a sweep are put together into no one of them', async () => {
  const part = async (k: number): Promise<string> => {
    const file = `part${k}.csv`;
    const args = ['sweep', 'cell', '--sweep', 'robot.cost_per_h=1,2', '--workers', '1', '--part', `${k}/2`];
    expect(await runIn(cwd, [...args, '--out', file])).toMatchObject({ exit: 0 });
    return readFileSync(join(cwd, file), 'utf8');
  };
  const before = [await part(1), await part(2)];
  const said = await runIn(cwd, ['sweep', '--merge', 'part1.csv', 'part2.csv', '--out', './part1.csv']);
  expect(said).toMatchObject({ exit: 1, out: '' });
  expect(said.err).toMatch(/^This run reads `\.\/part1\.csv`\. Nothing was written/);
  expect(['part1.csv', 'part2.csv'].map((file) => readFileSync(join(cwd, file), 'utf8'))).toEqual(before);
});
