// Changes of the tables as the page makes them: lines that are not touched stay to the letter.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { gridOf } from '../../src/browser/grid/grid.js';
import { clipboardCells, pastedRows } from '../../src/browser/grid/paste.js';
import {
  withCells,
  withoutLineBreaks,
  withoutRow,
  withoutTable,
  withRows,
  withTable,
} from '../../src/browser/state/edit-tables.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';

const TABLES = {
  'stations.csv':
    '# Invented.\nstation,kind,ready_s\nrack,infeed,\n"mill ""A""",machine,4\n# the tray\ntray,outfeed,\n',
  'routes.csv': 'part;step;stations;cycle_s\ncap;1;rack;\ncap;2;mill "A";60,5\ncap;3;tray;\n',
};

const cellsOf = (tables: Record<string, string>, file: string) =>
  gridOf(tables, file)!.rows.map(({ cells }) => cells.join('|'));

test('a cell is changed in its line alone, comments and other lines stay', () => {
  const changed = withCells(TABLES, 'stations.csv', 4, { ready_s: '7' });
  expect(changed['stations.csv']).toBe(TABLES['stations.csv'].replace('machine,4', 'machine,7'));
});

test('a value with the delimiter, quotation marks or a line break stays one value', () => {
  const changed = withCells(TABLES, 'routes.csv', 3, { stations: 'a;"b"\nc' });
  expect(gridOf(changed, 'routes.csv')!.rows[1]!.cells[2]).toBe('a;"b" c');
});

test('a column that the header lacks is added, and a new row comes at the end', () => {
  const wider = withCells(TABLES, 'stations.csv', 3, { x_m: '1.5' });
  expect(wider['stations.csv']).toContain('station,kind,ready_s,x_m\nrack,infeed,,1.5\n');
  const longer = withCells(TABLES, 'stations.csv', null, { station: 'wash' });
  expect(longer['stations.csv'].endsWith('tray,outfeed,\nwash,,\n')).toBe(true);
});

test('a row is taken out with its line alone', () => {
  expect(withoutRow(TABLES, 'stations.csv', 4)['stations.csv']).toBe(
    '# Invented.\nstation,kind,ready_s\nrack,infeed,\n# the tray\ntray,outfeed,\n',
  );
});

test('a change to the value that is there gives the same tables', () => {
  expect(withCells(TABLES, 'stations.csv', 4, { ready_s: '4' })).toBe(TABLES);
  expect(withCells(TABLES, 'stations.csv', null, { station: '' })).toBe(TABLES);
});

test('a table is begun with its needed columns, and taken out', () => {
  expect(withTable(TABLES, 'shifts.csv')['shifts.csv']).toMatch(/^pattern,/);
  expect(withoutTable(withTable(TABLES, 'shifts.csv'), 'shifts.csv')).toEqual(TABLES);
});

test('clipboard cells: tabs, line ends of either kind, quotation marks round a line break', () => {
  expect(clipboardCells('a\tb\r\n"c\nd"\t"e ""f"""\r\n')).toEqual([
    ['a', 'b'],
    ['c\nd', 'e "f"'],
  ]);
});

test('a block is pasted where it stands, over the end as new rows; with headings under its names', () => {
  const grid = gridOf(TABLES, 'stations.csv')!;
  const shown = ['station', 'kind', 'ready_s'];
  const below = withRows(TABLES, 'stations.csv', pastedRows(grid, shown, 2, 'kind', 'outfeed\t1\nbench\t2'));
  expect(cellsOf(below, 'stations.csv').slice(2)).toEqual(['tray|outfeed||||1||||', '|bench||||2||||']);
  const named = pastedRows(grid, shown, 3, 'ready_s', 'Kind\tStation\nmachine\tmill_2');
  expect(named).toEqual([{ line: null, values: { kind: 'machine', station: 'mill_2' } }]);
});

test('random edits never throw, and what the grid shows is what was typed', () => {
  const files = ['stations.csv', 'routes.csv'] as const;
  const edit = fc.record({
    file: fc.constantFrom(...files),
    row: fc.nat(5),
    column: fc.nat(8),
    value: fc.oneof(fc.string(), fc.constantFrom('1', '-', '"', ',', ';', '#x', 'rack', '1|2')),
    isRemoval: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 8 }), (edits) => {
      let tables: Record<string, string> = TABLES;
      for (const { file, row, column, value, isRemoval } of edits) {
        const grid = gridOf(tables, file);
        if (grid === null) continue;
        const line = grid.rows[row]?.line ?? null;
        const { name } = grid.columns[column % grid.columns.length]!;
        tables =
          isRemoval && line !== null
            ? withoutRow(tables, file, line)
            : withCells(tables, file, line, { [name]: value });
        inspectTables(tables);
        const typed = withoutLineBreaks(value);
        const kept = typed === '-' ? '' : typed;
        if (kept === '' || (isRemoval && line !== null) || kept.startsWith('#')) continue;
        const now = gridOf(tables, file)!;
        const at = now.columns.findIndex((c) => c.name === name);
        const shown = line === null ? now.rows.at(-1) : now.rows.find((r) => r.line === line);
        expect(shown?.cells[at]).toBe(kept);
      }
    }),
  );
});
