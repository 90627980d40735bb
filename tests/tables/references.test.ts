/** One misspelt name is one complaint: where it is wrong, with all that refers to it. */
import { expect, test } from 'vitest';
import { complaintList } from '../../src/tables/complaint-list.js';
import { keyedTables } from '../../src/tables/overrides/keyed-tables.js';
import { readSheet } from '../../src/tables/read-sheet.js';
import { placesText, References } from '../../src/tables/references.js';
import { type Change, saidAbout, soundTables } from './sound-tables.js';

const cases: readonly (readonly [what: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL16 a station listed otherwise than it is named',
    [['stations.csv', 'mill_1,', 'mil_1,']],
    `stations.csv, line 3, column station  error VAL16
  Nothing refers to \`mil_1\`, while \`mill_1\` is not in stations.csv and is named on line 3 of routes.csv, lines 2 and 3 of travel.csv, line 2 of stops.csv, line 3 of variation.csv, line 2 of changeovers.csv, lines 2, 3 and 4 of setups.csv, line 2 of signals.csv.
    3 │ mil_1,machine,1,0,,2,3,12,20,5
      │ ~~~~~
  Fix: Write one name everywhere: \`mill_1\` here, or \`mil_1\` there.

1 error in 1 file. No results.
`,
  ],
  [
    'a name misspelt in the same way in two tables',
    [
      ['stops.csv', 'mill_1', 'mil_1'],
      ['changeovers.csv', 'mill_1', 'mil_1'],
    ],
    `stops.csv, line 2, column station  error VAL09
  Found \`mil_1\`, expected a station of stations.csv; also on line 2 of changeovers.csv.
    2 │ mil_1,tool change,50,,4,yes
      │ ~~~~~
  Fix: Did you mean \`mill_1\`?

1 error in 1 file. No results.
`,
  ],
  [
    'a name misspelt in the same way in two rows',
    [['travel.csv', 'mill_1,rack,1.7,', 'mill_1,rak,1.7,\nmill_2,rak,1.7,']],
    `travel.csv, line 3, column to  error VAL09
  Found \`rak\`, expected a station of stations.csv; also on line 4 of travel.csv.
    3 │ mill_1,rak,1.7,
      │        ~~~
  Fix: Did you mean \`rack\`?

1 error in 1 file. No results.
`,
  ],
  [
    'two names equally near',
    [['changeovers.csv', 'mill_1', 'mill_7']],
    `changeovers.csv, line 2, column station  error VAL09
  Found \`mill_7\`, expected a station of stations.csv.
    2 │ mill_7,40,30,80,1
      │ ~~~~~~
  Fix: Did you mean \`mill_1\` or \`mill_2\`?

1 error in 1 file. No results.
`,
  ],
  [
    'of two equally near the one that nothing refers to yet',
    [
      ['stations.csv', 'mill_1,', 'mill_8,machine,,,,,\nmill_1,'],
      ['changeovers.csv', 'mill_1', 'mill_7'],
    ],
    `changeovers.csv, line 2, column station  error VAL09
  Found \`mill_7\`, expected a station of stations.csv.
    2 │ mill_7,40,30,80,1
      │ ~~~~~~
  Fix: Did you mean \`mill_8\`?

stations.csv, line 3, column station  warning STA04
  No route visits \`mill_8\`.
    3 │ mill_8,machine,,,,,
      │ ~~~~~~
  Fix: Name it in a step of routes.csv, or take the row out.

1 error and 1 warning in 2 files. No results.
`,
  ],
  [
    'VAL16 a part listed otherwise than it is named',
    [['routes.csv', null, soundTables['routes.csv']!.replaceAll('cap,', 'kap,')]],
    `routes.csv, line 2, column part  error VAL16
  Nothing refers to \`kap\`, while \`cap\` is not in routes.csv and is named on line 2 of parts.csv, lines 2 and 3 of jobs.csv.
    2 │ kap,1,rack,,,4,,,
      │ ~~~
  Fix: Write one name everywhere: \`cap\` here, or \`kap\` there.

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_what, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

/** References to the stations of a table, out of texts. */
function stationReferences(
  stations: readonly string[],
  tables: Readonly<Record<string, string>>,
): References {
  const sheetOf = (file: string, text: string) =>
    readSheet(complaintList(), file, text, keyedTables.find((t) => t.file === file)!.columns, 'none')!;
  const listed = sheetOf('stations.csv', `station,kind\n${stations.map((s) => `${s},machine`).join('\n')}\n`);
  return new References(
    (file) => (tables[file] === undefined ? null : sheetOf(file, tables[file])),
    listed,
    'station',
  );
}

test('places are found table by table, alternatives and the ends of a way each by itself', () => {
  const references = stationReferences(['mill'], {
    'travel.csv': 'from,to,empty_s\nmill,saw,1\nsaw,mill,1\nsaw,saw,1\n',
    'routes.csv': 'part,step,stations\ncap,1,mill | saw\ncap,2,\n',
  });
  const routes = { file: 'routes.csv', line: 2 };
  const travel = (line: number) => ({ file: 'travel.csv', line });
  expect(references.placesOf('mill')).toEqual([routes, travel(2), travel(3)]);
  expect(references.placesOf('saw')).toEqual([routes, travel(2), travel(3), travel(4)]);
  expect([references.placesOf('lathe'), references.placesOf('')]).toEqual([[], []]);
});

test('a name is listed otherwise where one near name is used nowhere and this one twice', () => {
  const used = 'part,step,stations\ncap,1,mill_1\ncap,2,mill_1\ncap,3,saw\n';
  const listed = (stations: readonly string[], name: string, routes = used) =>
    stationReferences(stations, { 'routes.csv': routes }).listedOtherwise(name, stations);
  expect(listed(['mil_1', 'saw'], 'mill_1')).toMatchObject({ name: 'mil_1', row: { line: 2 } });
  // Named once, near to two, near to none, near to one in use.
  expect(listed(['mil_1', 'saw'], 'mill_1', 'part,step,stations\ncap,1,mill_1\n')).toBeNull();
  expect(listed(['mil_1', 'mill_'], 'mill_1')).toBeNull();
  expect(listed(['saw'], 'mill_1')).toBeNull();
  expect(listed(['mil_1'], 'mill_1', `${used}cap,4,mil_1\n`)).toBeNull();
});

test('of names equally near those that nothing refers to come first', () => {
  const stations = ['mill_1', 'mill_2', 'mill_3'];
  const nearest = (routes: string) =>
    stationReferences(stations, { 'routes.csv': `part,step,stations\n${routes}` }).nearest(
      'mill_7',
      stations,
    );
  expect(nearest('cap,1,mill_1\n')).toEqual(['mill_2', 'mill_3']);
  expect(nearest('')).toEqual(stations);
  expect(nearest('cap,1,mill_1|mill_2|mill_3\n')).toEqual(stations);
});

test('one cause is told once', () => {
  const references = stationReferences(['mill'], {});
  expect(['saw', 'saw', 'lathe', 'saw'].map((name) => references.isFirst(name))).toEqual([
    true,
    false,
    true,
    false,
  ]);
});

test('places are named by table, three lines of each', () => {
  const at = (file: string, ...lines: number[]) => lines.map((line) => ({ file, line }));
  expect(placesText([...at('routes.csv', 3), ...at('setups.csv', 2, 4)])).toBe(
    'line 3 of routes.csv, lines 2 and 4 of setups.csv',
  );
  expect(placesText(at('stops.csv', 2, 3, 7))).toBe('lines 2, 3 and 7 of stops.csv');
  expect(placesText(at('stops.csv', 2, 3, 7, 9, 11))).toBe('lines 2, 3, 7 and 2 more of stops.csv');
});
