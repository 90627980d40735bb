// A cell kept as its changes against another one: small, and whole again when put together with it.
import fc from 'fast-check';
import { expect, test } from 'vitest';
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
