// Files opened on the page: folders, zips and folders that build on one another, in any encoding that the command reads.
import { strToU8 } from 'fflate';
import { expect, test } from 'vitest';
import { deskInFolders, foldersOf } from '../../src/browser/shell/desk-folders.js';
import { cellHash, deskInHash } from '../../src/browser/shell/link.js';
import { type OpenedFile, openedDesk } from '../../src/browser/shell/open-files.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { type Desk, deskOf, EMPTY_DESK, savedForm } from '../../src/browser/state/desk.js';
import { withCells } from '../../src/browser/state/edit-tables.js';
import { tableChanges } from '../../src/tables/overrides/table-changes.js';

const tables = firstCell({ cyclesS: [100, 80], loadS: 5, unloadS: 4 });
const faster = withCells(tables, 'routes.csv', 3, { cycle_s: '50' });
const dual = withCells(tables, 'robot.csv', 2, { value: '2' });
const desk: Desk = {
  name: 'cell',
  tables,
  variants: [
    { name: 'faster', tables: faster },
    { name: 'Cell', tables: dual },
  ],
};

function expectSame(found: Desk): void {
  expect(found.name).toBe('cell');
  expect(tableChanges(found.tables, tables)).toEqual([]);
  expect(found.variants.map(({ tables: of }) => tableChanges(tables, of).map(({ path }) => path))).toEqual([
    ['routes.part_1.2.cycle_s'],
    ['robot.hands'],
  ]);
}

const filesOf = (saved: Desk): OpenedFile[] =>
  [...foldersOf(saved)].flatMap(([folder, of]) =>
    Object.entries(of).map(([file, text]) => ({ path: `shop/${folder}/${file}`, bytes: strToU8(text) })),
  );

test('a cell with its pinned states is kept as small folders that build on it, and comes back from them', () => {
  const folders = foldersOf(desk);
  expect([...folders.keys()]).toEqual(['cell', 'faster', 'Cell-2']);
  expect(Object.keys(folders.get('faster')!)).toEqual(['base.csv', 'routes.csv']);
  const opened = openedDesk(filesOf(desk), EMPTY_DESK);
  expectSame((opened as { desk: Desk }).desk);
});

test('so it is saved in the browser, in the page and in a link', () => {
  const saved = JSON.parse(JSON.stringify(savedForm(desk)));
  expect(Object.keys(saved.variants[0].tables)).toEqual(['base.csv', 'routes.csv']);
  expectSame(deskOf(saved)!);
  expectSame(deskInHash(cellHash(desk))!);
});

test('folders that build on one another without end, on none, or on none that is there, are refused with the reason', () => {
  const base = (folder: string) => ({ 'base.csv': `folder\n${folder}\n` });
  const refusal = (folders: Record<string, Record<string, string>>) =>
    deskInFolders(new Map(Object.entries(folders)));
  expect(refusal({ a: base('../b'), b: base('../a') })).toBe('The bases of a, b refer to each other.');
  expect(refusal({ a: base('../b') })).toContain('Open the folder that holds both of them.');
  expect(refusal({ a: tables, b: tables })).toBe(
    'There are tables in several folders: a, b. Open one folder.',
  );
  expect(refusal({ a: tables, b: base('') })).toContain('names no folder');
});

test('tables in UTF-16 and Windows-1252 are read as the command line reads them, and that is said', () => {
  const latin = {
    path: 'cell/stations.csv',
    bytes: new Uint8Array([...'station,kind\nfr'].map((c) => c.charCodeAt(0)).concat(0xe4)),
  };
  const wide = {
    path: 'cell/robot.csv',
    bytes: new Uint8Array([0xff, 0xfe, ...[...'setting,value\n'].flatMap((c) => [c.charCodeAt(0), 0])]),
  };
  const opened = openedDesk([latin, wide], EMPTY_DESK) as { desk: Desk; notes: string[] };
  expect(opened.desk.tables).toEqual({ 'stations.csv': 'station,kind\nfrä', 'robot.csv': 'setting,value\n' });
  expect(opened.notes).toEqual([
    'cell/stations.csv is read as Windows-1252 (Latin-1).',
    'cell/robot.csv is read as UTF-16.',
  ]);
});
