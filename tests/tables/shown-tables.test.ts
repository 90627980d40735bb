/** The tables of a run as its page shows them: the columns that say something, and where each row stands. */
import { expect, it } from 'vitest';
import { type LayeredTables, originKey, plainLayer } from '../../src/tables/overrides/layered-tables.js';
import { shownTables } from '../../src/tables/shown-tables.js';

const TABLES = {
  'stops.csv': 'station,name,every_h\n',
  'parts.csv': 'part,contribution,per_shift,ratio\ncap,4.2,,-\n\nlid,,,\nrod\n',
  'robot.csv': 'setting,value\nhands,2\n',
  'notes.csv': 'who,what\nnobody,nothing\n',
};
const placesIn = (more: Partial<LayeredTables>) =>
  shownTables({ ...plainLayer(TABLES), ...more }).map(({ rows }) => rows.map(({ place }) => place));

it('are those of the cell in their own order, without columns in which no row says anything', () => {
  expect(shownTables(plainLayer(TABLES))).toEqual([
    { file: 'robot.csv', columns: ['setting', 'value'], rows: [{ place: '2', cells: ['hands', '2'] }] },
    {
      file: 'parts.csv',
      columns: ['part', 'contribution'],
      rows: [
        { place: '2', cells: ['cap', '4.2'] },
        { place: '4', cells: ['lid', ''] },
        { place: '5', cells: ['rod', ''] },
      ],
    },
    { file: 'stops.csv', columns: [], rows: [] },
  ]);
});

it('name the line of each row, and the file where it is another one', () => {
  const files = new Map([['parts.csv', '../base/parts.csv']]);
  const origins: LayeredTables['origins'] = new Map([
    [originKey('parts.csv', 4), { file: 'parts.csv', line: 7, excerpt: null }],
    [originKey('robot.csv', 2), { file: 'command line', line: null, excerpt: null }],
  ]);
  expect(placesIn({ files, origins })).toEqual([
    ['command line'],
    ['../base/parts.csv:2', '7', '../base/parts.csv:5'],
    [],
  ]);
});
