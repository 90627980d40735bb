/** Sizes beyond the stated limits are refused with a message; sizes at the limits are read. */
import { describe, expect, test } from 'vitest';
import { renderComplaints } from '../../src/render/complaints.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { tableLimits } from '../../src/tables/limits.js';
import { soundTables } from './sound-tables.js';

function said(tables: Record<string, string>): string {
  return renderComplaints(inspectTables({ ...soundTables, ...tables }).complaints, { colour: false });
}

function repeated(count: number, row: (i: number) => string): string {
  return Array.from({ length: count }, (_, i) => row(i)).join('\n');
}

test('TAB03 a table beyond the size', () => {
  const text = `part,ratio\n${'#'.repeat(tableLimits.bytesPerTable)}\n`;
  expect(said({ 'parts.csv': text })).toBe(`parts.csv  error TAB03
  The table has 8388620 bytes, at most 8388608 (8 MB) are read.
  Fix: Leave out rows that the cell does not use, or check that this is the right file.

1 error in 1 file. No results.
`);
});

test('TAB14 a table with too many rows', () => {
  const text = `from,to,empty_s\n${repeated(tableLimits.rowsPerTable + 1, () => 'rack,done,1')}\n`;
  expect(said({ 'travel.csv': text })).toBe(`travel.csv  error TAB14
  The table has 200001 rows, at most 200000 are read.
  Fix: Leave out rows that the cell does not use.

1 error in 1 file. No results.
`);
});

describe('STA05 stations', () => {
  const stations = (count: number) =>
    `station,kind\nin,infeed\nout,outfeed\n${repeated(count - 2, (i) => `m${i},machine`)}\n`;
  const steps = (count: number) =>
    `cap,0,in\n${repeated(count - 2, (i) => `cap,${i + 1},m${i}`)}\ncap,999,out\n`;
  const cell = (count: number) => ({
    'stations.csv': stations(count),
    'routes.csv': `part,step,stations\n${steps(count)}`,
    'robot.csv': 'setting,value\ntravel_s,3\n',
  });

  test('at the limit', () => {
    const { cell: read, complaints } = inspectTables(cell(500));
    expect(complaints).toEqual([]);
    expect(read?.stations).toHaveLength(500);
  });

  test('beyond it', () => {
    const { complaints } = inspectTables(cell(501));
    expect(renderComplaints(complaints, { colour: false })).toBe(`stations.csv  error STA05
  The table lists 501 stations, at most 500 are read.
  Fix: Leave out stations that no route visits.

1 error in 1 file. No results.
`);
  });
});

test('ROU10 too many parts', () => {
  const routes = `part,step,stations\n${repeated(201, (i) => `p${i},1,rack\np${i},2,mill_1|mill_2|gauge\np${i},3,done`)}\n`;
  const stations =
    'station,kind,x_m,y_m\nrack,infeed,0,0\nmill_1,machine,1,0\nmill_2,machine,2,0\ngauge,bench,1,1\ndone,outfeed,3,0\n';
  const tables = {
    'stations.csv': stations,
    'routes.csv': routes,
    'parts.csv': 'part\np1\n',
    'jobs.csv': 'job,part,quantity\n1,p1,5\n',
  };
  expect(said(tables)).toBe(`routes.csv  error ROU10
  The table lists 201 parts, at most 200 are read.
  Fix: Plan families of parts with like times as one part.

1 error in 1 file. No results.
`);
});

test('a name of 64 characters is read', () => {
  const part = 'ü'.repeat(64);
  const routes = (soundTables['routes.csv'] ?? '').replaceAll('cap,', `${part},`);
  const { 'jobs.csv': _jobs, ...tables } = soundTables;
  const { cell } = inspectTables({ ...tables, 'routes.csv': routes, 'parts.csv': `part\n${part}\n` });
  expect(cell?.parts[0]?.part).toBe(part);
});

test('like complaints beyond a hundred are counted', () => {
  const stops = `station,name,every_h,minutes\n${repeated(150, (i) => `mill_1,stop ${i},8,x`)}\n`;
  const { complaints } = inspectTables({ ...soundTables, 'stops.csv': stops });
  expect(complaints).toHaveLength(101);
  expect(complaints.at(-1)).toEqual({
    code: 'VAL02',
    severity: 'error',
    file: 'stops.csv',
    line: 101,
    column: 'minutes',
    text: '50 more of this kind follow in this table',
    excerpt: null,
    help: 'Correct those shown above; they often share one cause.',
  });
});

test('pairs of stations without a time beyond twenty are counted', () => {
  const stations = `station,kind\nin,infeed\nout,outfeed\n${repeated(6, (i) => `m${i},machine`)}\n`;
  const routes = `part,step,stations\ncap,0,in\n${repeated(6, (i) => `cap,${i + 1},m${i}`)}\ncap,9,out\n`;
  const tables = { 'stations.csv': stations, 'routes.csv': routes, 'robot.csv': 'setting,value\nhands,1\n' };
  const [first, ...more] = inspectTables(tables).complaints;
  expect(more).toEqual([]);
  expect(first?.text.startsWith('no robot time is given for 28 pairs of stations: `in` and `m0`; ')).toBe(
    true,
  );
  expect(first?.text.endsWith('; and 8 more')).toBe(true);
  expect(first?.text.split(';')).toHaveLength(21);
});
