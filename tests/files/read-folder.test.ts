/** What stands in the way of reading a cell's folder becomes a complaint in plain words. */
import { createHash } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { readFolder } from '../../src/files/read-folder.js';
import { renderComplaints } from '../../src/render/complaints.js';
import { soundTables } from '../tables/sound-tables.js';

let top = '';
let folder = '';

beforeEach(async () => {
  top = await fs.mkdtemp(join(tmpdir(), 'cell-'));
  folder = join(top, 'cell');
  await fs.mkdir(folder);
  for (const [file, text] of Object.entries(soundTables)) await fs.writeFile(join(folder, file), text);
});

afterEach(async () => {
  await fs.rm(top, { recursive: true, force: true });
});

/** All that is said about a folder, with the path of the test's own folder left out. */
async function saidAbout(path: string): Promise<string> {
  const { complaints } = await readCellFolder(path);
  return renderComplaints(complaints, { colour: false }).replaceAll(top, '');
}

describe('a sound folder', () => {
  test('gives the tables, and each file with its size and hash', async () => {
    const { tables, complaints, inputs, unread } = await readFolder(folder);
    expect(complaints).toEqual([]);
    expect(unread).toEqual([]);
    expect(tables).toEqual(soundTables);
    expect(inputs.map((i) => i.file)).toEqual(Object.keys(soundTables).sort());
    const robot = soundTables['robot.csv'] as string;
    const sha256 = createHash('sha256').update(robot).digest('hex');
    expect(inputs.find((i) => i.file === 'robot.csv')).toEqual({
      file: 'robot.csv',
      sha256,
      bytes: robot.length,
    });
  });

  test('gives the cell', async () => {
    const { cell, complaints } = await readCellFolder(folder);
    expect(complaints).toEqual([]);
    expect(cell?.stations).toHaveLength(6);
  });

  test('may hold hidden files, folders and files of other kinds', async () => {
    await fs.mkdir(join(folder, 'reports'));
    await fs.writeFile(join(folder, '.routes.csv.swp'), 'x');
    await fs.writeFile(join(folder, '.hidden.csv'), 'x');
    await fs.writeFile(join(folder, 'notes.txt'), 'x');
    expect(await saidAbout(folder)).toBe('');
  });

  test('is read through a link', async () => {
    await fs.rename(join(folder, 'robot.csv'), join(top, 'shared-robot.csv'));
    await fs.symlink(join(top, 'shared-robot.csv'), join(folder, 'robot.csv'));
    await fs.symlink(folder, join(top, 'link'));
    expect(await saidAbout(join(top, 'link'))).toBe('');
  });
});

describe('a folder that cannot be read', () => {
  test('FIL01 it does not exist', async () => {
    expect(await saidAbout(join(top, 'cel'))).toBe(`cel  error FIL01
  There is no folder \`/cel\`.
  Fix: Name the folder that holds stations.csv, routes.csv and robot.csv, or the workbook with sheets of these names.

1 error in 1 file. No results.
`);
  });

  test('FIL02 it is a file', async () => {
    expect(await saidAbout(join(folder, 'robot.csv'))).toBe(`robot.csv  error FIL02
  \`/cell/robot.csv\` is a file, expected a folder or a workbook (.xlsx or .ods).
  Fix: Name the folder that holds stations.csv, routes.csv and robot.csv, or the workbook with sheets of these names.

1 error in 1 file. No results.
`);
  });

  test('FIL02 the path leads through a file', async () => {
    expect(await saidAbout(join(folder, 'robot.csv', 'deeper'))).toBe(`deeper  error FIL02
  \`/cell/robot.csv/deeper\` leads through a file, expected a folder.
  Fix: Name the folder that holds stations.csv, routes.csv and robot.csv, or the workbook with sheets of these names.

1 error in 1 file. No results.
`);
  });

  test('FIL03 its links go round in a circle', async () => {
    await fs.symlink(join(top, 'loop'), join(top, 'loop'));
    expect(await saidAbout(join(top, 'loop'))).toBe(`loop  error FIL03
  The folder \`/loop\` cannot be read: its links refer to each other.
  Fix: Check that you may read it.

1 error in 1 file. No results.
`);
  });

  test.skipIf(process.getuid?.() === 0)('FIL03 access is denied', async () => {
    await fs.chmod(folder, 0o000);
    const said = await saidAbout(folder);
    await fs.chmod(folder, 0o700);
    expect(said).toBe(`cell  error FIL03
  The folder \`/cell\` cannot be read: access is denied.
  Fix: Check that you may read it.

1 error in 1 file. No results.
`);
  });

  test('FIL04 it is empty', async () => {
    await fs.mkdir(join(top, 'empty'));
    expect(await saidAbout(join(top, 'empty'))).toBe(`empty  error FIL04
  The folder \`/empty\` holds no file that ends in .csv.
  Fix: Name the folder that holds stations.csv, routes.csv and robot.csv, or the workbook with sheets of these names.

1 error in 1 file. No results.
`);
  });
});

describe('a table that cannot be read', () => {
  test('FIL03 its link leads nowhere', async () => {
    await fs.rm(join(folder, 'robot.csv'));
    await fs.symlink(join(top, 'gone'), join(folder, 'robot.csv'));
    expect(await saidAbout(folder)).toBe(`robot.csv  error FIL03
  The table cannot be read: it is not there.
  Fix: Check that you may read it.

1 error in 1 file. No results.
`);
  });

  test('FIL05 it has 100 MB, and is not read', async () => {
    await fs.truncate(join(folder, 'travel.csv'), 100 * 1024 * 1024);
    expect(await saidAbout(folder)).toBe(`travel.csv  error FIL05
  The table has 104857600 bytes, at most 8388608 (8 MB) are read.
  Fix: Leave out rows that the cell does not use, or check that this is the right file.

1 error in 1 file. No results.
`);
    const { tables, inputs } = await readFolder(folder);
    expect(Object.keys(tables)).not.toContain('travel.csv');
    expect(inputs.map((i) => i.file)).not.toContain('travel.csv');
  });

  test('FIL06 it is a folder', async () => {
    await fs.rm(join(folder, 'stations.csv'));
    await fs.mkdir(join(folder, 'stations.csv'));
    expect(await saidAbout(folder)).toBe(`stations.csv  error FIL06
  The table is not an ordinary file.
  Fix: Put the table itself in its place.

1 error in 1 file. No results.
`);
  });

  test('a workbook with the name of a table', async () => {
    await fs.writeFile(join(folder, 'parts.csv'), Buffer.from([0x50, 0x4b, 3, 4, 0x14, 0, 6, 0, 0xff, 0xfe]));
    expect(await saidAbout(folder)).toBe(`parts.csv  error TAB04
  The file is not a text table: it holds NUL characters.
  Fix: Save the sheet as CSV in UTF-8; a workbook or \`Unicode text\` cannot be read.

1 error in 1 file. No results.
`);
  });

  test.each([
    ['Latin-1', 'latin1', '', 'Windows-1252 (Latin-1)'],
    ['UTF-16', 'utf16le', '\uFEFF', 'UTF-16'],
    ['UTF-16 without a mark', 'utf16le', '', 'UTF-16'],
  ] as const)('a table in %s is read, and check names it', async (_form, encoding, mark, named) => {
    const text = (soundTables['stops.csv'] as string).replace('tool change', 'Spänewechsel');
    await fs.writeFile(join(folder, 'stops.csv'), Buffer.from(mark + text, encoding));
    const { cell, readAs } = await readCellFolder(folder);
    expect(cell?.stops[0]?.name).toBe('Spänewechsel');
    expect(readAs.map(({ file, taken }) => [file, taken])).toEqual([['stops.csv', named]]);
  });

  test('TAB05 a table that is UTF-8 for the most part', async () => {
    const text = (soundTables['stops.csv'] as string).replace('tool change', 'Spänewechsel é?');
    const bytes = Buffer.from(text);
    bytes[bytes.indexOf('?')] = 0xe4;
    await fs.writeFile(join(folder, 'stops.csv'), bytes);
    expect(await saidAbout(folder)).toBe(`stops.csv, line 2  error TAB05
  Found a character that is not UTF-8.
    2 │ mill_1,Spänewechsel é\uFFFD,50,,4,yes
      │                      ~
  Fix: Save the table as CSV in UTF-8; older spreadsheets save in the code page of the country.

1 error in 1 file. No results.
`);
  });

  test('does not hide the faults of the other tables', async () => {
    await fs.truncate(join(folder, 'routes.csv'), 100 * 1024 * 1024);
    await fs.writeFile(join(folder, 'parts.csv'), 'part,ratio\ncap,x\n');
    await fs.writeFile(join(folder, 'notes.csv'), 'x\n');
    const { cell, complaints } = await readCellFolder(folder);
    expect(cell).toBeNull();
    expect(complaints.map((c) => `${c.file} ${c.code}`)).toEqual([
      'notes.csv TAB02',
      'parts.csv VAL02',
      'routes.csv FIL05',
    ]);
  });
});
