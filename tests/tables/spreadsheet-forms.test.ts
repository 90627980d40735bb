/** What the common spreadsheets save opens as it is: the same cell comes out of every form of the same tables. */
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../src/core/model/cell.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { readCell } from '../../src/tables/read-cell.js';
import { soundTables } from './sound-tables.js';

const plain = readCell(soundTables);

function everyTable(change: (text: string) => string): Record<string, string> {
  return Object.fromEntries(Object.entries(soundTables).map(([file, text]) => [file, change(text)]));
}

function withoutPlaces(cell: Cell): unknown {
  return JSON.parse(JSON.stringify(cell, (key, value) => (key === 'at' ? undefined : value)));
}

/** Semicolons between the columns, decimal commas, cells that hold a semicolon in quotation marks. */
function withSemicolons(text: string): string {
  const cellOf = (cell: string) =>
    cell.includes(';') ? `"${cell}"` : cell.replace(/^(\d+)\.(\d+)$/, '$1,$2');
  return text
    .split('\n')
    .map((line) => line.split(',').map(cellOf).join(';'))
    .join('\n');
}

describe('forms of the text', () => {
  test.each<[string, (text: string) => string]>([
    ['a byte order mark', (text) => `\uFEFF${text}`],
    ['CRLF at line ends', (text) => text.replaceAll('\n', '\r\n')],
    ['CR at line ends', (text) => text.replaceAll('\n', '\r')],
    ['mixed line ends', (text) => text.replace('\n', '\r\n')],
    ['no line end after the last row', (text) => text.trimEnd()],
    ['every cell in quotation marks', (text) => text.replace(/[^,\n]+/g, '"$&"')],
    ['spaces around the cells', (text) => text.replaceAll(',', ' , ').replaceAll('\n', ' \n')],
    ['a dash in every empty cell', (text) => text.replace(/,(?=[,\n])/g, ',-')],
    ['empty columns at the end', (text) => text.replaceAll('\n', ',,\n')],
    ['empty cells at the end left out', (text) => text.replace(/,+\n/g, '\n')],
  ])('%s', (_form, change) => {
    const { cell, complaints } = inspectTables(everyTable(change));
    expect(complaints).toEqual([]);
    expect(cell).toEqual(plain);
  });

  test.each<[string, (text: string) => string]>([
    ['semicolons with decimal commas', withSemicolons],
    [
      'comments and blank lines',
      (text) => `# a note, with a comma and a 3/4" mark\n\n${text.replaceAll('\n', '\n\n  # more\n')}`,
    ],
    [
      'comments and blank lines as a spreadsheet saves them',
      (text) => `"# a note, with a comma",,\n,,,\n${text}`,
    ],
  ])('%s', (_form, change) => {
    const { cell, complaints } = inspectTables(everyTable(change));
    expect(complaints).toEqual([]);
    expect(withoutPlaces(cell as Cell)).toEqual(withoutPlaces(plain));
  });
});

describe('cells of several lines', () => {
  const costs = 'item,value,low,high,unit,source\nbox_price,900,,,"money,\neach",list\nlabour_per_h,x,,,,\n';

  test('a complaint after one names the line on which its own record starts', () => {
    const { complaints } = inspectTables({ ...soundTables, 'costs.csv': costs });
    expect(complaints.map(({ code, line, column }) => ({ code, line, column }))).toEqual([
      { code: 'VAL07', line: 2, column: 'unit' },
      { code: 'VAL02', line: 4, column: 'value' },
    ]);
  });

  test('the excerpt holds the whole record and the place in it', () => {
    const [first] = inspectTables({ ...soundTables, 'costs.csv': costs }).complaints;
    const excerpt = first?.excerpt;
    expect(excerpt?.text).toBe('box_price,900,,,"money,\neach",list');
    expect(excerpt?.text.slice(excerpt.start, excerpt.end)).toBe('\n');
  });
});

test('quotation marks inside a cell', () => {
  const routes = (soundTables['routes.csv'] ?? '').replaceAll('cap,', '"cap 3/4"" long",');
  const cell = readCell({
    ...soundTables,
    'routes.csv': routes,
    'parts.csv': 'part,ratio\ncap 3/4" long,1\n',
    'jobs.csv': 'job,part,quantity\n1,"cap 3/4"" long",5\n',
  });
  expect(cell.routes[0]?.part).toBe('cap 3/4" long');
  expect(cell.parts[0]?.part).toBe('cap 3/4" long');
});

test('with semicolons a decimal point is read, too', () => {
  const cell = readCell({ ...soundTables, 'parts.csv': 'part;contribution;yield_pct\ncap;4.25;97,5\n' });
  expect(cell.parts[0]).toMatchObject({ contribution: 4.25, yieldPct: 97.5 });
});
