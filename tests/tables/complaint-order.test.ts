/** All complaints of all tables come in one run, each cause once, in the order in which people read. */
import { describe, expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { readCell } from '../../src/tables/read-cell.js';
import { TablesError } from '../../src/tables/tables-error.js';
import { type Change, changedTables, saidAbout, soundTables } from './sound-tables.js';

function codes(...changes: readonly Change[]): string[] {
  return inspectTables(changedTables(changes)).complaints.map(
    (c) => `${c.file} ${c.line} ${c.column} ${c.code}`,
  );
}

test('the sound tables are sound', () => {
  expect(saidAbout()).toBe('');
  expect(inspectTables(soundTables).cell).not.toBeNull();
});

test('by file, line and column', () => {
  const said = codes(
    ['stops.csv', '50,,4,yes', '50,,four,perhaps'],
    ['costs.csv', '38,34,45', '38,forty,45'],
    ['routes.csv', '240,12,10', '240,-12,-10'],
    ['stations.csv', 'gauge,bench', 'gauge,bank'],
    ['routes.csv', 'brush,15', 'brush,x'],
  );
  expect(said).toEqual([
    'costs.csv 2 low VAL02',
    'routes.csv 3 load_s VAL03',
    'routes.csv 3 unload_s VAL03',
    'routes.csv 4 cycle_s VAL02',
    'stations.csv 5 kind VAL05',
    'stops.csv 2 minutes VAL02',
    'stops.csv 2 operator VAL05',
  ]);
});

describe('each cause once', () => {
  test('a station with a fault elsewhere in its row is still known to other tables', () => {
    expect(codes(['stations.csv', 'mill_1,machine,1', 'mill_1,machine,one'])).toEqual([
      'stations.csv 3 x_m VAL02',
    ]);
  });

  test('a table that cannot be read leaves those that refer to it alone', () => {
    expect(codes(['stations.csv', null, 'no\0table'])).toEqual(['stations.csv null null TAB04']);
    expect(codes(['routes.csv', null])).toEqual(['routes.csv null null TAB01']);
    expect(codes(['stations.csv', 'mill_1,machine', '"mill_1,machine'])).toEqual([
      'stations.csv 3 null TAB09',
    ]);
    expect(codes(['stations.csv', 'station,kind', 'name,kind'])).toEqual([
      'stations.csv 1 name TAB10',
      'stations.csv 1 station TAB11',
    ]);
  });

  test('a faulty end of a route does not make another step the end', () => {
    expect(codes(['routes.csv', 'cap,5,done,,4', 'cap,5,done,,x'])).toEqual(['routes.csv 6 load_s VAL02']);
  });

  test('a speed that cannot be read does not leave pairs without a time', () => {
    expect(codes(['robot.csv', 'speed_m_s,1', 'speed_m_s,fast'])).toEqual(['robot.csv 3 value VAL02']);
  });

  test('tables that were complained of elsewhere are not missing', () => {
    const { 'routes.csv': _, ...tables } = soundTables;
    expect(inspectTables(tables, ['routes.csv'])).toMatchObject({ cell: null, complaints: [] });
    const { 'travel.csv': __, ...others } = soundTables;
    expect(inspectTables(others, ['travel.csv'])).toMatchObject({ cell: null, complaints: [] });
  });
});

describe('files beside the tables', () => {
  test('hidden files and other endings are passed over', () => {
    const tables = {
      ...soundTables,
      '.routes.csv': 'x',
      'notes.txt': 'x',
      'routes.csv~': 'x',
      'sheet.xlsx': 'x',
    };
    expect(inspectTables(tables).complaints).toEqual([]);
  });

  test('an empty folder lacks the needed tables', () => {
    expect(inspectTables({}).complaints.map((c) => c.file)).toEqual([
      'robot.csv',
      'routes.csv',
      'stations.csv',
    ]);
  });
});

describe('readCell', () => {
  test('throws one error that carries all complaints', () => {
    const tables = changedTables([
      ['parts.csv', 'cap,', 'cop,'],
      ['stops.csv', 'yes', 'perhaps'],
    ]);
    const caught = (() => {
      try {
        return readCell(tables);
      } catch (error) {
        return error;
      }
    })();
    expect(caught).toBeInstanceOf(TablesError);
    expect((caught as TablesError).complaints.map((c) => c.code)).toEqual(['VAL10', 'VAL05']);
    expect((caught as TablesError).message).toBe(
      'the tables hold errors; the first: parts.csv, line 2, part: found `cop`, expected a part of routes.csv',
    );
  });

  test('names the first error, where it is of a whole table too, not a warning before it', () => {
    const tables = changedTables([
      ['costs.csv', 'depreciation,none', 'tax_pct,0.28'],
      ['routes.csv', null],
    ]);
    expect(() => readCell(tables)).toThrow(
      expect.objectContaining({
        name: 'TablesError',
        message: 'the tables hold errors; the first: routes.csv: the table is needed and is not there',
      }),
    );
  });

  test('passes over warnings', () => {
    const tables = changedTables([['costs.csv', 'depreciation,none', 'tax_pct,0.28']]);
    expect(readCell(tables).costs.find((c) => c.item === 'tax_pct')).toMatchObject({ value: 0.28 });
  });
});

test('of ways nothing is said while a table that gives them is broken', () => {
  const broken: Change = ['travel.csv', 'rack,mill_1,1.6', 'rack,mill_1,x'];
  expect(codes(broken, ['robot.csv', 'speed_m_s,1\naccel_m_s2,2\n', ''])).toEqual([
    'travel.csv 2 empty_s VAL02',
  ]);
});

test.each(['stations.csv', 'routes.csv'])('%s needs a row', (file) => {
  const header = soundTables[file]!.split('\n')[0]!;
  expect(codes([file, null, `${header}\n`])).toContain(`${file} null null TAB07`);
});
