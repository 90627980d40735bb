// Folders that build on others, on disk: chains, circles, bases that are not there.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { renderComplaints } from '../../src/render/complaints.js';
import { soundTables } from '../tables/sound-tables.js';

const root = mkdtempSync(join(tmpdir(), 'roundsman-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

function folder(name: string, files: Readonly<Record<string, string>>): string {
  mkdirSync(join(root, name), { recursive: true });
  for (const [file, text] of Object.entries(files)) writeFileSync(join(root, name, file), text);
  return join(root, name);
}

const said = async (path: string): Promise<string> =>
  renderComplaints((await readCellFolder(path)).complaints, { colour: false }).replaceAll(root, 'ROOT');

folder('base', soundTables);

test('a chain of bases is read from the ground up, and every file is named', async () => {
  folder('two', { 'base.csv': 'folder\n../base\n', 'robot.csv': 'setting,value\nhands,2\n' });
  const path = folder('fast', { 'base.csv': 'folder\n../two\n', 'parts.csv': 'part,per_shift\ncap,150\n' });
  const { cell, complaints, inputs } = await readCellFolder(path, ['robot.index_s=1']);
  expect(complaints).toEqual([]);
  expect(cell!.robot).toMatchObject({ hands: 2, indexS: 1, speedMS: 1 });
  expect(cell!.parts[0]).toMatchObject({ perShift: 150, contribution: 4.2 });
  const files = inputs.map((i) => i.file);
  expect(files).toEqual(
    expect.arrayContaining(['base.csv', 'parts.csv', '../two/robot.csv', '../two/../base/robot.csv']),
  );
  expect(files).toHaveLength(2 + 2 + Object.keys(soundTables).length);
});

test('a fault in the base is told with the path of the base', async () => {
  folder('broken', { ...soundTables, 'robot.csv': 'setting,value\nhands,three\n' });
  const path = folder('on-broken', {
    'base.csv': 'folder\n../broken\n',
    'parts.csv': 'part,per_shift\ncap,1\n',
  });
  expect((await readCellFolder(path)).complaints).toMatchObject([
    { file: '../broken/robot.csv', line: 2, code: 'VAL05' },
  ]);
});

test('BAS01 two bases', async () => {
  expect(await said(folder('both', { 'base.csv': 'folder\n../base\n../two\n' }))).toMatchInlineSnapshot(`
    "base.csv  error BAS01
      The table names 2 folders, expected one.
      Fix: A base may have a base of its own.

    1 error in 1 file. No results.
    "
  `);
});

test('BAS02 a base that is not there', async () => {
  expect(await said(folder('lost', { 'base.csv': 'folder\n../bass\n' }))).toMatchInlineSnapshot(`
    "base.csv, column folder  error BAS02
      There is no folder \`ROOT/bass\`.
      Fix: Give the path of the base as seen from this folder, such as \`../demo\`.

    1 error in 1 file. No results.
    "
  `);
});

test('BAS03 a circle', async () => {
  folder('egg', { 'base.csv': 'folder\n../hen\n' });
  expect(await said(folder('hen', { 'base.csv': 'folder\n../egg\n' }))).toMatchInlineSnapshot(`
    "../egg/base.csv, column folder  error BAS03
      The bases refer to each other: hen to egg to hen.
      Fix: Take base.csv out of one of these folders.

    1 error in 1 file. No results.
    "
  `);
  expect(await said(folder('self', { 'base.csv': 'folder\n.\n' }))).toMatchInlineSnapshot(`
    "base.csv, column folder  error BAS03
      The bases refer to each other: self to self.
      Fix: Take base.csv out of one of these folders.

    1 error in 1 file. No results.
    "
  `);
});

test('BAS06 a table for the whole that is not there', async () => {
  const path = folder('no-stops', { 'base.csv': 'folder,whole_tables\n../base,stops\n' });
  expect(await said(path)).toMatchInlineSnapshot(`
    "base.csv, line 2, column whole_tables  error BAS06
      \`stops.csv\` is to replace that of the base, and is not in this folder.
        2 │ ../base,stops
          │         ~~~~~
      Fix: Put the table into this folder, or take its name out.

    1 error in 1 file. No results.
    "
  `);
});

test('BAS04 an unknown table', async () => {
  const path = folder('whole', { 'base.csv': 'folder,whole_tables\n../base,route;travel\n' });
  expect(await said(path)).toMatchInlineSnapshot(`
    "base.csv, line 2, column whole_tables  error BAS04
      Found \`route\`, expected the name of a table.
        2 │ ../base,route;travel
          │         ~~~~~~~~~~~~
      Fix: Did you mean \`routes\`?

    1 error in 1 file. No results.
    "
  `);
});

test('an empty base.csv is told like any other table', async () => {
  expect((await readCellFolder(folder('empty', { 'base.csv': 'folder\n' }))).complaints).toMatchObject([
    { file: 'base.csv', code: 'TAB07', severity: 'error' },
  ]);
});
