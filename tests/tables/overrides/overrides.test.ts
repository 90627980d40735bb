/** Changes of single cells: the same as if the table had been typed so, or a complaint that offers the near name. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { renderComplaints } from '../../../src/render/complaints.js';
import { inspectTables } from '../../../src/tables/inspect-tables.js';
import { applySettings } from '../../../src/tables/overrides/apply-settings.js';
import { inspectLayers } from '../../../src/tables/overrides/inspect-layers.js';
import { keyedTables } from '../../../src/tables/overrides/keyed-tables.js';
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

test('a table that cannot be read is complained of once', () => {
  const { complaints } = inspectLayers(plainLayer({ ...soundTables, 'parts.csv': 'no\0table' }), [
    'parts.cap.ratio=1',
  ]);
  expect(complaints.map((c) => `${c.file} ${c.code}`)).toEqual(['parts.csv TAB04']);
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
});
