/** Changes of single cells: the same as if the table had been typed so, or a complaint that offers the near name. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { renderComplaints } from '../../../src/render/complaints.js';
import { inspectTables } from '../../../src/tables/inspect-tables.js';
import { applySettings } from '../../../src/tables/overrides/apply-settings.js';
import { inspectLayers } from '../../../src/tables/overrides/inspect-layers.js';
import {
  changeableColumns,
  keyedTable,
  keyedTables,
  pathForm,
} from '../../../src/tables/overrides/keyed-tables.js';
import { plainLayer } from '../../../src/tables/overrides/layered-tables.js';
import { mergeBase } from '../../../src/tables/overrides/merge-base.js';
import { tableFiles } from '../../../src/tables/table-formats.js';
import { type Change, changedTables, soundTables } from '../sound-tables.js';

const inspected = (...settings: string[]) => inspectLayers(plainLayer(soundTables), settings);
const said = (...settings: string[]): string =>
  renderComplaints(inspected(...settings).complaints, { colour: false });
const edited = (...changes: Change[]) => inspectTables(changedTables(changes)).cell;

/** Without the places: rows that are added stand elsewhere. */
function bare(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (key, v) => (key === 'at' ? undefined : v)));
}

test('the form of a path names what names a row, and a column where there are several to change', () => {
  const form = (file: string) => pathForm(keyedTable(file)!);
  expect(form('routes.csv')).toBe('routes.<part>.<step>.<column>');
  expect(form('robot.csv')).toBe('robot.<setting>');
  expect(changeableColumns(keyedTable('robot.csv')!)).toEqual(['value']);
});

test('every table of a cell has a path', () => {
  expect(keyedTables.map((t) => t.file).sort()).toEqual([...tableFiles].sort());
  for (const table of keyedTables) for (const key of table.keys) expect(table.columns).toHaveProperty(key);
});

test.each<[string, Change]>([
  ['stations.mill_1.ready_s=7', ['stations.csv', 'mill_1,machine,1,0,,2', 'mill_1,machine,1,0,,7']],
  ['routes.cap.2.cycle_s=200', ['routes.csv', '240,12', '200,12']],
  ['robot.hands=2', ['robot.csv', 'hands,1', 'hands,2']],
  ['robot.cost_per_h=8', ['robot.csv', 'hands,1', 'hands,1\ncost_per_h,8']],
  ['travel.mill_1.rack.empty_s=3', ['travel.csv', 'rack,1.7', 'rack,3']],
  ['travel.rack.done.empty_s=3', ['travel.csv', 'mill_1,rack', 'rack,done,3,\nmill_1,rack']],
  ['parts.cap.per_shift=90', ['parts.csv', '4.2,100', '4.2,90']],
  ['shifts.two.early.breaks=09:00-09:30', ['shifts.csv', '09:00-09:20;11:30-12:00', '09:00-09:30']],
  ['stops.mill_1.tool change.minutes=6', ['stops.csv', ',,4,', ',,6,']],
  ['variation.*.cycle.b=20', ['variation.csv', '240,12', '240,20']],
  ['changeovers.mill_1.people=2', ['changeovers.csv', '80,1', '80,2']],
  ['signals.mill_1.door open.cable_m=20', ['signals.csv', 'open,12', 'open,20']],
  ['costs.box_price.high=1200', ['costs.csv', '1100', '1200']],
  ['costs.horizon_years.value=7', ['costs.csv', 'depreciation', 'horizon_years,7,,,,\ndepreciation']],
  ['parts.cap.contribution=', ['parts.csv', '4.2', '']],
])('%s is the same as the table typed so', (setting, change) => {
  const { cell, complaints } = inspected(setting);
  expect(complaints).toEqual([]);
  const wanted = bare(edited(change)) as Record<string, { from?: string; item?: string }[]>;
  const sorted = (c: typeof wanted) => ({
    ...c,
    travel: [...c.travel!].sort((a, b) => JSON.stringify(a).localeCompare(JSON.stringify(b))),
    costs: [...c.costs!].sort((a, b) => a.item!.localeCompare(b.item!)),
  });
  expect(sorted(bare(cell) as typeof wanted)).toEqual(sorted(wanted));
  expect(bare(cell)).not.toEqual(bare(edited()));
});

test('a note tells what is set and what the table has', () => {
  expect(inspected('robot.hands=2', 'robot.index_s=1.5').notes).toEqual([
    'robot.hands is 2, as the command line says; robot.csv has 1.',
    'robot.index_s is 1.5, as the command line says; robot.csv gives none.',
  ]);
});

test('any number for any time of a route arrives as if typed; all else stays', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...['cycle_s', 'load_s', 'unload_s']),
      fc.integer({ min: 0, max: 100_000 }).map((n) => n / 100),
      (column, value) => {
        const { cell } = inspected(`routes.cap.2.${column}=${value}`);
        const field = { cycle_s: 'cycleS', load_s: 'loadS', unload_s: 'unloadS' }[column]!;
        const original = edited()!;
        expect(cell!.routes[0]!.steps[1]).toEqual({ ...original.routes[0]!.steps[1], [field]: value });
        expect({ ...cell, routes: [] }).toEqual({ ...original, routes: [] });
      },
    ),
  );
});

test('lines of a table keep their numbers, quoted ones over two lines as well', () => {
  const tables = {
    'costs.csv': 'item,value,source\r\nbox_price,900,"two\nlines"\r\n\r\n# note\r\nbudget,5,\r\n',
  };
  const text = applySettings(plainLayer(tables), ['costs.box_price.value=901', 'costs.budget.value=6'])
    .tables['costs.csv'];
  expect(text).toBe('item,value,source\nbox_price,901,"two\nlines"\n\n# note\nbudget,6,\n\n');
});

test('with semicolons a decimal comma is read, and a value with a semicolon is quoted', () => {
  const layers = plainLayer({ ...soundTables, 'parts.csv': 'part;contribution\ncap;4,2\n' });
  const { cell, complaints } = inspectLayers(layers, ['parts.cap.contribution=5,5']);
  expect(complaints).toEqual([]);
  expect(cell!.parts[0]!.contribution).toBe(5.5);
});

test('a table that is not there is begun', () => {
  const { 'parts.csv': _, ...others } = soundTables;
  const { cell, notes } = inspectLayers(plainLayer(others), ['parts.cap.per_shift=80']);
  expect(cell!.parts).toMatchObject([{ part: 'cap', perShift: 80, contribution: null }]);
  expect(notes).toEqual(['parts.cap.per_shift is 80, as the command line says; there is no parts.csv.']);
});

test('without a change that cannot be made there is no cell, sound as its tables are', () => {
  const { cell, complaints } = inspected('robot.wheels=2');
  expect(complaints.map(({ severity }) => severity)).toEqual(['error']);
  expect(cell).toBeNull();
});

test('a table that cannot be read is complained of once', () => {
  const { complaints } = inspectLayers(plainLayer({ ...soundTables, 'parts.csv': 'no\0table' }), [
    'parts.cap.ratio=1',
  ]);
  expect(complaints.map((c) => `${c.file} ${c.code}`)).toEqual(['parts.csv TAB04']);
});

describe('a change', () => {
  const changed = (tables: Record<string, string>, ...settings: string[]) =>
    inspectLayers(plainLayer({ ...soundTables, ...tables }), settings);
  const brief = ({ complaints }: ReturnType<typeof inspectLayers>) =>
    complaints.map(({ file, line, code, excerpt }) => [
      ...[file, line, code, excerpt?.text.slice(excerpt.start, excerpt.end)],
    ]);

  test('of a row that is new is where that row is told to lack something', () => {
    expect(brief(inspected('travel.rack.done.loaded_s=3'))).toEqual([['command line', null, 'VAL01', '3']]);
  });

  test('of one cell leaves the faults of the others in the row where they stand', () => {
    const stations = soundTables['stations.csv']!.replace('mill_1,machine,1', 'mill_1,machine,one');
    expect(brief(changed({ 'stations.csv': stations }, 'stations.mill_1.ready_s=7'))).toEqual([
      ['stations.csv', 3, 'VAL02', 'one'],
    ]);
  });

  test('may have spaces around path and value, and leave a cell empty', () => {
    expect(inspected(' robot.hands  =  2 ', 'parts.cap.contribution = ').notes).toEqual([
      'robot.hands is 2, as the command line says; robot.csv has 1.',
      'parts.cap.contribution is left empty, as the command line says; parts.csv has 4.2.',
    ]);
  });

  test('in a table that is not there begins all of its columns', () => {
    const { 'parts.csv': _, ...others } = soundTables;
    const { tables } = applySettings(plainLayer(others), [
      'parts.cap.per_shift=80',
      'parts.cap.yield_pct=97',
    ]);
    expect(tables['parts.csv']).toBe('part,per_shift,yield_pct\ncap,80,97\n');
  });

  test('in a table that cannot be read, of which others complain, is not made', () => {
    const { 'parts.csv': _, ...others } = soundTables;
    const layers = { ...plainLayer(others), unread: ['parts.csv'] };
    expect(applySettings(layers, ['parts.cap.ratio=1'])).toEqual(layers);
    const nameless = plainLayer({ 'routes.csv': 'part,cycle_s\ncap,3\n' });
    expect(applySettings(nameless, ['routes.cap.2.cycle_s=4'])).toEqual(nameless);
  });

  test('widens a table, and a row that is shorter than its header', () => {
    const layers = plainLayer({ 'stations.csv': 'station,kind,x_m\nrack,infeed\n"mill\n1",machine,2\n' });
    const { tables } = applySettings(layers, ['stations.rack.y_m=3', 'stations.rack.ready_s=1']);
    expect(tables['stations.csv']).toBe(
      'station,kind,x_m,y_m,ready_s\nrack,infeed,,3,1\n"mill\n1",machine,2\n\n',
    );
  });

  test('finds a name with points, and one that the table writes otherwise', () => {
    const dotted = (text: string) => text.replaceAll('mill_1', 'mill.1');
    const tables = Object.fromEntries(
      Object.entries(soundTables).map(([file, text]) => [file, dotted(text)]),
    );
    const { cell } = changed(tables, 'stations.mill.1.ready_s=7', 'stops.mill.1.tool change.minutes=6');
    expect([cell!.stations[1]!.readyS, cell!.stops[0]!.minutes]).toEqual([7, 6]);
    const robot = 'setting,value\nHands,1\nspeed_m_s,1\n';
    const { cell: other, complaints: none } = changed({ 'robot.csv': robot }, 'robot.hands=2');
    expect([none, other!.robot.hands]).toEqual([[], 2]);
  });

  test('finds a step by its number, however it is written, and an empty one by none', () => {
    const routes = 'part;step;stations;cycle_s\ncap;1;rack\ncap;2,5;mill_1;30\ncap;4;done\n';
    const tables = { 'routes.csv': routes };
    for (const step of ['2.5', '2,5', '02,50']) {
      const { cell, complaints } = changed(tables, `routes.cap.${step}.cycle_s=40`);
      expect(complaints.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(cell!.routes[0]!.steps[1]!.cycleS).toBe(40);
    }
    const nameless = soundTables['routes.csv']!.replace('cap,3', 'cap,');
    expect(brief(changed({ 'routes.csv': nameless }, 'routes.cap.0.cycle_s=4'))).toContainEqual([
      ...['command line', null, 'SET03', '0'],
    ]);
  });
});

describe('what is said about a change that cannot be made', () => {
  test('SET01', () => {
    expect(said('hands', 'stations.mill_1=4')).toMatchInlineSnapshot(`
      "command line  error SET01
        Found \`hands\`, expected a path, \`=\` and a value.
           │ hands
           │ ~~~~~
        Fix: Write the table, what names the row, the column and the value: \`routes.<part>.<step>.cycle_s=200\`.

      command line  error SET01
        Found the path \`stations.mill_1\`, expected \`stations.<station>.<column>\`.
           │ stations.mill_1=4
           │ ~~~~~~~~~~~~~~~

      2 errors in 1 file. No results.
      "
    `);
  });
  test('SET07', () => {
    expect(said('parts.cap.contribution=1\n2')).toMatchInlineSnapshot(`
      "command line  error SET07
        Found the control character U+000A at position 2 of the value, expected a value on one line.
           │ parts.cap.contribution=1␊2
           │                        ~~~
        Fix: Write the value without line breaks and tabs.

      1 error in 1 file. No results.
      "
    `);
  });
  test('SET02', () =>
    expect(said('roots.cap.2.cycle_s=4')).toMatchInlineSnapshot(`
    "command line  error SET02
      Found \`roots\`, expected the name of a table.
         │ roots.cap.2.cycle_s=4
         │ ~~~~~
      Fix: Did you mean \`routes\`?

    1 error in 1 file. No results.
    "
  `));
  test('SET03', () => {
    expect(said('routes.cup.2.cycle_s=4')).toMatchInlineSnapshot(`
      "command line  error SET03
        Found \`cup\`, expected a part of routes.csv.
           │ routes.cup.2.cycle_s=4
           │        ~~~
        Fix: Did you mean \`cap\`?

      1 error in 1 file. No results.
      "
    `);
    expect(said('routes.cap.9.cycle_s=4')).toMatchInlineSnapshot(`
      "command line  error SET03
        Found \`9\`, expected a step of \`cap\` in routes.csv.
           │ routes.cap.9.cycle_s=4
           │            ~
        Fix: There are 1, 2, 3, 4, 5.

      1 error in 1 file. No results.
      "
    `);
    expect(said('robot.hand=2')).toMatchInlineSnapshot(`
      "command line  error SET03
        Found \`hand\`, expected a setting of robot.csv.
           │ robot.hand=2
           │       ~~~~
        Fix: Did you mean \`hands\`?

      1 error in 1 file. No results.
      "
    `);
    expect(said('travel.rack.mil_1.empty_s=2')).toMatchInlineSnapshot(`
      "command line  error SET03
        Found \`mil_1\`, expected a station of \`rack\` in travel.csv.
           │ travel.rack.mil_1.empty_s=2
           │             ~~~~~
        Fix: Did you mean \`mill_1\`?

      1 error in 1 file. No results.
      "
    `);
  });
  test('SET04', () => {
    expect(said('routes.cap.2.cycle=4')).toMatchInlineSnapshot(`
      "command line  error SET04
        Found \`cycle\`, expected a column of routes.csv.
           │ routes.cap.2.cycle=4
           │              ~~~~~
        Fix: Did you mean \`cycle_s\`?

      1 error in 1 file. No results.
      "
    `);
    expect(said('routes.cap.2.step=4')).toMatchInlineSnapshot(`
      "command line  error SET04
        \`step\` names the row and cannot be changed from outside.
           │ routes.cap.2.step=4
           │              ~~~~
        Fix: Columns to change: stations, cycle_s, load_s, unload_s, max_wait_s, parts_per_cycle, every.

      1 error in 1 file. No results.
      "
    `);
  });
  test('SET05', () =>
    expect(said('robot.hands=2', 'robot.hands=1')).toMatchInlineSnapshot(`
    "command line  error SET05
      \`robot.hands\` is set twice.
         │ robot.hands=1
         │ ~~~~~~~~~~~~~
      Fix: Keep one of the two.

    1 error in 1 file. No results.
    "
  `));
  test('SET06', () => {
    const shifts =
      'pattern,shift,days,start,end,attended\na,x,Mon,06:00,14:00,yes\na,x,Tue,07:00,14:00,yes\n';
    const layers = plainLayer({ ...soundTables, 'shifts.csv': shifts });
    expect(
      renderComplaints(inspectLayers(layers, ['shifts.a.x.end=15:00']).complaints, { colour: false }),
    ).toMatchInlineSnapshot(`
      "command line  error SET06
        \`a.x\` names 2 rows of shifts.csv, expected one.
           │ shifts.a.x.end=15:00
           │        ~~~
        Fix: Change the table itself, or give the rows names of their own.

      1 error in 1 file. No results.
      "
    `);
  });
  test.each([
    ['=robot.hands=2', 'Found `=robot.hands=2`, expected a path, `=` and a value.'],
    ['robot=2', 'Found the path `robot`, expected `robot.<setting>`.'],
    ['robot.=2', 'Found the path `robot.`, expected `robot.<setting>`.'],
    ['stations..ready_s=2', 'Found the path `stations..ready_s`, expected `stations.<station>.<column>`.'],
  ])('SET01 %s', (setting, text) => {
    const [{ code, text: said } = { code: '', text: '' }] = inspected(setting).complaints;
    expect([code, `${said[0]!.toUpperCase()}${said.slice(1)}.`]).toEqual(['SET01', text]);
  });

  test.each([
    [
      'zzzzzz.hands=2',
      'SET02',
      'Known tables: stations, routes, robot, travel, parts, shifts, stops, variation, changeovers, setups and 3 more.',
    ],
    [
      'parts.cap.zzzzzz=2',
      'SET04',
      'Known columns: contribution, per_shift, per_week, ratio, yield_pct, unattended.',
    ],
    ['routes.cap.cycle_s=4', 'SET03', 'Known rows: cap.1, cap.2, cap.3, cap.4, cap.5.'],
    ['stops.mill_1.cycle_s.minutes=4', 'SET03', 'Known names: tool change.'],
    ['routes.cap..cycle_s=4', 'SET03', 'Known names: 1, 2, 3, 4, 5.'],
    ['changeovers.zzzzzz.people=2', 'SET03', 'Known names: mill_1, rack, mill_2, gauge, brush, done.'],
    ['travel.rack.rack.empty_s=2', 'SET03', 'Known names: mill_1, mill_2, gauge, brush, done.'],
    ['setups.mill_1.cap.zzzzzz.minutes=2', 'SET03', 'Known names: lid.'],
  ])('%s is %s, with what there is', (setting, code, help) => {
    expect(inspected(setting).complaints).toMatchObject([{ code, help }]);
  });

  test('numbers there are are listed up to ten, nameless rows not at all, and an empty table says so', () => {
    const steps = Array.from({ length: 12 }, (_, k) => `cap,${k + 1},gauge`).join('\n');
    const helpOf = (tables: Record<string, string>, setting: string) => {
      const { complaints } = applySettings(plainLayer(tables), [setting]);
      return complaints.map(({ text, help }) => [text, help]);
    };
    const routes = { 'routes.csv': `part,step,stations\n${steps}\n,1,gauge\n` };
    expect(helpOf(routes, 'routes.cap.13.cycle_s=4')).toEqual([
      ['found `13`, expected a step of `cap` in routes.csv', 'There are 1, 2, 3, 4, 5, 6, 7, 8, 9, 10.'],
    ]);
    expect(helpOf(routes, 'routes.zzzzzz.1.cycle_s=4')).toEqual([
      ['found `zzzzzz`, expected a part of routes.csv', 'Known names: cap.'],
    ]);
    expect(helpOf(soundTables, 'setups.mill_1.cap.9.minutes=2')[0]![0]).toBe(
      'found `9`, expected a to of `mill_1.cap` in setups.csv',
    );
    const [first] = helpOf({ 'stations.csv': 'station\nrack\n\n,machine\n' }, 'travel.rack..empty_s=2');
    expect(first![0]).toBe('found `rack`, expected a station of travel.csv');
    expect(helpOf({}, 'parts.cap.ratio=1')).toEqual([
      ['found `cap`, expected a part of parts.csv', 'There is no parts.csv with rows to change.'],
    ]);
    expect(helpOf({}, 'routes.cap.cycle_s=4')[0]![0]).toBe(
      'found `cap`, expected `<part>.<step>` of a row of routes.csv',
    );
  });

  test('a value that the column refuses is told at the command line', () => {
    expect(said('routes.cap.2.cycle_s=fast', 'robot.hands=3')).toMatchInlineSnapshot(`
      "command line, column value  error VAL05
        For hands found \`3\`, expected 1 or 2.
           │ robot.hands=3
           │             ~

      command line, column cycle_s  error VAL02
        Found \`fast\`, expected seconds, 0 or from 0.01 to 1000000.
           │ routes.cap.2.cycle_s=fast
           │                      ~~~~

      2 errors in 1 file. No results.
      "
    `);
  });
});

describe('a folder on a base', () => {
  const on = (own: Record<string, string>, wholeTables: string[] = [], base = soundTables) =>
    mergeBase(plainLayer(base), own, { folder: '../base', wholeTables });

  test('rows replace by name, cell by cell, and new ones are added', () => {
    const layers = on({
      'robot.csv': 'setting,value\nhands,2\nindex_s,1\n',
      'routes.csv': 'part,step,cycle_s\ncap,2.0,100\n',
    });
    const { cell, complaints, notes } = inspectLayers(layers);
    expect(complaints).toEqual([]);
    expect(cell!.robot).toMatchObject({ hands: 2, indexS: 1, speedMS: 1 });
    expect(cell!.routes[0]!.steps[1]).toMatchObject({ cycleS: 100, loadS: 12 });
    expect(notes).toEqual([
      'The cell builds on ../base: robot.csv changes 1 row and adds 1 row; routes.csv changes 1 row; all else is as there.',
    ]);
  });

  test('a whole table takes the place of the base’s', () => {
    const own = { 'stops.csv': 'station,name,every_h,minutes\nmill_2,clean,8,5\n' };
    expect(inspectLayers(on(own, ['stops.csv'])).cell!.stops.map((s) => s.station)).toEqual(['mill_2']);
    expect(inspectLayers(on(own)).cell!.stops.map((s) => s.station)).toEqual(['mill_1', 'mill_2']);
  });

  test('the tables of the base, given again, change nothing', () => {
    expect(bare(inspectLayers(on({ ...soundTables })).cell)).toEqual(bare(edited()));
  });

  test('a decimal comma in a semicolon table is put into a comma table', () => {
    const layers = on({ 'parts.csv': 'part;contribution\ncap;5,25\n' });
    expect(inspectLayers(layers).cell!.parts[0]!.contribution).toBe(5.25);
  });

  test('a row of the base under a wrong name is a new row, and what it lacks comes with the name that was meant', () => {
    const layers = on({ 'stations.csv': 'station,capacity\nmil_1,2\n' });
    const { complaints } = inspectLayers(layers);
    expect(complaints.map(({ file, line, help }) => [file, line, help])).toContainEqual([
      'stations.csv',
      2,
      'The base has no row `mil_1`, so this is a new one and needs all that a row needs. Did you mean `mill_1`?',
    ]);
  });

  test('complaints name the file and line that hold the fault', () => {
    const base = changedTables([['stations.csv', 'gauge,bench', 'gauge,bank']]);
    const layers = on({ 'routes.csv': '# mine\npart,step,cycle_s\ncap,2,slow\n' }, [], base);
    expect(renderComplaints(inspectLayers(layers).complaints, { colour: false })).toMatchInlineSnapshot(`
      "routes.csv, line 3, column cycle_s  error VAL02
        Found \`slow\`, expected seconds, 0 or from 0.01 to 1000000.
          3 │ cap,2,slow
            │       ~~~~

      ../base/stations.csv, line 5, column kind  error VAL05
        Found \`bank\`, expected \`infeed\`, \`outfeed\`, \`machine\`, \`bench\`, \`held\` or \`buffer\`.
          5 │ gauge,bank,1,1,,,,,,
            │       ~~~~

      2 errors in 2 files. No results.
      "
    `);
  });

  test('BAS05 rows of one name cannot be told apart', () => {
    const layers = on({ 'routes.csv': 'part,step,cycle_s\ncap,2,100\ncap,2,110\n' });
    expect(renderComplaints(inspectLayers(layers).complaints, { colour: false })).toMatchInlineSnapshot(`
      "routes.csv, line 3, column part  error BAS05
        The row \`cap.2\` is listed twice here, so it is unclear which row it replaces.
          3 │ cap,2,110
            │ ~~~
        Fix: Give the whole table and name it in whole_tables of base.csv.

      1 error in 1 file. No results.
      "
    `);
  });

  test('a decimal comma of three digits stays one, and other texts with commas as they are', () => {
    const layers = on({
      'parts.csv': 'part;contribution\ncap;-1,234\n',
      'costs.csv': 'item;value;source\nbox_price;+900,5;1,5 mm, 2,5 mm\n',
      'shifts.csv': 'pattern;shift;days;breaks\ntwo;early;Mon,Wed\n',
    });
    const { cell, complaints, readAs } = inspectLayers(layers);
    expect([complaints, readAs]).toEqual([[], []]);
    expect(cell!.parts[0]!.contribution).toBe(-1.234);
    expect(cell!.costs.find(({ item }) => item === 'box_price')).toMatchObject({
      ...{ value: 900.5, source: '1,5 mm, 2,5 mm', low: 800 },
    });
    expect(cell!.shifts[0]).toMatchObject({ days: ['Mon', 'Wed'], breaks: [] });
    // With commas between the cells it has two meanings still.
    const { complaints: asked } = inspectLayers(on({ 'parts.csv': 'part,contribution\ncap,"1,234"\n' }));
    expect(asked).toMatchObject([{ code: 'VAL02', line: 2, excerpt: { text: 'cap,"1,234"' } }]);
  });

  test('a row is found by its number, however either table writes it', () => {
    const [first, ...rest] = soundTables['routes.csv']!.trimEnd().split('\n');
    const routes = [first, ...rest.map((row) => row.replace('cap,2,', 'cap,1.5,'))].join('\n');
    const semicolons = routes.replaceAll(',', ';').replace('cap;1.5', 'cap;1,50');
    for (const base of [routes, semicolons])
      for (const own of ['part,step,cycle_s\ncap,1.5,99\n', 'part;step;cycle_s\ncap;1,5;99\n']) {
        const { cell, complaints } = inspectLayers(
          on({ 'routes.csv': own }, [], { ...soundTables, 'routes.csv': base }),
        );
        expect(complaints).toEqual([]);
        expect(cell!.routes[0]!.steps.map(({ cycleS }) => cycleS)).toEqual([0, 99, 15, 20, 0]);
      }
  });

  test('it says of each table what is changed, of a base of a base by the name of that', () => {
    const own = {
      'robot.csv': 'setting,value\nhands,2\nspeed_m_s,2\n',
      'parts.csv': 'part,ratio\n',
      'travel.csv': 'from,to,empty_s\nrack,done,3\nmill_2,rack,3\n',
      'stops.csv': soundTables['stops.csv']!,
      'changeovers.csv': soundTables['changeovers.csv']!,
      'more.csv': 'a,b\n',
    };
    const { 'changeovers.csv': _, ...base } = soundTables;
    const layers = on(own, ['stops.csv'], base);
    expect(layers.notes).toEqual([
      'The cell builds on ../base: robot.csv changes 2 rows; parts.csv changes nothing; travel.csv adds 2 rows; stops.csv replaces the whole table; changeovers.csv is new; all else is as there.',
    ]);
    expect(mergeBase(layers, {}, { folder: '../two', wholeTables: [] }).notes).toEqual([
      layers.notes[0]!.replace('The cell', '../two'),
      'The cell builds on ../two: nothing is changed; all else is as there.',
    ]);
  });

  describe('of a base that builds on another', () => {
    const over = (first: Record<string, string>, own: Record<string, string>, wholeTables: string[] = []) =>
      inspectLayers(mergeBase(on(first), own, { folder: '../two//', wholeTables }));
    const placed = ({ complaints }: ReturnType<typeof inspectLayers>) =>
      complaints.map(({ file, line, column, code, excerpt }) => [
        ...[file, line, column, code, excerpt?.text.slice(excerpt.start, excerpt.end)],
      ]);

    test('each fault is told where it stands, but for those that a whole table takes away', () => {
      const first = {
        'robot.csv': '# mine\nsetting,value\nhands,four\n',
        'routes.csv': 'part,step,cycle_s\ncap,2,slow\n',
      };
      const [robot, routes] = [
        ['../two/robot.csv', 3, 'value', 'VAL05', 'four'],
        ['../two/routes.csv', 2, 'cycle_s', 'VAL02', 'slow'],
      ];
      expect(placed(over(first, {}))).toEqual([robot, routes]);
      const whole = soundTables['routes.csv']!.replace('240,12', 'fast,12');
      expect(placed(over(first, { 'routes.csv': whole }, ['routes.csv']))).toEqual([
        robot,
        ['routes.csv', 3, 'cycle_s', 'VAL02', 'fast'],
      ]);
    });

    test('a table of the first folder that could not be read is no missing one', () => {
      const { 'stations.csv': _, ...others } = soundTables;
      const first = { ...plainLayer(others), unread: ['stations.csv'] };
      const link = { folder: '../two', wholeTables: [] };
      expect(inspectLayers(mergeBase(first, {}, link)).complaints).toEqual([]);
      expect(placed(inspectLayers(mergeBase(plainLayer(others), {}, link)))).toEqual([
        ['stations.csv', null, null, 'TAB01', undefined],
      ]);
    });

    test('a fault of its whole folder is told once, with its name', () => {
      expect(placed(over({ 'parts.csv': 'ratio\n2\n' }, { 'parts.csv': 'part,ratio\ncap,2\n' }))).toEqual([
        ['../two/parts.csv', null, 'part', 'TAB11', undefined],
      ]);
      const station = 'station,capacity\nzzzzzz,2\n';
      expect(over({ 'stations.csv': station }, {}).complaints).toContainEqual(
        expect.objectContaining({
          file: '../two/stations.csv',
          line: 2,
          help: 'The base has no row `zzzzzz`, so this is a new one and needs all that a row needs.',
          excerpt: { text: 'zzzzzz,2', start: 0, end: 8 },
        }),
      );
    });

    test('what is read otherwise is noted where it stands', () => {
      const first = { 'robot.csv': 'setting,value\nHands,2\n', 'parts.csv': 'part,ratio\ncap,"2,5"\n' };
      const { readAs } = over(first, { 'shifts.csv': 'pattern,shift,attended\ntwo,early,TRUE\n' });
      expect(readAs.map(({ file, line, found }) => [file, line, found])).toEqual([
        ['../two/robot.csv', 2, 'Hands'],
        ['shifts.csv', 2, 'TRUE'],
        ['../two/parts.csv', 2, '2,5'],
      ]);
    });

    test('a header that is read otherwise is noted in each folder whose table holds it, not where one takes its place', () => {
      const first = { 'parts.csv': 'Part,Ratio\ncap,2\n', 'robot.csv': 'setting,Value\nhands,2\n' };
      const own = { 'parts.csv': 'part,Yield %\ncap,97\n' };
      const headers = (whole: string[]) =>
        over(first, own, whole).readAs.map(({ file, line, found, taken }) => [file, line, found, taken]);
      const inFirst = (table: string, found: string, taken: string) => [`../two/${table}`, 1, found, taken];
      expect(headers([])).toEqual([
        inFirst('parts.csv', 'Part', 'part'),
        inFirst('parts.csv', 'Ratio', 'ratio'),
        ['parts.csv', 1, 'Yield %', 'yield_pct'],
        inFirst('robot.csv', 'Value', 'value'),
      ]);
      expect(headers(['parts.csv'])).toEqual([
        inFirst('robot.csv', 'Value', 'value'),
        ['parts.csv', 1, 'Yield %', 'yield_pct'],
      ]);
    });
  });

  test('a table of its own that is none, or whose base is none, is told of alone', () => {
    const codes = (own: Record<string, string>, base = soundTables) =>
      inspectLayers(on(own, [], base)).complaints.map(({ file, code }) => [file, code]);
    expect(codes({ 'parts.csv': 'no\0table' })).toEqual([['parts.csv', 'TAB04']]);
    expect(codes({ 'parts.csv': 'part,ratio\n"cap,2\n' })).toEqual([['parts.csv', 'TAB09']]);
    expect(on({ 'routes.csv': 'cycle_s\n2\n' }).complaints).toMatchObject([
      {
        ...{ file: 'routes.csv', code: 'TAB11', text: 'the needed column `part` is missing' },
        help: 'Rows take the place of those of the base by part and step; or name the table in whole_tables of base.csv.',
      },
    ]);
    const broken = { ...soundTables, 'parts.csv': 'ratio\n2\n' };
    expect(codes({ 'parts.csv': 'part,ratio\ncap,2\n' }, broken)).toEqual([['../base/parts.csv', 'TAB11']]);
  });

  test('BAS05 a row that names two of the base', () => {
    const routes = soundTables['routes.csv']!.replace('cap,3', 'cap,2.0');
    const own = { 'routes.csv': 'part,step,cycle_s\ncap,2,9\ncap,4,8\n' };
    const { complaints } = on(own, [], { ...soundTables, 'routes.csv': routes });
    expect(complaints).toMatchObject([
      {
        ...{ code: 'BAS05', file: 'routes.csv', line: 2, column: 'part' },
        text: 'the row `cap.2` names 2 rows of the base, so it is unclear which row it replaces',
      },
    ]);
  });

  test('a cell with a warning alone is a cell', () => {
    const { cell, complaints } = inspectLayers(on({ 'more.csv': 'a,b\n' }));
    expect([cell === null, complaints.map(({ severity }) => severity)]).toEqual([false, ['warning']]);
  });
});
