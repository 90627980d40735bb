// Reading the text of a log: forms of time, spreadsheet forms, broken lines, and what is refused.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test, vi } from 'vitest';
import { LogAnalysis } from '../../../src/core/log/log-analysis.js';
import type { LogClock } from '../../../src/core/log/log-clock.js';
import { FINISH, PICK, recordCode, START } from '../../../src/core/log/signals.js';
import { CSV_FORMS } from '../../../src/core/model/csv-form.js';
import { renderComplaints } from '../../../src/render/complaints.js';
import { LogReader, type LogReading } from '../../../src/tables/log/log-reader.js';
import { LogTimeReader } from '../../../src/tables/log/read-log-time.js';
import { PLAIN_READING, readLog } from '../../support/simulated-log.js';

interface Outcome {
  readonly said: string;
  readonly clock: LogClock | null;
  readonly analysis: LogAnalysis;
}

function read(text: string, more: Partial<LogReading> = {}, pieceLength = 7): Outcome {
  const analysis = new LogAnalysis();
  const reader = new LogReader({ ...PLAIN_READING, ...more }, analysis);
  for (let at = 0; at < text.length; at += pieceLength)
    if (!reader.push(text.slice(at, at + pieceLength))) break;
  const { complaints, clock } = reader.end();
  return { said: renderComplaints(complaints, { colour: false }), clock, analysis };
}

const damageOf = ({ analysis }: Outcome): [string, string, number, number | null][] =>
  analysis.damage.entries().map((d) => [d.kind, d.what, d.count, d.firstLine]);

const CYCLES = ['0,m,start', '60,m,finish', '100,m,start', '160,m,finish'];
const log = (rows: readonly string[], header = 'time,station,signal'): string =>
  `${header}\n${rows.join('\n')}\n`;
const cycleOf = ({ analysis }: Outcome) => analysis.tracks[0]?.cycle.all.summary(0.95);

describe('a time', () => {
  test('of a date is the moment that Temporal reads', () => {
    const reader = new LogTimeReader();
    const offset = fc.integer({ min: -14 * 60, max: 14 * 60 });
    const ms = fc.integer({ min: Date.UTC(1970, 0, 3), max: Date.UTC(2100, 0, 1) });
    fc.assert(
      fc.property(ms, offset, (at, minutes) => {
        const zone = `${minutes < 0 ? '-' : '+'}${String(Math.floor(Math.abs(minutes) / 60)).padStart(2, '0')}:${String(Math.abs(minutes) % 60).padStart(2, '0')}`;
        const text = Temporal.Instant.fromEpochMilliseconds(at).toString({
          timeZone: zone,
          fractionalSecondDigits: 3,
        });
        expect(reader.read(`x${text}y`, 1, 1 + text.length)).toBe(true);
        const seconds = reader.day * 86_400 + reader.seconds - reader.offsetMin * 60;
        expect(seconds * 1000).toBeCloseTo(at, 2);
        expect(reader.form).toBe('zoned');
      }),
    );
  });

  test('in seconds is the number that is written', () => {
    const reader = new LogTimeReader();
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e9, noNaN: true }), (value) => {
        const text = String(value);
        expect(reader.read(text, 0, text.length)).toBe(true);
        expect(Math.abs(reader.seconds - value)).toBeLessThanOrEqual(1e-12 * value);
      }),
    );
  });

  const BASE_S = Date.UTC(2026, 9, 19) / 1000;
  const moment = (reader: LogTimeReader): number =>
    reader.day * 86_400 + reader.seconds - 60 * reader.offsetMin;

  test.each<[string, LogClock['form'], number, number, number]>([
    ['2026-10-19T06:00:00Z', 'zoned', BASE_S + 6 * 3600, 0, 0],
    ['2026-10-19t06:00:07z', 'zoned', BASE_S + 6 * 3600 + 7, 0, 0],
    ['2026-10-19 06:00:00.5+0200', 'zoned', BASE_S + 4 * 3600 + 0.5, 120, 1],
    ['2026-10-19T06:00+02', 'zoned', BASE_S + 4 * 3600, 120, 0],
    ['2026-10-19T06:00-15:59', 'zoned', BASE_S + 22 * 3600 - 60, -959, 0],
    ['2026-10-19T06:00', 'local', BASE_S + 6 * 3600, 0, 0],
    ['2026-10-19T23:59:59,125', 'local', BASE_S + 86_399.125, 0, 3],
    ['1970-01-01T00:00', 'local', 0, 0, 0],
    ['-12.50', 'seconds', -12.5, 0, 2],
    ['-0', 'seconds', 0, 0, 0],
    ['12.', 'seconds', 12, 0, 0],
    ['0,25', 'seconds', 0.25, 0, 2],
    ['+7.5', 'seconds', 7.5, 0, 1],
    ['.125', 'seconds', 0.125, 0, 3],
    ['-.5', 'seconds', -0.5, 0, 1],
    ['-0,25', 'seconds', -0.25, 0, 2],
    ['1,5e3', 'seconds', 1500, 0, 1],
    ['1.5e-3', 'seconds', 0.0015, 0, 1],
    ['-12e2', 'seconds', -1200, 0, 0],
    ['12.25E1', 'seconds', 122.5, 0, 2],
    ['0000000000000000012.5', 'seconds', 12.5, 0, 1],
    ['0.1234567890123', 'seconds', 0.1234567890123, 0, 9],
    ['0.1234567890123e0', 'seconds', 0.1234567890123, 0, 9],
    ['1000000000000', 'seconds', 1e12, 0, 0],
    ['1e12', 'seconds', 1e12, 0, 0],
  ])('%s is read, wherever it stands', (text, form, at, offsetMin, digits) => {
    const reader = new LogTimeReader();
    for (const before of ['', '2026-10-19T06:00:00+02:00,'])
      for (const behind of ['', ',m,start', '5', ':30', '.5', '+02', 'e1']) {
        const from = before.length;
        reader.read(before, 0, from);
        expect(reader.read(before + text + behind, from, from + text.length)).toBe(true);
        expect(moment(reader)).toBeCloseTo(at, 12);
        expect([reader.form, reader.offsetMin, reader.digits]).toEqual([form, offsetMin, digits]);
      }
  });

  test.each([
    '',
    '12:30',
    '2026-13-01T00:00:00Z',
    '2026-00-01T00:00:00Z',
    '2026-02-30T00:00:00Z',
    '2026-10-00T00:00:00Z',
    '2026-10-99T00:00:00Z',
    '1969-12-31T23:59:59Z',
    '2026-10-19',
    '2026-10-19T24:00:00Z',
    '2026-10-19T06:60:00Z',
    '2026-10-19T06:00:61Z',
    '2026-10-19T06:00:00+25:00',
    '2026-10-19T06:00:00+16:00',
    '2026-10-19T06:00:00+02:60',
    '2026-10-19T06:00:00+02:000',
    '2026-10-19T06:00:00 02:00',
    '2026-10-19T06:00:00 Z',
    '2026-10-19T06:00:00Zx',
    '2026-10-19-06:00:00Z',
    '2026-10/19T06:00:00Z',
    '2026-10-19T06.00:00Z',
    '0x10',
    '1e999',
    '1000000000001',
    '1000000000000.5',
    '-1e13',
    '12 s',
    '5 12',
    '--5',
    '1.2.3',
    '1.e',
    'e5',
    'NaN',
    '.',
    '-',
  ])('`%s` is no time', (text) => {
    expect(new LogTimeReader().read(text, 0, text.length)).toBe(false);
  });

  test('that is read with one character changed is read by Temporal as well, and the same', () => {
    const text = '2026-10-19T06:00:00.250+02:00';
    const reader = new LogTimeReader();
    const signs = [...'0123456789/:;-+TZ. '];
    for (const at of [...text].keys())
      for (const sign of signs) {
        const changed = text.slice(0, at) + sign + text.slice(at + 1);
        if (!reader.read(changed, 0, changed.length)) continue;
        const instant = Temporal.Instant.from(reader.form === 'local' ? `${changed}Z` : changed);
        expect(moment(reader) * 1000, changed).toBeCloseTo(instant.epochMilliseconds, 2);
      }
  });

  test('that is cut off is what is left of it, whatever stands behind', () => {
    const reader = new LogTimeReader();
    for (const text of ['2026-10-19T06:00:00.250+02:00', '1234.5678e12'])
      for (let end = 0; end < text.length; end++) {
        const left = text.slice(0, end);
        const isTime = reader.read(left, 0, end);
        const at = moment(reader);
        expect(reader.read(text, 0, end), left).toBe(isTime);
        if (isTime) expect(moment(reader)).toBe(at);
      }
  });

  test('of another date than the one before is the other date', () => {
    const reader = new LogTimeReader();
    for (const date of ['2026-10-19', '2024-10-20', '2026-10-19', '2010-11-19', '2026-10-20', '2026-09-20'])
      expect([reader.read(`${date}T00:00`, 0, 16), reader.day]).toEqual([true, Date.parse(date) / 864e5]);
  });
});

describe('the text of a log', () => {
  test('comes out the same in pieces of any length', () => {
    const text = log(['0,m,start', '60.5,"m",finish', '', '# note', '100,m,start\r', '160.25,m,finish']);
    const whole = cycleOf(read(text, {}, 1e6));
    expect(whole).toMatchObject({ n: 2, total: 60.5 + 60.25 });
    for (const length of [1, 2, 3, 5, 11]) expect(cycleOf(read(text, {}, length))).toEqual(whole);
  });

  test('may have its columns in any order, semicolons, decimal commas, quotation marks and a part', () => {
    const text = log(
      ['start;"a, b";0,5;"m ""1"""', 'finish;"a, b";60,75;"m ""1"""'],
      'signal;part;time;station',
    );
    const outcome = read(text);
    expect(cycleOf(outcome)).toMatchObject({ n: 1, mean: 60.25 });
    expect(outcome.analysis.stations.list).toEqual(['m "1"']);
    expect(outcome.analysis.parts.list).toEqual(['a, b']);
  });

  test('other names for signals and stations are taken as said', () => {
    const renames = new Map([
      ['cycle_running', 'start'],
      ['CYC_END', 'finish'],
      ['M1', 'mill'],
    ]);
    const outcome = read(log(['0,M1,cycle_running', '50,M1,CYC_END']), { renames, stations: ['mill'] });
    expect(cycleOf(outcome)).toMatchObject({ mean: 50 });
    expect(outcome.analysis.stations.list).toEqual(['mill']);
  });

  test('times in several zones are taken at their own moment, and told', () => {
    const outcome = read(
      log([
        '2026-10-25T02:59:00+02:00,m,start',
        '2026-10-25T02:00:00+01:00,m,finish',
        '2026-10-25T01:01:00Z,m,start',
      ]),
    );
    expect(cycleOf(outcome)).toMatchObject({ mean: 60 });
    expect(damageOf(outcome)).toEqual([['other zone', '', 2, 3]]);
  });

  describe('over the end of summer time', () => {
    // A start every half minute for nine hours; the clock goes back in the middle of them.
    const first = Temporal.Instant.from('2026-10-24T20:00:00Z');
    const moments = Array.from({ length: 1080 }, (_, k) => first.add({ seconds: 30 * k }));
    const written = (at: Temporal.Instant, zone: string): string =>
      at.toZonedDateTimeISO(zone).toString({ timeZoneName: 'never' });
    const rows = (zone: string) => moments.map((at) => `${written(at, zone)},m,start`);
    const local = rows('Europe/Berlin').map((row) => row.replace(/\+\d\d:\d\d/, ''));

    test('times in the named zone are no damage, with their offset or without', () => {
      for (const text of [log(local), log(rows('Europe/Berlin'))]) {
        const outcome = read(text, { zone: 'Europe/Berlin' }, 1e6);
        expect(damageOf(outcome).filter(([kind]) => kind === 'other zone')).toEqual([]);
        expect(outcome.analysis.line.lastS - outcome.analysis.line.firstS).toBe(30 * 1079);
      }
    });

    test('the change is counted once where no zone is named, or where it is not that of the zone', () => {
      const change = 2 + moments.findIndex((at) => at.epochMilliseconds === Date.UTC(2026, 9, 25, 1));
      expect(damageOf(read(log(rows('Europe/Berlin')), {}, 1e6))).toContainEqual([
        'other zone',
        '',
        1,
        change,
      ]);
      const elsewhere = read(log(rows('Europe/Berlin')), { zone: 'Asia/Tokyo' }, 1e6);
      expect(damageOf(elsewhere)).toContainEqual(['other zone', '', 1, change]);
    });
  });

  test('times without a zone in a named zone stand the change of the clocks', () => {
    // 02:59 comes twice that night; a minute after the first 02:59 the clock shows 02:00 again.
    const rows = [
      '2026-10-25 02:58:00,m,start',
      '2026-10-25 02:59:00,m,finish',
      '2026-10-25 02:00:00,m,start',
      '2026-10-25 02:59:30,m,finish',
      '2026-10-25 03:00:00,m,start',
      '2026-10-25 03:01:00,m,finish',
    ];
    const outcome = read(log(rows), { zone: 'Europe/Berlin' });
    expect(cycleOf(outcome)).toMatchObject({ n: 3, total: 60 + 59.5 * 60 + 60 });
    expect(outcome.clock?.form).toBe('zoned');
    expect(() => read(log(rows), { zone: 'Europe/Nowhere' })).toThrow(RangeError);
  });

  test('broken lines are left out and counted with their first line', () => {
    const good = Array.from({ length: 200 }, (_, k) => [
      `${100 * k},m,start`,
      `${100 * k + 60},m,finish`,
    ]).flat();
    const bad = [
      'noon,m,start',
      '7,,start',
      '8,m,',
      '9,m,start,1,2',
      '2026-10-19T06:00:00Z,m,start',
      '1',
      `${'x'.repeat(70)},m,start`,
      '11,"m,start',
    ];
    const outcome = read(log([...good.slice(0, 10), ...bad, ...good.slice(10)]));
    expect(outcome.said).toBe('');
    expect(cycleOf(outcome)?.n).toBe(200);
    expect(damageOf(outcome)).toEqual([
      ['broken line', 'time', 2, 12],
      ['broken line', 'signal', 2, 14],
      ['broken line', 'station', 1, 13],
      ['broken line', 'columns', 1, 15],
      ['broken line', 'time in another form', 1, 16],
      ['broken line', 'quotation mark', 1, 19],
    ]);
  });

  test.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty'])(
    '`%s` is a name like any other',
    (name) => {
      const rows = [...CYCLES, `200,m,${name}`];
      expect(damageOf(read(log(rows)))).toEqual([['unknown signal', name, 1, 6]]);
      const renamed = read(log(rows), { renames: new Map([[name, 'start']]) });
      expect(damageOf(renamed)).toEqual([]);
      const value = read(log([`0,m,start,${name}`], 'time,station,signal,value'));
      expect(value.said).toContain(`Found \`${name}\`, expected \`1\` for a rise`);
      const strange = read(log([...CYCLES, `200,${name},start`]), { stations: ['m'] });
      expect(damageOf(strange)).toEqual([['unknown station', name, 1, 6]]);
    },
  );

  test('unknown signals and stations are left out, counted and named', () => {
    const rows = [...CYCLES, '200,m,door_open', '201,m,door_open', '202,x,start'];
    const outcome = read(log(rows), { stations: ['m'] });
    expect(damageOf(outcome)).toEqual([
      ['unknown signal', 'door_open', 2, 6],
      ['unknown station', 'x', 1, 8],
    ]);
  });

  test('a line without an end does not fill the memory', () => {
    const outcome = read(`${log(CYCLES)}${'9'.repeat(50_000)}\n300,m,start\n360,m,finish\n`, {}, 1000);
    expect(cycleOf(outcome)?.n).toBe(3);
    expect(damageOf(outcome)).toContainEqual(['broken line', 'time', 1, 6]);
  });
});

describe('refused, with the whole printed text', () => {
  test('an empty log', () => {
    expect(read('# nothing\n\n').said).toBe(`run.csv  error TAB06
  The log is empty, expected a header row.
  Fix: Begin with \`time,station,signal\`.

1 error in 1 file. No results.
`);
  });

  test('a header with an unknown and a missing column', () => {
    const { said } = read('time,staton,signal\n0,m,start\n');
    expect(said).toContain('found the unknown column `staton`'.replace('f', 'F'));
    expect(said).toContain('Did you mean `station`?');
  });

  test('tabs, and a file that is no text', () => {
    expect(read('time\tstation\tsignal\n').said).toContain('error TAB08');
    expect(read('t\0i\0m\0e\0\n').said).toBe(`run.csv  error TAB04
  The file is not a text table: it holds NUL characters.
  Fix: Save the log as CSV in UTF-8.

1 error in 1 file. No results.
`);
  });

  test('a log of which too much is broken', () => {
    const { said } = read(log([...CYCLES, 'noon,m,start', '2026-10-19,m,start']));
    expect(said).toBe(`run.csv  error LOG01
  2 of 6 lines cannot be read, at most 10% may be broken.
  Fix: Correct the kinds of fault shown; each often has one cause.

run.csv, line 6, column time  error LOG04
  Found \`noon\` as a time, expected seconds, or a date and time such as \`2026-10-19T06:00:00.250+02:00\`; one form throughout the log.
    6 │ noon,m,start
      │ ~~~~

run.csv, line 7, column time  error LOG04
  Found \`2026-10-19\` as a time, expected seconds, or a date and time such as \`2026-10-19T06:00:00.250+02:00\`; one form throughout the log.
    7 │ 2026-10-19,m,start
      │ ~~~~~~~~~~
  Fix: A date alone is not enough; write the time of day as well.

3 errors in 1 file. No results.
`);
  });

  test('a log without a known signal, or without a station of the cell', () => {
    expect(read(log(['0,m,strat', '60,m,cyc_end'])).said).toBe(`run.csv  error LOG02
  No line carries a signal that is known here; found \`strat\`, \`cyc_end\`.
  Fix: Say what they mean, such as \`--rename strat=start\`. Known signals: arrive, place, placed, start, stop, attend, run, pause, resume, finish, ready, pick, picked, leave.

1 error in 1 file. No results.
`);
    expect(read(log(['0,mil,start']), { stations: ['mill', 'wash'] }).said).toContain('Did you mean `mill`?');
  });

  test('lines of every kind that cannot be read', () => {
    const header = 'time,station,signal,value';
    const rows = [
      '1,m',
      '2,"m,start',
      '3,m,start,up',
      '4,m,start,1,5,6',
      '5, - ,start',
      ' 2026-10-19 ,m,start',
      'x2026-10-19,m,start',
    ];
    expect(read(log(rows, header)).said).toBe(`run.csv  error LOG02
  The log has no line that can be used.

run.csv, line 2, column signal  error VAL01
  A needed value is missing: the signal.
    2 │ 1,m
      │ ~~~

run.csv, line 3  error TAB09
  A quotation mark is not closed, or text follows the closing one.
    3 │ 2,"m,start
      │ ~~~~~~~~~~

run.csv, line 4, column value  error VAL05
  Found \`up\`, expected \`1\` for a rise, \`0\` for a drop, or nothing.
    4 │ 3,m,start,up
      │           ~~

run.csv, line 5  error TAB13
  Found 6 values, expected 4.
    5 │ 4,m,start,1,5,6
      │ ~~~~~~~~~~~~~~~
  Fix: Look for a delimiter too many, such as a decimal comma.

run.csv, line 6, column station  error VAL01
  A needed value is missing: the station.
    6 │ 5, - ,start
      │    ~

run.csv, line 7, column time  error LOG04
  Found \`2026-10-19\` as a time, expected seconds, or a date and time such as \`2026-10-19T06:00:00.250+02:00\`; one form throughout the log.
    7 │  2026-10-19 ,m,start
      │  ~~~~~~~~~~
  Fix: A date alone is not enough; write the time of day as well.

run.csv, line 8, column time  error LOG04
  Found \`x2026-10-19\` as a time, expected seconds, or a date and time such as \`2026-10-19T06:00:00.250+02:00\`; one form throughout the log.
    8 │ x2026-10-19,m,start
      │ ~~~~~~~~~~~

8 errors in 1 file. No results.
`);
  });

  test('a log without a line to go by', () => {
    expect(read(log(['1,m', '2,m'])).said).toContain(`run.csv  error LOG02
  The log has no line that can be used.

`);
    const names = Array.from({ length: 11 }, (_, k) => `q${k}`);
    expect(
      read(log(names.map((name) => `1,${name},start`)), { stations: ['m'] }).said,
    ).toBe(`run.csv  error LOG02
  No line names a station of the cell; found ${names
    .slice(0, 10)
    .map((name) => `\`${name}\``)
    .join(', ')}.
  Fix: Known stations: m.

1 error in 1 file. No results.
`);
    expect(read(log(names.map((name) => `1,m,${name}`))).said).toContain(
      `found ${names
        .slice(0, 10)
        .map((name) => `\`${name}\``)
        .join(', ')}.\n`,
    );
  });

  test('times in two forms, and more stations than the limit', () => {
    const { said } = read(log(['0,m,start', '2026-10-19T06:00:00Z,m,finish']));
    expect(said).toContain('run.csv, line 3, column time  error LOG05');
    expect(said).toContain('which is written in another form than the times before it');
    expect(said).toContain(
      'Fix: Give every time its zone, or none; with `--zone` those without one are read',
    );
    const many = Array.from({ length: 600 }, (_, k) => `${k},m${k},start`);
    expect(read(log(many)).said).toContain('run.csv, line 502, column station  error LOG03');
  });
});

describe('what the analysis is given', () => {
  /** Records as they arrive: time, station, code, part and line; and how the clock began. */
  function records(text: string, more: Partial<LogReading> = {}, pieceLength = 7) {
    const analysis = new LogAnalysis();
    const add = vi.spyOn(analysis, 'add');
    const begin = vi.spyOn(analysis, 'begin');
    const reader = new LogReader({ ...PLAIN_READING, ...more }, analysis);
    for (let at = 0; at < text.length; at += pieceLength) reader.push(text.slice(at, at + pieceLength));
    const { clock, complaints } = reader.end();
    const taken = add.mock.calls.map(([at, station, code, part, line]) => [
      ...[at, analysis.stations.list[station], code, analysis.parts.list[part] ?? null, line],
    ]);
    return { taken, clock, begun: begin.mock.calls, complaints, damage: analysis.damage.entries() };
  }

  test('each value without the spaces around it, quoted or not, also of the last line without an end', () => {
    const text = [
      'time,station,signal,value,part',
      ' 1 ,\tmill , start, 1 , cap ',
      '"2"," mill ","finish","","a, b"\r',
      '3,mill,start,-,-',
      '4,mill,"finish"\r',
      '5,mill,pick',
    ].join('\n');
    const wanted = [
      [1, 'mill', recordCode(START, 1), 'cap', 2],
      [2, 'mill', FINISH, 'a, b', 3],
      [3, 'mill', START, null, 4],
      [4, 'mill', FINISH, null, 5],
      [5, 'mill', PICK, null, 6],
    ];
    for (const length of [1, 7, 1e6]) expect(records(text, {}, length).taken).toEqual(wanted);
    expect(records(`${text}\n`).taken).toEqual(wanted);
  });

  test('nothing of blank lines, separators alone and comments', () => {
    const text = log([
      '',
      '  ',
      ', ,',
      ';;',
      '# 1,m,start',
      ' # 2,m,start',
      '"# 3","m","start"',
      '4,m,start',
    ]);
    for (const length of [7, 1e6]) {
      const { taken, damage } = records(text, {}, length);
      expect(taken).toEqual([[4, 'm', START, null, 9]]);
      expect(damage).toEqual([]);
    }
  });

  test.each<[string, 0 | 1 | null]>([
    ['1', 1],
    ['1.0', 1],
    ['True', 1],
    ['ON', 1],
    ['0', 0],
    ['0.0', 0],
    ['FALSE', 0],
    ['off', 0],
    ['-', null],
    ['', null],
  ])('the value `%s`', (text, value) => {
    const { taken } = records(log([`5,m,pick,${text}`], 'time,station,signal,value'));
    expect(taken).toEqual([[5, 'm', recordCode(PICK, value), null, 2]]);
  });

  test('empty values beyond the header, however many, and none where a line ends early', () => {
    const header = 'time,station,signal,part';
    const { taken, damage } = records(log([`1,m,start,cap${','.repeat(40)}`, '2,m', '3,m,finish'], header));
    expect(taken).toEqual([
      [1, 'm', START, 'cap', 2],
      [3, 'm', FINISH, null, 4],
    ]);
    expect(damage).toMatchObject([{ kind: 'broken line', what: 'signal', count: 1, firstLine: 3 }]);
  });

  test('a part of any name, whatever the stations of the cell', () => {
    const text = log(['1,m,start,x', '2,q,start,y'], 'time,station,signal,part');
    expect(records(text, { stations: ['m'] }).taken).toEqual([[1, 'm', START, 'x', 2]]);
  });

  test('a name that is not allowed is told on each of its lines, of stations and of parts', () => {
    const long = 'x'.repeat(65);
    const rows = [
      `1,${long},start,a`,
      `2,${long},start,a`,
      `3,m,start,${long}`,
      `4,m,start,${long}`,
      '5,-,start,a',
    ];
    const { taken, damage } = records(log(rows, 'time,station,signal,part'));
    expect(taken).toEqual([]);
    expect(damage.map(({ what, count, firstLine }) => [what, count, firstLine])).toEqual([
      ['station', 3, 2],
      ['part', 2, 4],
    ]);
  });

  test('parts up to the limit, and those that are named already', () => {
    const rows = Array.from({ length: 202 }, (_, k) => `${k},m,start,p${k}`);
    const renames = new Map([['other', 'p7']]);
    const { taken, damage } = records(log([...rows, '900,m,start,other'], 'time,station,signal,part'), {
      renames,
    });
    expect(taken.map(([, , , part]) => part)).toEqual([
      ...Array.from({ length: 200 }, (_, k) => `p${k}`),
      'p7',
    ]);
    expect(damage).toMatchObject([{ kind: 'broken line', what: 'part', count: 2, firstLine: 202 }]);
    const many = Array.from({ length: 600 }, (_, k) => `${k},m${k},start`);
    const [, first] = records(log(many)).complaints;
    expect(first?.text).toBe('found `m500`, but the log names 500 stations already; more are not read');
  });

  describe('the clock', () => {
    const DAY_S = Date.UTC(2026, 3, 5) / 1000;

    test('of seconds begins at 0, or where it is said to', () => {
      const text = log(['5.5,m,start', '6.125,m,finish', '7,m,start']);
      expect(records(text)).toMatchObject({
        clock: { form: 'seconds', baseS: 0, offsetMin: 0, resolutionS: 0.001 },
        begun: [[null, 0]],
      });
      const start = { epochMs: 1000 * DAY_S, offsetMin: 120 };
      expect(records(text, { start, zone: 'Europe/Berlin' })).toMatchObject({
        clock: { form: 'seconds', baseS: 0, offsetMin: 0 },
        begun: [[DAY_S, 120]],
        taken: [
          [5.5, 'm', START, null, 2],
          [6.125, 'm', FINISH, null, 3],
          [7, 'm', START, null, 4],
        ],
      });
    });

    test('of dates begins with the first of its days', () => {
      const zoned = log(['2026-04-05T06:00:00+02:00,m,start', '2026-04-06T06:00:00.25+02:00,m,start']);
      expect(records(zoned)).toMatchObject({
        clock: { form: 'zoned', baseS: DAY_S, offsetMin: 120, resolutionS: 0.01 },
        begun: [[DAY_S, 120]],
        taken: [
          [4 * 3600, 'm', START, null, 2],
          [28 * 3600 + 0.25, 'm', START, null, 3],
        ],
      });
      const local = log(['2026-04-05 06:00,m,start']);
      expect(records(local)).toMatchObject({
        clock: { form: 'local', baseS: DAY_S, offsetMin: 0, resolutionS: 1 },
        begun: [[DAY_S, 0]],
        taken: [[6 * 3600, 'm', START, null, 2]],
      });
      expect(records(local, { zone: 'America/New_York' })).toMatchObject({
        clock: { form: 'zoned', baseS: DAY_S, offsetMin: -240 },
        begun: [[DAY_S, -240]],
        taken: [[10 * 3600, 'm', START, null, 2]],
      });
    });

    test('is none without a line that can be used', () => {
      expect(records(log(['noon,m,start'])).clock).toBeNull();
    });

    test('of an hour that comes twice is the first until it would run back by more than a minute', () => {
      // From 2:00 of summer time, 11 hours ahead, the clock there goes back to 1:30, ten and a half hours ahead.
      const clocks = ['01:45:00', '01:45:30', '01:44:45', '01:31:00', '01:45:00', '02:10:00'];
      const { taken, clock } = records(log(clocks.map((at) => `2026-04-05 ${at},m,start`)), {
        zone: 'Australia/Lord_Howe',
      });
      expect(clock).toMatchObject({ form: 'zoned', offsetMin: 660 });
      const minutes = taken.map(([at]) => Number(at) / 60);
      expect(minutes).toEqual([-555, -554.5, -555.25, -539, -525, -500]);
    });
  });

  test('a log that is refused is not read on', () => {
    const header = 'time\tstation\tsignal\n';
    for (const length of [7, 1e6]) {
      const { taken, complaints, clock } = records(`${header}${header}1\tm`, {}, length);
      expect([taken, complaints.length, clock]).toEqual([[], 1, null]);
    }
    const reader = new LogReader(PLAIN_READING, new LogAnalysis());
    expect([reader.push(header), reader.push('1,m,start\n')]).toEqual([false, false]);
    expect(new LogReader(PLAIN_READING, new LogAnalysis()).push('ti\0me')).toBe(false);
  });

  test('what follows the beginning of a line that is too long is no line of its own', () => {
    const analysis = new LogAnalysis();
    const add = vi.spyOn(analysis, 'add');
    const reader = new LogReader(PLAIN_READING, analysis);
    for (const piece of [log(['1,m,start']), '9'.repeat(10_001), '5,m,start\n', '6,m,start\n'])
      expect(reader.push(piece)).toBe(true);
    expect(add.mock.calls.map(([at, , , , line]) => [at, line])).toEqual([
      [1, 2],
      [6, 4],
    ]);
  });

  test('NUL in a line of the log breaks that line alone', () => {
    const rows = Array.from({ length: 20 }, (_, k) => `${k},m,start`);
    const { complaints, damage } = records(log([...rows, '\0,m,start']));
    expect([complaints, damage[0]]).toMatchObject([[], { what: 'time', count: 1, firstLine: 22 }]);
  });
});

test('one line in ten may be broken, and no more', () => {
  const good = Array.from({ length: 9 }, (_, k) => `${k},m,start`);
  expect(read(log([...good, 'noon,m,start'])).said).toBe('');
  expect(read(log([...good.slice(1), 'noon,m,start'])).said).toContain('1 of 9 lines cannot be read');
});

test('the form of tables beside a log is that of its header', () => {
  const form = (header: string) => {
    const reader = new LogReader(PLAIN_READING, new LogAnalysis());
    reader.push(header);
    return reader.csvForm();
  };
  expect(form('time;station;signal\n')).toEqual(CSV_FORMS['semicolon-comma']);
  expect(form('time,station,signal\n')).toEqual(CSV_FORMS['comma-point']);
  expect(form('')).toEqual(CSV_FORMS['comma-point']);
});

test('a log in pieces is the log', () => {
  const text = log(
    Array.from({ length: 300 }, (_, k) => [
      `${100 * k},m,start`,
      `${100 * k + 60 + (k % 7)},m,finish`,
    ]).flat(),
  );
  const of = (pieceLength: number) => readLog(text, null, {}, null, pieceLength).result;
  expect(of(13)).toEqual(of(100_000));
});
