// Reading the text of a log: forms of time, spreadsheet forms, broken lines, and what is refused.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { LogAnalysis } from '../../../src/core/log/log-analysis.js';
import type { LogClock } from '../../../src/core/log/log-clock.js';
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

  test('times in two forms, and more stations than the limit', () => {
    const { said } = read(log(['0,m,start', '2026-10-19T06:00:00Z,m,finish']));
    expect(said).toContain('run.csv, line 3, column time  error LOG05');
    expect(said).toContain('which is written in another form than the times before it');
    const many = Array.from({ length: 600 }, (_, k) => `${k},m${k},start`);
    expect(read(log(many)).said).toContain('run.csv, line 502, column station  error LOG03');
  });
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
