/** Files are written whole or not at all, and nothing is left beside them. */
import { promises as fs } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { WriteError } from '../../src/files/write-error.js';
import { writeAtomically, writeFiles } from '../../src/files/write-files.js';

let folder = '';

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'out-'));
});

afterEach(async () => {
  await fs.rm(folder, { recursive: true, force: true });
});

async function messageOf(work: Promise<unknown>): Promise<string> {
  const caught = await work.then(
    () => null,
    (error: unknown) => error,
  );
  expect(caught).toBeInstanceOf(WriteError);
  return (caught as WriteError).message.replaceAll(folder, '');
}

describe('writeAtomically', () => {
  test('writes UTF-8 and leaves nothing beside the file', async () => {
    await writeAtomically(join(folder, 'plan.txt'), 'Fräser │ 4 s\n');
    expect(await fs.readFile(join(folder, 'plan.txt'), 'utf8')).toBe('Fräser │ 4 s\n');
    expect(await fs.readdir(folder)).toEqual(['plan.txt']);
  });

  test('replaces an old file by another, so that a reader of the old one keeps it whole', async () => {
    const path = join(folder, 'plan.txt');
    await writeAtomically(path, 'old');
    const reader = await fs.open(path);
    await writeAtomically(path, 'new');
    expect(await reader.readFile('utf8')).toBe('old');
    await reader.close();
    expect(await fs.readFile(path, 'utf8')).toBe('new');
  });

  test('makes the folders on the way', async () => {
    await writeAtomically(join(folder, 'a', 'b', 'plan.txt'), 'x');
    expect(await fs.readFile(join(folder, 'a', 'b', 'plan.txt'), 'utf8')).toBe('x');
  });

  test('says why it cannot, and leaves the folder as it was', async () => {
    await fs.mkdir(join(folder, 'plan.txt'));
    expect(await messageOf(writeAtomically(join(folder, 'plan.txt'), 'x'))).toBe(
      '`/plan.txt` cannot be written: it is a folder',
    );
    expect(await fs.readdir(folder)).toEqual(['plan.txt']);
  });

  test('says so when the folder is a file', async () => {
    await fs.writeFile(join(folder, 'reports'), '');
    expect(await messageOf(writeAtomically(join(folder, 'reports', 'plan.txt'), 'x'))).toBe(
      '`/reports` cannot be written: a file is where the folder should be',
    );
  });

  test('says so when the name is too long', async () => {
    const name = 'n'.repeat(300);
    expect(await messageOf(writeAtomically(join(folder, name), 'x'))).toBe(
      `\`/${name}\` cannot be written: the path is too long`,
    );
    expect(await fs.readdir(folder)).toEqual([]);
  });
});

describe('writeFiles', () => {
  test('writes all of them and tells the paths', async () => {
    const out = join(folder, 'reports');
    const paths = await writeFiles(out, { 'b.csv': '2', 'a.csv': '1' });
    expect(paths).toEqual([join(out, 'a.csv'), join(out, 'b.csv')]);
    expect(await fs.readdir(out)).toEqual(['a.csv', 'b.csv']);
    expect(await fs.readFile(join(out, 'b.csv'), 'utf8')).toBe('2');
  });

  test.each(['../a.csv', 'a/b.csv', 'a\\b.csv', '..', '.', '', 'a\0'])(
    'refuses the name %j before writing',
    async (name) => {
      await expect(writeFiles(folder, { 'ok.csv': '1', [name]: '2' })).rejects.toThrow(RangeError);
      expect(await fs.readdir(folder)).toEqual([]);
    },
  );
});
