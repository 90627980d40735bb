// A cell kept as its changes against another one: small, and whole again when put together with it.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gridOf } from '../../../src/browser/grid/grid.js';
import { withCells, withoutRow, withoutTable, withTable } from '../../../src/browser/state/edit-tables.js';
import { inspectTables, type Tables } from '../../../src/tables/inspect-tables.js';
import { BASE_FILE } from '../../../src/tables/overrides/base-table.js';
import { tableChanges } from '../../../src/tables/overrides/table-changes.js';
import { variantTables, withBase } from '../../../src/tables/overrides/variant-tables.js';
import { soundTables } from '../sound-tables.js';

const BASE: Tables = soundTables;

test('one changed number is one row; tables that are alike are not kept', () => {
  const whole = withCells(BASE, 'robot.csv', 2, { value: '2' });
  const own = variantTables(BASE, whole, '../demo');
  expect(Object.keys(own)).toEqual([BASE_FILE, 'robot.csv']);
  expect(own[BASE_FILE]).toBe('folder,whole_tables\n../demo,\n');
  expect(own['robot.csv']!.trimEnd().split('\n')).toHaveLength(2);
  expect(tableChanges(withBase(BASE, own)!, whole)).toEqual([]);
  expect(tableChanges(withBase(BASE, own)!, BASE).map(({ path }) => path)).toEqual(['robot.hands']);
});

test('a row that is gone, or a table, takes the whole table', () => {
  const shorter = withoutRow(BASE, 'stations.csv', 2);
  const own = variantTables(BASE, shorter, '../demo');
  expect(own[BASE_FILE]).toBe('folder,whole_tables\n../demo,stations\n');
  expect(withBase(BASE, own)!['stations.csv']).toBe(shorter['stations.csv']);
  const more = withTable(BASE, 'stops.csv');
  expect(tableChanges(withBase(more, variantTables(more, BASE, '../demo'))!, BASE)).toEqual([]);
});

describe('kept against a base', () => {
  const kept = (base: Tables, whole: Tables) => {
    const { [BASE_FILE]: link, ...own } = variantTables(base, whole, '../demo');
    return { link, own };
  };
  const link = (tables = '') => `folder,whole_tables\n../demo,${tables}\n`;
  const stops = 'station,name,every_parts\nm,clean,10\nm,gauge,20\n';

  test('are the rows that differ, in the form of the own table', () => {
    const whole = 'station;name;every_parts\nm;clean;10\nm;gauge;25\n"a;b";x;5\n';
    expect(kept({ 'stops.csv': stops }, { 'stops.csv': whole })).toEqual({
      link: link(),
      own: { 'stops.csv': 'station;name;every_parts\nm;gauge;25\n"a;b";x;5\n' },
    });
  });

  test.each([
    ['another order', 'station,name,every_parts\nm,gauge,20\nm,clean,10\n'],
    ['another order and another value', 'station,name,every_parts\nm,gauge,25\nm,clean,10\n'],
    ['a row less', 'station,name,every_parts\nm,clean,10\n'],
    ['a row less and another value', 'station,name,every_parts\nm,clean,15\n'],
    ['no more than a comment', `# mine\n${stops}`],
    ['a column less, of which the base has values', 'station,name\nm,clean\nm,gauge\n'],
    ['a row of a name twice', `${stops}m,clean,30\n`],
    ['a table that cannot be read', 'no\0table'],
    ['a column less', 'station,every_parts\nm,10\n'],
  ])('are the whole table with %s', (_what, whole) => {
    expect(kept({ 'stops.csv': stops }, { 'stops.csv': whole })).toEqual({
      link: link('stops'),
      own: { 'stops.csv': whole },
    });
  });

  test('are the whole table where its base names a row twice', () => {
    const [base, whole] = [`${stops}m,clean,10\n`, `${stops}m,clean,10.0\n`];
    expect(kept({ 'stops.csv': base }, { 'stops.csv': whole })).toEqual({
      link: link('stops'),
      own: { 'stops.csv': whole },
    });
  });

  test('are all rows where the columns are others', () => {
    const whole = 'station,name,every_parts,minutes\nm,clean,10,\nm,gauge,20,3\n';
    expect(kept({ 'stops.csv': stops }, { 'stops.csv': whole }).own).toEqual({ 'stops.csv': whole });
  });

  test('are files that are no tables, and tables that one side lacks', () => {
    const base = { 'old.csv': 'x\n', 'both.csv': 'x\n' };
    expect(kept(base, { 'new.csv': 'y\n', 'both.csv': 'z\n', 'stops.csv': stops })).toStrictEqual({
      link: link(),
      own: { 'new.csv': 'y\n', 'both.csv': 'z\n', 'stops.csv': stops },
    });
    expect(kept({ 'stops.csv': stops, 'travel.csv': 'no\0table' }, {})).toEqual({
      link: link('stops;travel'),
      own: { 'stops.csv': 'station,name,every_parts\n', 'travel.csv': 'from,to\n' },
    });
  });

  test('come to nothing with a link that is none, and tables that do not fit their base', () => {
    const base = { 'stops.csv': stops };
    expect(withBase(base, { 'stops.csv': stops })).toBeNull();
    expect(withBase(base, { [BASE_FILE]: link('travel') })).toBeNull();
    expect(withBase(base, { [BASE_FILE]: 'folder,whole_tables,x\n../demo,,\n' })).toBeNull();
    expect(withBase(base, { [BASE_FILE]: link(), 'stops.csv': 'every_parts\n3\n' })).toBeNull();
    expect(withBase(base, { [BASE_FILE]: link(), 'stops.csv': 'station,name\n' })).not.toBeNull();
  });

  test('name whole tables with or without their ending, and spaces between', () => {
    const own = { 'stops.csv': 'station,name\n', 'travel.csv': 'from,to\n' };
    expect(withBase({ 'stops.csv': stops }, { [BASE_FILE]: link(' stops.csv ; travel'), ...own })).toEqual(
      own,
    );
    expect(withBase({ 'stops.csv': stops }, { [BASE_FILE]: link('stops.csvs'), ...own })).toBeNull();
  });
});

test('any edits of a cell come back from its changes: same cell, same complaints but for their lines', () => {
  const edit = fc.record({
    what: fc.constantFrom('type', 'type', 'type', 'remove row', 'add table', 'remove table'),
    file: fc.constantFrom('stations.csv', 'routes.csv', 'robot.csv', 'stops.csv'),
    row: fc.nat(6),
    column: fc.nat(8),
    value: fc.oneof(fc.constantFrom('', '1', '1,5', 'a;b', '"q"', '#x', 'machine', '2'), fc.string()),
  });
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 6 }), (edits) => {
      let whole = BASE;
      for (const { what, file, row, column, value } of edits) {
        const grid = gridOf(whole, file);
        const line = grid?.rows[row]?.line ?? null;
        const name = grid?.columns[column % grid.columns.length]?.name;
        if (what === 'add table') whole = withTable(whole, file);
        else if (what === 'remove table') whole = withoutTable(whole, file);
        else if (what === 'remove row' && line !== null) whole = withoutRow(whole, file, line);
        else if (name !== undefined) whole = withCells(whole, file, line, { [name]: value });
      }
      const again = withBase(BASE, variantTables(BASE, whole, '../demo'));
      expect(again).not.toBeNull();
      expect(tableChanges(again!, whole)).toEqual([]);
      const [ours, theirs] = [again!, whole].map((tables) => inspectTables(tables));
      expect(ours!.cell === null).toBe(theirs!.cell === null);
    }),
  );
});
