// The starter workbook: its tables are those of the starter folder, and it explains itself.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Cell } from '../../src/core/model/cell.js';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { tableFormats } from '../../src/tables/table-formats.js';
import { freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();

beforeAll(async () => {
  await runIn(cwd, ['init', 'shop']);
});

function withoutPlaces(cell: Cell | null): unknown {
  return JSON.parse(JSON.stringify(cell, (key, value) => (key === 'at' ? undefined : value)));
}

async function elementsOf(file: string): Promise<unknown> {
  // Lines differ: the table of the folder begins with comments.
  return JSON.parse((await runIn(cwd, ['readings', file, '--json'])).out, (key, value) =>
    key === 'line' ? undefined : value,
  ).elements;
}

let inFolder: Promise<unknown> | undefined;
function ofFolder(): Promise<unknown> {
  inFolder ??= elementsOf('shop/readings.csv');
  return inFolder;
}

describe.each(['xlsx', 'ods'])('%s', (kind) => {
  const name = `my cell.${kind}`;

  test('is written once, and says what to run next', async () => {
    const said = await runIn(cwd, ['init', name]);
    expect(said).toMatchObject({ exit: 0, err: '' });
    expect(said.out).toContain(`Wrote \`${name}\` with ${tableFormats.length} tables, each on a sheet`);
    expect(said.out).toContain(`  roundsman check "${name}"\n`);
    const before = readFileSync(join(cwd, name));
    const again = await runIn(cwd, ['init', name]);
    expect(again).toMatchObject({ exit: 1, out: '' });
    expect(again.err).toContain('is there already. Nothing was written');
    expect(readFileSync(join(cwd, name)).equals(before)).toBe(true);
  });

  test('holds the cell of the starter folder, with nothing to complain of or to ask about', async () => {
    const folder = await readCellFolder(join(cwd, 'shop'));
    const book = await readCellFolder(join(cwd, name));
    expect(book.complaints).toEqual([]);
    expect(book.readAs).toEqual([]);
    expect(withoutPlaces(book.cell)).toEqual(withoutPlaces(folder.cell));
  });

  test('its readings are those of the starter folder', async () => {
    expect(await elementsOf(name)).toEqual(await ofFolder());
  });
});

test('every column has a note, words a drop-down, and the headers stay in sight', () => {
  const parts = unzipSync(readFileSync(join(cwd, 'my cell.xlsx')));
  const text = (part: string): string => strFromU8(parts[part]!);
  // The guide is the first sheet, stations the second, routes the third.
  expect(text('xl/worksheets/sheet2.xml')).toContain('<pane ySplit="1"');
  expect(text('xl/worksheets/sheet2.xml')).toMatch(
    /<dataValidation [^>]*sqref="B2:B301"[^>]*>\s*<formula1>"infeed,outfeed/,
  );
  const notes = text('xl/comments3.xml').match(/<comment /g);
  expect(notes).toHaveLength(tableFormats.find((f) => f.file === 'routes.csv')!.columns.length);
  expect(text('xl/workbook.xml')).toContain('name="read me"');
});
