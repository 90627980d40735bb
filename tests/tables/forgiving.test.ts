// What a person reads without asking, the reader takes too, and lists it; what has two meanings is asked about.
import { describe, expect, test } from 'vitest';
import { columnNamed } from '../../src/tables/column-named.js';
import { dayNamed } from '../../src/tables/day-named.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { numberColumn } from '../../src/tables/number-column.js';
import { readCell } from '../../src/tables/read-cell.js';
import { routeColumns } from '../../src/tables/route-columns.js';
import { shiftColumns } from '../../src/tables/shift-columns.js';
import { stationColumns } from '../../src/tables/stations-table.js';
import { saidAbout, soundTables } from './sound-tables.js';

const point = { decimalComma: false };

test.each([
  ['6h30', '06:30'],
  ['14 h', '14:00'],
  ['6:30 am', '06:30'],
  ['12 p.m.', '12:00'],
  ['12am', '00:00'],
  ['6.30 Uhr', '06:30'],
  ['6.30', null],
  ['6', null],
  ['13 pm', null],
  ['25h', null],
])('the time of day %s', (text, taken) => {
  const reading = shiftColumns.start.read(text, point);
  expect(reading.ok ? reading.taken : null).toBe(taken);
});

test('rows without a part, below one with a part, are one complaint and not one about a single step too', () => {
  const routes = soundTables['routes.csv']!;
  const [head, first, ...rest] = routes.trimEnd().split('\n');
  const part = first!.slice(0, first!.indexOf(','));
  const blank = rest.map((row) => (row.startsWith(`${part},`) ? row.slice(part.length) : row));
  const { complaints } = inspectTables({ ...soundTables, 'routes.csv': [head, first, ...blank].join('\n') });
  expect(complaints.map(({ code, line }) => [code, line])).toEqual([['VAL01', 3]]);
});

describe('headers', () => {
  test.each([
    ['Cycle_S', 'cycle_s'],
    ['cycle s', 'cycle_s'],
    ['Cycle time (sec)', 'cycle_s'],
    ['CYCLE', 'cycle_s'],
    ['load-s', 'load_s'],
    ['Max wait [s]', 'max_wait_s'],
    ['Parts per cycle', 'parts_per_cycle'],
    ['robot time to place here (not at an infeed)', 'load_s'],
  ])('%s is %s', (header, name) => {
    expect(columnNamed(header, routeColumns)).toBe(name);
  });

  test.each(['cycle (min)', 'time', 'wait', 'load/unload', '', 's'])('%s is not taken for any', (header) => {
    expect(columnNamed(header, routeColumns)).toBeNull();
  });

  test('the column of just these words comes before one that has a unit more', () => {
    const columns = { cycle: routeColumns.cycle_s, cycle_s: routeColumns.cycle_s };
    expect(columnNamed('CYCLE', columns)).toBe('cycle');
  });

  test('of stations', () => {
    expect(columnNamed('MTBF (hours)', stationColumns)).toBe('mtbf_h');
    expect(columnNamed('MTBF (minutes)', stationColumns)).toBeNull();
    expect(columnNamed('Cost per hour', stationColumns)).toBe('cost_per_h');
    expect(columnNamed('x', stationColumns)).toBe('x_m');
  });

  test('each column is found by its own name in capitals, and by no other', () => {
    for (const columns of [routeColumns, stationColumns, shiftColumns])
      for (const name of Object.keys(columns)) expect(columnNamed(name.toUpperCase(), columns)).toBe(name);
  });

  test('a table with such headers gives the same cell, and each is listed', () => {
    const routes = soundTables['routes.csv']!.replace(
      'part,step,stations,cycle_s',
      'Part,Step,Stations,Cycle time (s)',
    );
    const { cell, readAs } = inspectTables({ ...soundTables, 'routes.csv': routes });
    expect(cell).toEqual(readCell(soundTables));
    expect(readAs.map(({ line, found, taken }) => [line, found, taken])).toEqual([
      [1, 'Part', 'part'],
      [1, 'Step', 'step'],
      [1, 'Stations', 'stations'],
      [1, 'Cycle time (s)', 'cycle_s'],
    ]);
  });

  test('a title above the headers is passed over', () => {
    const routes = `Cell 3, hall B; robot 2\n,,\n${soundTables['routes.csv']}`;
    const { cell, readAs, complaints } = inspectTables({ ...soundTables, 'routes.csv': routes });
    expect(complaints).toEqual([]);
    expect(cell?.routes[0]?.steps).toHaveLength(readCell(soundTables).routes[0]!.steps.length);
    expect(readAs).toEqual([
      {
        file: 'routes.csv',
        line: 1,
        column: null,
        found: 'Cell 3, hall B; robot 2',
        taken: 'a title; the headers are taken from line 3',
      },
    ]);
  });

  test('unknown headers without any known below them stay an error', () => {
    expect(saidAbout(['parts.csv', 'part,contribution', 'prat_x,contrabution'])).toContain('error TAB');
  });
});

describe('words', () => {
  const { attended, days } = shiftColumns;
  test.each(['Yes', 'TRUE', '1', 'x', 'X', 'ja', 'Oui', 'sí', 'si', 'wahr', 'VRAI', '✓', 'yes!'])(
    '%s is yes',
    (text) => {
      expect(attended.read(text, point)).toEqual({ ok: true, value: true, taken: 'yes' });
    },
  );
  test.each(['No', 'FALSE', '0', 'nein', 'Non', 'falsch', '(no)'])('%s is no', (text) => {
    expect(attended.read(text, point)).toEqual({ ok: true, value: false, taken: 'no' });
  });
  test.each(['2', 'maybe', 'xx', 'none'])('%s is neither', (text) => {
    expect(attended.read(text, point).ok).toBe(false);
  });
  test('yes and no as they stand are nothing to list', () => {
    expect(attended.read('yes', point)).toEqual({ ok: true, value: true });
  });
  test('kinds in capitals', () => {
    expect(stationColumns.kind.read('Machine', point)).toEqual({
      ok: true,
      value: 'machine',
      taken: 'machine',
    });
  });

  const week = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'];
  test.each([
    'Mo-Fr',
    'Mon–Fri',
    'Mon — Fri',
    'Mon to Fri',
    'monday till friday',
    'Montag bis Freitag',
    'lun-ven',
    'Weekdays',
    'MON-FRI',
  ])('%s is Mon-Fri', (text) => {
    expect(days.read(text, point)).toEqual({ ok: true, value: week, taken: 'Mon-Fri' });
  });
  test('lists, also with other signs between', () => {
    expect(days.read('Mo, We; Sat', point)).toEqual({
      ok: true,
      value: ['Mon', 'Wed', 'Sat'],
      taken: 'Mon,Wed,Sat',
    });
    expect(days.read('Mon, Wed', point)).toEqual({ ok: true, value: ['Mon', 'Wed'] });
  });
  test.each(['Di', 'M', 'T-F', 'Mon-', 'Mon-Fry', 'someday'])('%s is asked about', (text) => {
    expect(days.read(text, point)).toMatchObject({ ok: false, fault: { code: 'VAL12' } });
  });
  test('a day that is another in two languages is none', () => {
    expect(dayNamed('di')).toBeNull();
    expect(dayNamed('die')).toBe('Tue');
    expect(dayNamed('dim')).toBe('Sun');
  });
  test('settings and items in other spellings, also from outside', () => {
    const robot = soundTables['robot.csv']!.replace('speed_m_s', 'Speed m/s');
    const { cell, readAs } = inspectTables({ ...soundTables, 'robot.csv': robot });
    expect(cell?.robot).toEqual(readCell(soundTables).robot);
    expect(readAs).toMatchObject([{ file: 'robot.csv', found: 'Speed m/s', taken: 'speed_m_s' }]);
  });
});

describe('numbers', () => {
  const seconds = numberColumn('s', '', { words: 'seconds', min: 0 });
  const minutes = numberColumn('min', '', { words: 'minutes', min: 0 });
  const share = numberColumn('', '', { words: 'a chance', min: 0, max: 1 });
  const pct = numberColumn('%', '', { words: 'per cent', min: 0, max: 100 });
  test.each([
    ['5:10', 310],
    ['0:45', 45],
    ['05:10', 310],
    ['90:00', 5400],
    ['1:05:10', 3910],
    ['00:05:10', 310],
  ])('%s in seconds is %d', (text, value) => {
    expect(seconds.read(text, point)).toEqual({ ok: true, value, taken: String(value) });
  });
  test('05:10:00 may be minutes or hours, as spreadsheets make it of 5:10', () => {
    expect(seconds.read('05:10:00', point)).toMatchObject({
      ok: false,
      fault: {
        help: 'Write 310 if 5 minutes and 10 seconds are meant, 18600 if 5 hours and 10 minutes are.',
      },
    });
  });
  test.each(['5:75', '1:75:10', ':30', '5:1'])('%s is no time', (text) => {
    expect(seconds.read(text, point).ok).toBe(false);
  });
  test('in minutes a colon has two meanings', () => {
    expect(minutes.read('5:10', point)).toMatchObject({
      ok: false,
      fault: { help: expect.stringContaining('has two meanings') },
    });
  });
  test('shares with their sign', () => {
    expect(pct.read('98%', point)).toEqual({ ok: true, value: 98, taken: '98' });
    expect(pct.read('12,5%', point)).toEqual({ ok: true, value: 12.5, taken: '12.5' });
    expect(share.read('15%', point)).toEqual({ ok: true, value: 0.15, taken: '0.15' });
    expect(pct.read('120%', point)).toMatchObject({ ok: false, fault: { code: 'VAL03' } });
    expect(seconds.read('15%', point).ok).toBe(false);
  });
});

test('an empty first column is the same as above only where something stands above', () => {
  const { complaints } = inspectTables({
    ...soundTables,
    'parts.csv': 'part,ratio\n,1\n,2\ncap,3\n,4\n,5\nlid,6\n,7\n',
  });
  const again = 'Is it the same as above, ';
  expect(complaints.filter(({ code }) => code === 'VAL01').map(({ line, help }) => [line, help])).toEqual([
    [2, null],
    [3, null],
    [5, `${again}\`cap\`? Then write it in each of these rows, too.`],
    [8, `${again}\`lid\`? Then write it in this row, too.`],
  ]);
});

test('a first column that is filled in once for its rows: one complaint, which offers the same as above', () => {
  expect(saidAbout(['routes.csv', 'cap,2,', ',2,'], ['routes.csv', 'cap,3,', ',3,'])).toContain(
    `routes.csv, line 3, column part  error VAL01
  Found nothing here and down to line 4, expected a name of at most 64 characters.`,
  );
  expect(saidAbout(['routes.csv', 'cap,2,', ',2,'])).toContain(
    'Fix: Is it the same as above, `cap`? Then write it in this row, too.',
  );
});
