/** A single file of results is written over only where the program wrote it and nobody changed it since. */
import { promises as fs } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { checkOutputFile, writeOutputFile } from '../../src/files/output-file.js';
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
