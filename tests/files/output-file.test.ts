/** A single file of results is written over only where the program wrote it and nobody changed it since. */
import { promises as fs } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { checkOutputFile, writeOutputBook, writeOutputFile } from '../../src/files/output-file.js';
import { OutputRefused } from '../../src/files/output-refused.js';
import { WriteError } from '../../src/files/write-error.js';

let folder = '';
const file = (shown: string) => ({ path: join(folder, shown), shown });

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'file-'));
});

afterEach(async () => {
  await fs.rm(folder, { recursive: true, force: true });
});

async function refusal(shown: string, content: string): Promise<string> {
  const error = await writeOutputFile(file(shown), 'new').then(
    () => null,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(OutputRefused);
  expect(await fs.readFile(join(folder, shown), 'utf8').catch(() => '')).toBe(content);
  return (error as Error).message;
}

test.each(['', 'point,1\n'])('what it wrote itself it writes over: %j', async (text) => {
  await writeOutputFile(file('sweep.csv'), text);
  await writeOutputFile(file('sweep.csv'), 'other\n');
  expect(await fs.readFile(join(folder, 'sweep.csv'), 'utf8')).toMatch(
    /^other\n# end of what roundsman wrote; SHA-256 of the lines above: [0-9a-f]{64}\n$/,
  );
  expect(await fs.readdir(folder)).toEqual(['sweep.csv']);
});

test('a workbook stays one with its seal, and is written over until somebody changes it', async () => {
  const book = zipSync({ 'a.xml': new Uint8Array([1, 2, 3]) });
  await writeOutputBook(file('sweep.xlsx'), book);
  await writeOutputBook(file('sweep.xlsx'), book);
  const written = await fs.readFile(join(folder, 'sweep.xlsx'));
  expect(unzipSync(written)).toEqual(unzipSync(book));
  // The length of the comment at the end of a zip file stands in the two bytes before it.
  const comment = written.subarray(book.length);
  expect(written.readUInt16LE(book.length - 2)).toBe(comment.length);
  written[40]! ^= 1;
  await fs.writeFile(join(folder, 'sweep.xlsx'), written);
  await expect(writeOutputBook(file('sweep.xlsx'), book)).rejects.toThrow(OutputRefused);
});

test('a file of somebody else, an empty one too, and one that was changed since are refused', async () => {
  await writeOutputFile(file('sweep.csv'), 'point,1\n');
  const changed = (await fs.readFile(join(folder, 'sweep.csv'), 'utf8')).replace('1', '2');
  for (const content of ['mine\n', '', changed, `${changed}more\n`]) {
    await fs.writeFile(join(folder, 'sweep.csv'), content);
    expect(await refusal('sweep.csv', content)).toBe(
      '`sweep.csv` is there already, and not as roundsman wrote it. Nothing was written, so that nothing is lost. Name another file, or move this one away.',
    );
  }
});

test('the name of a table is refused even where there is none', async () => {
  for (const name of ['stations.csv', 'STOPS.csv', 'base.csv'])
    expect(await refusal(name, '')).toContain('has the name of a table of a cell');
});

test('a folder, a link and a place that cannot be written are refused before the work', async () => {
  await fs.mkdir(join(folder, 'sub'));
  await fs.symlink(join(folder, 'none'), join(folder, 'link'));
  await expect(checkOutputFile(file('sub'))).rejects.toThrow('is a folder, expected the name of a file');
  await expect(checkOutputFile(file('link'))).rejects.toThrow('is a link, expected the name of a file');
  await expect(checkOutputFile({ path: '/proc/none/x.csv', shown: 'x.csv' })).rejects.toThrow(WriteError);
});
