/** A file that the user names, read or complained of. */
import { promises as fs } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readNamedFile } from '../../src/files/read-table-file.js';
import { renderComplaints } from '../../src/render/complaints.js';

let folder = '';
beforeAll(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'readings-'));
});
afterAll(() => fs.rm(folder, { recursive: true, force: true }));

async function said(name: string): Promise<string> {
  const { text, complaint } = await readNamedFile(join(folder, name));
  expect(text).toBeNull();
  return renderComplaints([complaint!], { colour: false }).replaceAll(folder, '');
}

test('a file gives its text and hash', async () => {
  await fs.writeFile(join(folder, 'watch.csv'), 'element,seconds\n');
  const { text, input } = await readNamedFile(join(folder, 'watch.csv'));
  expect(text).toBe('element,seconds\n');
  expect(input).toMatchObject({ file: 'watch.csv', bytes: 16 });
  expect(input!.sha256).toMatch(/^[0-9a-f]{64}$/);
});

test('FIL07 a file that is not there', async () => {
  expect(await said('wotch.csv')).toBe(`wotch.csv  error FIL07
  There is no file \`/wotch.csv\`.
  Fix: Check the path; it is read from the folder in which the command runs.

1 error in 1 file. No results.
`);
});

test('a folder in the place of the file', async () => {
  await fs.mkdir(join(folder, 'cell.csv'));
  expect(await said('cell.csv')).toContain(
    'cell.csv  error FIL06\n  `/cell.csv` is a folder, expected a file.',
  );
});

test('a path through a file', async () => {
  await fs.writeFile(join(folder, 'notes.txt'), 'x');
  expect(await said('notes.txt/watch.csv')).toContain('There is no file `/notes.txt/watch.csv`.');
});
