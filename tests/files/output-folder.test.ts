/** A folder of results holds one run, and nothing in it is lost that is not the program's own. */
import { promises as fs } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { checkOutputFolder, type OutputFolder, writeOutputFolder } from '../../src/files/output-folder.js';
import { OutputRefused } from '../../src/files/output-refused.js';
import { WriteError } from '../../src/files/write-error.js';
import { writeSet } from '../../src/files/write-files.js';

let root = '';
let to: OutputFolder;

beforeEach(async () => {
  root = await fs.mkdtemp(join(tmpdir(), 'run-'));
  to = { path: join(root, 'out'), shown: 'out', command: 'report', inputs: [] };
});

afterEach(async () => {
  await fs.rm(root, { recursive: true, force: true });
});

const put = (name: string, text: string) => fs.writeFile(join(to.path, name), text);
const text = (name: string) => fs.readFile(join(to.path, name), 'utf8');
const names = async () => (await fs.readdir(to.path)).sort();
const LIST = 'written-by-roundsman.json';

/** What is in the folder, before and after: a refusal must change nothing. */
async function refusal(files: Record<string, string>, more: Partial<OutputFolder> = {}): Promise<string> {
  const content = async () =>
    Promise.all((await names()).map(async (name) => [name, await fs.readFile(join(to.path, name), 'utf8')]));
  const before = await content();
  const told: string[] = [];
  for (const work of [
    () => checkOutputFolder({ ...to, ...more }, Object.keys(files)),
    () => writeOutputFolder({ ...to, ...more }, files),
  ]) {
    const error = await work().then(
      () => null,
      (e: unknown) => e,
    );
    expect(error).toBeInstanceOf(OutputRefused);
    told.push((error as Error).message);
    expect(await content()).toEqual(before);
  }
  expect(told[0]).toBe(told[1]);
  return told[0]!;
}

describe('a run takes the place of the one before', () => {
  test('files that the new one does not have go, those of others stay', async () => {
    expect(await writeOutputFolder(to, { 'a.csv': '1', 'b.csv': '2' })).toEqual(['a.csv', 'b.csv']);
    await put('notes.txt', 'mine');
    await writeOutputFolder(to, { 'a.csv': '3', 'c.csv': '4' });
    expect(await names()).toEqual(['a.csv', 'c.csv', 'notes.txt', LIST]);
    expect(await text('a.csv')).toBe('3');
  });

  test('the same run twice gives the same files', async () => {
    await writeOutputFolder(to, { 'a.csv': '1' });
    const list = await text(LIST);
    await writeOutputFolder(to, { 'a.csv': '1' });
    expect(await text(LIST)).toBe(list);
  });

  test('what was deleted by hand since is no hindrance', async () => {
    await writeOutputFolder(to, { 'a.csv': '1', 'b.csv': '2' });
    await fs.rm(join(to.path, 'a.csv'));
    await writeOutputFolder({ ...to, command: 'report' }, { 'a.csv': '3' });
    expect(await names()).toEqual(['a.csv', LIST]);
  });
});

describe('refused, and named', () => {
  test('a folder that holds a table of a cell, whatever would be written', async () => {
    await fs.mkdir(to.path);
    await put('Stations.csv', 'mine');
    expect(await refusal({ 'report.html': 'x' })).toBe(
      'The folder `out` holds tables of its own (`Stations.csv`). Nothing was written, so that nothing is lost. Name another folder.',
    );
  });

  test('a file of somebody else', async () => {
    await fs.mkdir(to.path);
    await put('a.csv', 'mine');
    expect(await refusal({ 'a.csv': '1', 'b.csv': '2' })).toContain(
      'In the folder `out`, `a.csv` is there already, and not as roundsman wrote it.',
    );
  });

  test('a file that was changed since, and one that would have to go', async () => {
    await writeOutputFolder(to, { 'a.csv': '1', 'b.csv': '2' });
    await put('b.csv', 'my remarks');
    for (const files of [{ 'b.csv': '3' }, { 'a.csv': '3' }] as Record<string, string>[])
      expect(await refusal(files)).toContain(
        'In the folder `out`, `b.csv` was changed after roundsman wrote it.',
      );
  });

  test('the files of another command', async () => {
    await writeOutputFolder(to, { 'a.csv': '1' });
    expect(await refusal({ 'z.csv': '1' }, { command: 'jobs' })).toContain(
      'The folder `out` holds the files of `report`; one of `jobs` would mix with them.',
    );
  });

  test('a folder, or a file in it, that the run reads, under whatever name', async () => {
    await writeOutputFolder(to, { 'a.csv': '1' });
    await fs.symlink(to.path, join(root, 'link'));
    for (const input of [to.path, join(root, 'link'), join(root, 'link', 'a.csv')])
      expect(await refusal({ 'a.csv': '2' }, { inputs: [input] })).toContain('This run reads `out`');
  });

  test('a list that was edited makes nothing the program’s own', async () => {
    await writeOutputFolder(to, { 'a.csv': '1' });
    await put(LIST, '{');
    expect(await refusal({ 'a.csv': '2' })).toContain('`a.csv` is there already');
  });
});

describe('all files of a set or none', () => {
  test('a name that turns out to be a folder takes all of it back', async () => {
    await writeOutputFolder(to, { 'a.csv': '1', 'z.csv': '2' });
    await fs.rm(join(to.path, 'z.csv'));
    await fs.mkdir(join(to.path, 'z.csv'));
    await expect(writeSet(to.path, { 'a.csv': 'new', 'z.csv': 'new' }, [])).rejects.toThrow(WriteError);
    expect(await text('a.csv')).toBe('1');
    expect(await names()).toEqual(['a.csv', LIST, 'z.csv'].sort());
  });

  test('a folder that cannot be made is told before the work, and at once', async () => {
    await fs.writeFile(join(root, 'file'), '');
    for (const path of [join(root, 'file', 'x', 'y'), '/proc/none/x/y'])
      await expect(checkOutputFolder({ ...to, path }, [])).rejects.toThrow(WriteError);
  });

  test('nothing stays of a folder that was only asked about', async () => {
    await checkOutputFolder({ ...to, path: join(root, 'x', 'y') }, ['a.csv']);
    expect(await fs.readdir(root)).toEqual([]);
  });
});
